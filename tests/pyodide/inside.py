"""Runs inside Pyodide: pytest on the files of the job, with every outcome counted."""

import json
import sys
import types
from collections import Counter

job = json.loads(job_json)  # noqa: F821
sys.path[:0] = ["/project", "/packages"]
sys.dont_write_bytecode = True

# The tests' common settings name hypothesis, whose binary half does not exist for this platform; files that draw cases
# with it are not in the job.
stand_in = types.ModuleType("hypothesis")
stand_in.settings = type("settings", (), {"register_profile": lambda *a, **k: None, "load_profile": lambda *a: None})
sys.modules["hypothesis"] = stand_in

import pytest  # noqa: E402


class Count:
    """Counts outcomes and keeps the words of what failed."""

    def __init__(self):
        self.outcomes = Counter()
        self.failed = []

    def pytest_runtest_logreport(self, report):
        if report.when == "call" or report.outcome != "passed":
            self.outcomes[report.outcome] += 1
            if report.failed:
                self.failed.append(f"{report.nodeid}: {str(report.longrepr)[-700:]}")

    def pytest_collectreport(self, report):
        if report.failed:
            self.outcomes["failed"] += 1
            self.failed.append(f"{report.nodeid}: {str(report.longrepr)[-700:]}")


count = Count()
options = ["-q", "--import-mode=importlib", "-p", "no:cacheprovider", "--rootdir=/project", "--tb=short"]
status = pytest.main([*options, *(f"/project/{name}" for name in job["files"])], plugins=[count])
outcome = json.dumps(
    {"status": int(status), "outcomes": count.outcomes, "failed": count.failed[:10], "python": sys.version.split()[0]}
)
