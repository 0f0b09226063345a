"""The engine's own tests, run a second time inside the browser's Python, so that both are held to the same numbers."""

import ast
import importlib.util
import json
import shutil
import subprocess
from pathlib import Path

import pytest

from site_build.bundle.archives import read_zip
from site_build.bundle.fetch import fetch
from site_build.bundle.trim import site_files
from site_build.progress import silent

ROOT = Path(__file__).parents[2]
FOLDERS = ("tests/physics", "tests/rules", "tests/build", "tests/enquiry", "tests/scenarios", "tests/sheets")
PURE = ("pytest", "_pytest", "pluggy", "iniconfig", "packaging", "pygments", "click", "pint", "flexparser", "flexcache",
        "platformdirs", "py")  # fmt: skip
"""Packages of this environment without binaries, which any Python can import."""
NOT_THERE = {
    "hypothesis",
    "jsonschema",
    "subprocess",
    "scipy",
    "pvlib",
    "rich",
    "tree_sitter",
    "tracemalloc",
    "timeit",
    "tarfile",
}
"""Modules that the browser's Python cannot have, or that a test uses to watch this machine."""


def files_for_both() -> list[str]:
    """Test files whose imports all exist inside."""
    found = []
    for folder in FOLDERS:
        for path in sorted((ROOT / folder).rglob("test_*.py")):
            if not _names(path) & NOT_THERE:
                found.append(path.relative_to(ROOT).as_posix())
    return found


def _names(path: Path) -> set[str]:
    """Top-level modules a file imports, also through helpers of the tests."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module.split(".")[0])
            helper = ROOT / Path(*node.module.split(".")).with_suffix(".py")
            if node.module.startswith("tests.") and helper.is_file():
                names |= _names(helper)
    return names


@pytest.fixture(scope="module")
def packages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with what the tests import: the browser's own packages, and pytest."""
    folder = tmp_path_factory.mktemp("packages")
    modules, (binary_name, binary), _ = site_files(fetch(silent))
    for name, data in {**modules, binary_name: binary}.items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    for name in PURE:
        spec = importlib.util.find_spec(name)
        assert spec is not None and spec.origin is not None
        source = Path(spec.origin)
        if source.name == "__init__.py":
            shutil.copytree(source.parent, folder / name, ignore=shutil.ignore_patterns("__pycache__", "*.so"))
        else:
            shutil.copy(source, folder / source.name)
    return folder


def test_the_engines_tests_pass_in_the_browsers_python(packages: Path, tmp_path: Path) -> None:
    files = files_for_both()
    assert len(files) >= 12, files
    job = tmp_path / "job.json"
    job.write_text(json.dumps({"files": files}))
    fetched = fetch(silent)
    script = Path(__file__).with_name("inside.mjs")
    command = (str(fetched.node), str(script), str(fetched.npm / "pyodide"), str(ROOT), str(packages), str(job))
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=1800)
    assert done.returncode == 0, (done.stdout + done.stderr)[-3000:]
    outcome = json.loads(done.stdout.strip().splitlines()[-1])
    assert not outcome["failed"], "\n\n".join(outcome["failed"])
    assert outcome["status"] == 0
    assert outcome["python"].startswith("3.14")
    passed = outcome["outcomes"]["passed"]
    assert passed > 300, outcome
    print(f"{passed} tests passed inside Pyodide, Python {outcome['python']}")


def test_the_wheels_travel_whole() -> None:
    """What trimming leaves of each wheel is byte for byte what its maker published."""
    fetched = fetch(silent)
    modules, _, _ = site_files(fetched)
    originals: dict[str, bytes] = {}
    for wheel in fetched.wheels.glob("*.whl"):
        originals |= read_zip(wheel)
    compared = [name for name in modules if name in originals]
    assert len(compared) > 90
    assert all(modules[name] == originals[name] for name in compared)
