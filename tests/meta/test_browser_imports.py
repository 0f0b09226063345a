"""The part of the engine that travels to the browser needs nothing that is not there."""

import json
import subprocess
import sys

import pytest

AUTHORS_ONLY = ("pint", "click", "rich", "tree_sitter", "tree_sitter_toml", "mkdocs", "material", "numpy", "scipy")
MISSING_THERE = ("ssl", "_ssl", "sqlite3", "multiprocessing", "subprocess", "tkinter", "curses", "readline")
"""Parts of the standard library that the browser's Python lacks or cannot use."""

TRAVELLERS = {
    "engine", "pydantic", "pydantic_core", "annotated_types", "typing_extensions", "typing_inspection", "jinja2",
    "markupsafe",
}  # fmt: skip

SCRIPT = """
import json, sys

class Blocker:
    blocked = set(json.loads(sys.argv[1]))
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in self.blocked:
            raise ModuleNotFoundError(f"{name} is blocked", name=name)
        return None

for name in list(sys.modules):
    if name.partition(".")[0] in Blocker.blocked:
        del sys.modules[name]
sys.meta_path.insert(0, Blocker())
before = set(sys.modules)
for name in json.loads(sys.argv[2]):
    __import__(name)
from engine.rules import all_rules
assert all_rules()
from engine.enquiry.climate import load_places
assert load_places()
new = {n.partition(".")[0] for n in set(sys.modules) - before}
foreign = {n for n in new if "site-packages" in str(getattr(sys.modules.get(n), "__file__", None) or "")}
print(json.dumps(sorted(foreign)))
"""

BROWSER = ("engine.desk", "engine.enquiry.door", "engine.catalogue.published", "engine.enquiry.wording")


def _run(blocked, modules):
    command = [sys.executable, "-c", SCRIPT, json.dumps(blocked), json.dumps(modules)]
    return subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)


def test_the_blocker_blocks():
    # Without this the test below could pass by doing nothing.
    done = _run(["pydantic"], ["engine.desk"])
    assert done.returncode != 0
    assert "pydantic is blocked" in done.stderr


@pytest.mark.parametrize("blocked", [AUTHORS_ONLY, AUTHORS_ONLY + MISSING_THERE], ids=["authors", "and-missing-there"])
def test_the_engine_imports_without_what_the_browser_lacks(blocked):
    done = _run(blocked, BROWSER)
    assert done.returncode == 0, done.stderr[-1500:]
    extra = set(json.loads(done.stdout)) - TRAVELLERS
    assert extra == set()
