"""The bundle: pinned like the rest, reproducible, and with the engine's browser side only."""

import gzip
import importlib.util
import re
from pathlib import Path

import pytest

from site_build.application import BROWSER
from site_build.bundle import engine_files as walker
from site_build.bundle.archives import packed, stored_zip
from site_build.bundle.engine_files import engine_files
from site_build.bundle.fetch import LOCKS
from site_build.bundle.trim import missing_from
from site_build.paths import PROJECT
from site_build.progress import SiteProblem

_PIN = re.compile(r"^([A-Za-z0-9_.-]+)==([^\s;\\]+)", re.MULTILINE)


def test_the_browsers_pins_are_the_projects_pins() -> None:
    project = dict(_PIN.findall((PROJECT / "requirements.lock").read_text(encoding="utf-8")))
    browser = dict(_PIN.findall((LOCKS / "browser.lock").read_text(encoding="utf-8")))
    assert set(browser) == {
        "annotated-types", "jinja2", "markupsafe", "pydantic", "pydantic-core", "typing-extensions",
        "typing-inspection",
    }  # fmt: skip
    assert {name: project[name] for name in browser} == browser


@pytest.mark.parametrize("name", ["browser.lock", "node.lock", "package-lock.json", "package.json"])
def test_locks_have_hashes_and_name_no_registry(name: str) -> None:
    text = (LOCKS / name).read_text(encoding="utf-8")
    assert "://" not in text
    if name.endswith(".lock"):
        pins = _PIN.findall(text)
        assert pins and text.count("--hash=sha256:") >= len(pins)
    if name == "package-lock.json":
        assert text.count('"integrity": "sha512-') == text.count('"version":')


def test_archives_depend_on_content_alone() -> None:
    files = {"b/x.py": b"1", "a.py": b"2"}
    turned = dict(reversed(files.items()))
    assert stored_zip(files) == stored_zip(turned)
    assert gzip.decompress(packed(b"abc")) == b"abc" and packed(b"abc") == packed(b"abc")


def test_only_the_engines_browser_side_travels() -> None:
    files, outside = engine_files(PROJECT)
    assert "engine/desk.py" in files and "engine/rules/gross_mass.py" in files
    assert "engine/enquiry/climate/places.json" in files
    assert not [name for name in files if name.startswith(("engine/demo", "engine/cli"))]
    assert not outside & {"pint", "click", "rich", "tree_sitter", "tree_sitter_toml", "mkdocs"}
    assert "engine/catalogue/measures.py" not in files and "engine/catalogue/shop.py" not in files
    every_rule = {p.relative_to(PROJECT).as_posix() for p in (PROJECT / "engine" / "rules").glob("*.py")}
    assert every_rule <= set(files)


def test_a_door_that_reaches_the_authors_side_stops_the_build(tmp_path: Path) -> None:
    (tmp_path / "engine" / "demo").mkdir(parents=True)
    for name, text in {
        "__init__.py": "",
        "desk.py": "def f():\n    from engine import demo\n",
        "demo/__init__.py": "",
    }.items():
        (tmp_path / "engine" / name).write_text(text)
    with pytest.raises(SiteProblem, match="author's side"):
        engine_files(tmp_path)


@pytest.mark.parametrize("name", walker.NEVER)
def test_what_stays_with_the_author_is_there_to_be_named(name: str) -> None:
    assert importlib.util.find_spec(name)


def test_imports_for_type_checkers_do_not_travel(tmp_path: Path) -> None:
    (tmp_path / "engine").mkdir()
    (tmp_path / "engine" / "__init__.py").write_text("")
    text = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import pint\n    from engine import cli\n"
    (tmp_path / "engine" / "desk.py").write_text(text)
    files, outside = engine_files(tmp_path)
    assert set(files) == {"engine/__init__.py", "engine/desk.py"} and outside == {"typing"}
    assert walker.DOOR == "engine.desk"


def test_a_missing_module_is_noticed() -> None:
    assert missing_from(["json/__init__.py", "math.py"], {"json", "math", "sqlite3"}) == ["sqlite3"]


def test_what_the_page_s_script_imports_is_fetched_with_it() -> None:
    """A script that is only found when another has arrived comes after all that the calculation loads."""
    todo, imported = ["page"], set()
    while todo:
        script = (BROWSER / f"{todo.pop()}.js").read_text(encoding="utf-8")
        new = set(re.findall(r'from "\./(\w+)\.js"', script)) - imported
        imported |= new
        todo += new - {"morphdom"}
    theme = (PROJECT / "site_build" / "theme" / "sheet.html").read_text(encoding="utf-8")
    (named,) = re.findall(r"for name in \((.+?)\)", theme)
    assert imported == set(re.findall(r'"(\w+)"', named)) and len(imported) > 5
