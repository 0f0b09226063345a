"""The terminal: exit statuses, messages that say where and what, and no file half written."""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner, Result

import engine.cli
from engine.document import document_schema
from engine.enquiry.door import MOST_BYTES, write_enquiry
from tests.shops import FOLDERS, catalogue, enquiry

VALIDATOR = jsonschema.Draft202012Validator(document_schema())


@pytest.fixture(autouse=True)
def _shops_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each good shop's folder is read once per run; any other folder as ever."""
    known = {folder.resolve(): name for name, folder in FOLDERS.items()}
    read = engine.cli.load_catalogue

    def load(folder: Path) -> object:
        name = known.get(folder.resolve())
        return catalogue(name) if name else read(folder)

    monkeypatch.setattr(engine.cli, "load_catalogue", load)


@pytest.fixture
def run() -> Callable[..., Result]:
    """Runs a command line; anything but a clean exit is a test's failure."""

    def go(*words: str | Path) -> Result:
        return CliRunner().invoke(engine.cli.main, [str(w) for w in words], catch_exceptions=False)

    return go


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """A build of the default shop that has no failing finding."""
    path = tmp_path / "good.json"
    path.write_text(write_enquiry(enquiry("quillback", ready="long-winter-box")), encoding="utf-8")
    return path


@pytest.fixture
def failing(tmp_path: Path) -> Path:
    """A build of the default shop in which something fails."""
    path = tmp_path / "failing.json"
    path.write_text(write_enquiry(enquiry("quillback", "box")), encoding="utf-8")
    return path


def test_a_build_that_holds_together_ends_with_0(run, good):
    result = run("check", good, "--json")
    assert result.exit_code == 0
    assert result.stderr == ""
    document = json.loads(result.stdout)
    VALIDATOR.validate(document)
    assert not [f for f in document["findings"] if f["verdict"] == "fails"]


def test_a_build_that_fails_ends_with_1(run, failing):
    result = run("check", failing, "--json")
    assert result.exit_code == 1
    document = json.loads(result.stdout)
    VALIDATOR.validate(document)
    assert [f for f in document["findings"] if f["verdict"] == "fails"]


def test_tables_say_the_same_as_the_document(run, failing):
    document = json.loads(run("check", failing, "--json").stdout)
    result = run("check", failing)
    assert result.exit_code == 1
    fails = sum(f["verdict"] == "fails" for f in document["findings"])
    assert f"{fails} checks fail" in " ".join(result.stdout.split())
    assert catalogue("quillback").workshop.name in result.stdout
    assert "licensed people" in result.stdout
    assert "labor hours" in result.stdout and "labour" not in result.stdout
    grave = any(f["verdict"] == "fails" and f["category"] in ("safety", "legal") for f in document["findings"])
    assert grave and "Cannot be built like this." in result.stdout


def test_another_shop_can_be_named(run, tmp_path):
    path = tmp_path / "build.json"
    path.write_text(write_enquiry(enquiry("hallamoor", ready="dry-stone")), encoding="utf-8")
    assert run("check", path, "--shop", FOLDERS["hallamoor"], "--json").exit_code == 0
    result = run("check", path)
    assert result.exit_code == 2, "the default shop is another one"
    assert "workshop: this build was made for 'hallamoor'" in result.stderr and "--shop" in result.stderr
    assert "vehicle" not in result.stderr
    # What names no workshop is held against the one that is asked.
    named = json.loads(path.read_text(encoding="utf-8"))
    del named["workshop"]
    path.write_text(json.dumps(named), encoding="utf-8")
    result = run("check", path)
    assert result.exit_code == 2, "the default shop has no such van"
    assert "vehicle" in result.stderr and "van-35" in result.stderr


TRIP = {"place": "denver", "months": [6]}
BAD = [
    ("empty", "", "file"),
    ("no-json", "vehicle = 'box'", "line 1"),
    ("cut-off", '{"vehicle": "box", "trip": {"place"', "line 1"),
    ("a-list", "[]", "file"),
    ("no-vehicle", json.dumps({"trip": TRIP}), "vehicle"),
    ("no-trip", json.dumps({"vehicle": "box"}), "trip"),
    ("unknown-key", json.dumps({"vehicle": "box", "trip": TRIP, "colour": "red"}), "colour"),
    ("count-of-none", json.dumps({"vehicle": "box", "trip": TRIP, "options": {"panel-200": 0}}), "options.panel-200"),
    ("count-as-text", json.dumps({"vehicle": "box", "trip": TRIP, "options": {"panel-200": "2"}}), "options.panel-200"),
    ("month-13", json.dumps({"vehicle": "box", "trip": TRIP | {"months": [13]}}), "trip.months[0]"),
    ("no-such-place", json.dumps({"vehicle": "box", "trip": TRIP | {"place": "atlantis"}}), "trip.place"),
    ("no-such-vehicle", json.dumps({"vehicle": "rocket", "trip": TRIP}), "vehicle"),
    ("newer-format", json.dumps({"format": 99, "vehicle": "box", "trip": TRIP}), "format"),
    ("too-cold-inside", json.dumps({"vehicle": "box", "trip": TRIP | {"inside_degc": -300}}), "trip.inside_degc"),
    ("key-twice", '{"vehicle": "box", "vehicle": "bus", "trip": {"place": "denver", "months": [6]}}', "vehicle"),
]


@pytest.mark.parametrize(("text", "where"), [b[1:] for b in BAD], ids=[b[0] for b in BAD])
def test_a_bad_build_file_gives_one_message_with_its_place(run, tmp_path, text, where):
    path = tmp_path / "bad.json"
    path.write_text(text, encoding="utf-8")
    for command in (("check", path, "--json"), ("check", path), ("sheet", path, "-o", tmp_path / "sheet.html")):
        result = run(*command)
        assert result.exit_code == 2
        assert result.stdout == ""
        [line] = result.stderr.splitlines()
        assert line.startswith(str(path)) and where in line
        assert "Traceback" not in line and "pydantic" not in line
    assert not (tmp_path / "sheet.html").exists()


def test_several_faults_are_told_at_once(run, tmp_path):
    path = tmp_path / "bad.json"
    path.write_text(json.dumps({"vehicle": "Box!", "trip": {"place": "denver", "months": [0], "adults": 99}}))
    result = run("check", path)
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 3


def test_a_file_that_is_not_there_or_no_text(run, tmp_path):
    for path in (tmp_path / "nowhere.json", tmp_path):
        result = run("check", path)
        assert result.exit_code == 2
        assert str(path) in result.stderr and "cannot be read" in result.stderr
    latin = tmp_path / "latin.json"
    latin.write_bytes(b'{"title": "caf\xe9"}')
    result = run("check", latin)
    assert result.exit_code == 2
    assert "UTF-8" in result.stderr


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no file without end on this system")
def test_a_file_without_end_is_not_read_to_its_end(run, tmp_path):
    result = run("check", "/dev/zero")
    assert result.exit_code == 2
    assert result.stderr.startswith("/dev/zero: file: is larger than 256 kB")
    cut = tmp_path / "cut.json"
    cut.write_text('{"title": "' + "x" * (MOST_BYTES - 12) + "ü" * 9, encoding="utf-8")
    assert "is larger than" in run("check", cut).stderr


def test_a_shop_that_cannot_be_read(run, good, tmp_path):
    shop = tmp_path / "shop"
    shop.mkdir()
    (shop / "workshop.toml").write_text("id = \n", encoding="utf-8")
    result = run("check", good, "--shop", shop)
    assert result.exit_code == 2
    assert "workshop.toml" in result.stderr and "loadstead shop check" in result.stderr


def test_a_sheet_is_one_whole_html_file(run, good, tmp_path):
    out = tmp_path / "sheet.html"
    result = run("sheet", good, "-o", out)
    assert result.exit_code == 0
    assert result.stdout.strip() == str(out)
    html = out.read_text(encoding="utf-8")
    assert html.lstrip().lower().startswith("<!doctype html") and html.rstrip().endswith("</html>")
    assert catalogue("quillback").workshop.name in html
    # It opens anywhere: no script and no file or server that it would need.
    for outside in ("<script", "<link", "<iframe", 'src="', "@import", "url(http"):
        assert outside not in html
    assert sorted(p.name for p in tmp_path.iterdir()) == ["good.json", "sheet.html"]


def test_a_sheet_of_a_failing_build_is_written_too(run, failing, tmp_path):
    assert run("sheet", failing, "-o", tmp_path / "sheet.html").exit_code == 0
    assert "fails" in (tmp_path / "sheet.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("command", ["sheet", "schema"])
@pytest.mark.parametrize("where", ["missing folder", "file for a folder", "folder for a file"])
def test_nothing_is_left_when_the_output_cannot_be_written(run, good, tmp_path, command, where):
    (tmp_path / "a-file").write_text("as it was", encoding="utf-8")
    (tmp_path / "a-folder").mkdir()
    out = {
        "missing folder": tmp_path / "nowhere" / "out",
        "file for a folder": tmp_path / "a-file" / "out",
        "folder for a file": tmp_path / "a-folder",
    }[where]
    before = sorted(str(p) for p in tmp_path.rglob("*"))
    result = run(command, *([good] if command == "sheet" else []), "-o", out)
    assert result.exit_code == 2
    [line] = result.stderr.splitlines()
    assert str(out) in line and "cannot be written" in line
    assert sorted(str(p) for p in tmp_path.rglob("*")) == before
    assert (tmp_path / "a-file").read_text(encoding="utf-8") == "as it was"


def test_what_is_no_file_is_written_to_and_never_replaced(run, good, tmp_path):
    """A named pipe stands for /dev/stdout and its like; a link keeps pointing where it pointed."""
    real, link, pipe = tmp_path / "real.html", tmp_path / "link.html", tmp_path / "pipe"
    real.write_text("last week's sheet", encoding="utf-8")
    link.symlink_to(real.name)
    assert run("sheet", good, "-o", link).exit_code == 0
    assert link.is_symlink() and real.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    os.mkfifo(pipe)
    read: list[str] = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_text(encoding="utf-8")))
    reader.start()
    assert run("schema", "-o", pipe).exit_code == 0
    reader.join(timeout=30)
    assert pipe.is_fifo() and json.loads(read[0]) == document_schema()


@pytest.mark.parametrize("out", [".", "", ".."])
def test_a_name_that_is_no_file_name_is_told(run, good, out):
    for words in (("sheet", good), ("schema",)):
        result = run(*words, "-o", out)
        assert result.exit_code == 2
        assert result.stderr == f"{Path(out)}: cannot be written (Is a directory).\n"


def test_a_neighbour_of_the_same_name_stays(run, good, tmp_path):
    (tmp_path / "sheet.html.part").write_text("somebody's own", encoding="utf-8")
    assert run("sheet", good, "-o", tmp_path / "sheet.html").exit_code == 0
    assert (tmp_path / "sheet.html.part").read_text(encoding="utf-8") == "somebody's own"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["good.json", "sheet.html", "sheet.html.part"]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="this user may write anywhere")
def test_a_folder_without_leave_to_write(run, good, tmp_path):
    shut = tmp_path / "shut"
    shut.mkdir()
    shut.chmod(0o500)
    assert run("sheet", good, "-o", shut / "sheet.html").exit_code == 2
    assert list(shut.iterdir()) == []


def test_an_old_sheet_stays_when_the_new_one_cannot_be_finished(run, good, tmp_path, monkeypatch):
    out = tmp_path / "sheet.html"
    out.write_text("last week's sheet", encoding="utf-8")

    def full(self: Path, *rest: object, **more: object) -> int:
        with self.open("w") as half:
            half.write("<!doctype html><p>half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_text", full)
    result = run("sheet", good, "-o", out)
    monkeypatch.undo()
    assert result.exit_code == 2
    assert "No space left" in result.stderr
    assert out.read_text(encoding="utf-8") == "last week's sheet"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["good.json", "sheet.html"]


def test_the_schema_is_printed_and_written(run, tmp_path):
    printed = json.loads(run("schema").stdout)
    assert printed == document_schema()
    assert run("schema", "-o", tmp_path / "check.schema.json").exit_code == 0
    assert json.loads((tmp_path / "check.schema.json").read_text(encoding="utf-8")) == printed
    jsonschema.Draft202012Validator.check_schema(printed)


@pytest.mark.parametrize("name", sorted(FOLDERS))
def test_a_good_shop_has_nothing_to_put_right(run, name):
    result = run("shop", "check", FOLDERS[name], "--json")
    assert result.exit_code == 0
    told = json.loads(result.stdout)
    assert told["fine"] is True
    assert [r["id"] for r in told["ready"]] == [r.id for r in catalogue(name).ready]
    # What the demo workshops have in their yards can be sold.
    assert name == "proving-yard" or not any(r["fails"] for r in told["ready"])


def test_a_document_has_nothing_else_in_it_though_what_reads_it_passes_for_a_terminal(run, monkeypatch):
    monkeypatch.setenv("FORCE_COLOR", "1")
    result = run("shop", "check", FOLDERS["hallamoor"], "--json")
    assert json.loads(result.stdout)["fine"] is True


def test_what_fails_in_a_finished_vehicle_is_told_with_the_shop(run, tmp_path):
    folder = tmp_path / "shop"
    shutil.copytree(FOLDERS["hallamoor"], folder)
    file = folder / "ready" / "dry-stone.toml"
    listed = file.read_text(encoding="utf-8")
    assert "\ngas-locker = 1" in listed
    file.write_text(listed.replace("\ngas-locker = 1", ""), encoding="utf-8")
    told = json.loads(run("shop", "check", folder, "--json").stdout)
    missing = [f for r in told["ready"] for f in r["fails"]]
    assert "option-requires" in {f["rule"] for f in missing}
    assert [r["id"] for r in told["ready"] if r["fails"]] == ["dry-stone"]
    result = run("shop", "check", folder)
    # It can be published; its page tells the same.
    assert result.exit_code == 0
    said = " ".join(result.stdout.split())
    assert all(f"{f['rule']}: {f['cause']}" in said for f in missing)


def test_a_bad_shop_ends_with_2(run, tmp_path):
    result = run("shop", "check", tmp_path / "nowhere")
    assert result.exit_code == 2
    assert "nowhere" in result.output


def test_shop_schemas_are_written(run, tmp_path):
    assert run("shop", "schema", "-o", tmp_path / "new" / "schemas").exit_code == 0
    written = sorted((tmp_path / "new" / "schemas").glob("*.schema.json"))
    assert len(written) == 4
    for path in written:
        jsonschema.Draft202012Validator.check_schema(json.loads(path.read_text(encoding="utf-8")))
    (tmp_path / "a-file").write_text("as it was", encoding="utf-8")
    result = run("shop", "schema", "-o", tmp_path / "a-file")
    assert result.exit_code == 2
    assert "a-file" in result.stderr


def test_usage_faults_end_with_2(run):
    for words in (("check",), ("frob",), ("sheet", "x.json"), ("site", "serve", "--port", "70000")):
        assert run(*words).exit_code == 2


def test_help_and_version_need_no_build(run):
    assert "check" in run("--help").stdout
    assert run("--version").exit_code == 0


def test_the_console_script(good, failing, tmp_path):
    script = Path(sys.executable).with_name("loadstead")
    assert script.exists()
    bad = tmp_path / "bad.json"
    bad.write_text("{", encoding="utf-8")
    for path, status in ((good, 0), (failing, 1), (bad, 2)):
        done = subprocess.run(
            [script, "check", path, "--json"], capture_output=True, text=True, timeout=60, check=False
        )
        assert done.returncode == status, done.stderr
        if status < 2:
            VALIDATOR.validate(json.loads(done.stdout))
            assert done.stderr == ""
        else:
            assert done.stdout == "" and str(bad) in done.stderr


def shell(*words: str | Path, **more: str) -> subprocess.CompletedProcess[str]:
    """The console script as a process of its own; `more` are environment variables."""
    script = Path(sys.executable).with_name("loadstead")
    return subprocess.run(
        [script, *words], capture_output=True, text=True, timeout=60, check=False, env={**os.environ, **more}
    )


def test_a_terminal_that_lacks_characters_gets_the_same_verdicts(good, failing):
    for path, status in ((good, 0), (failing, 1)):
        told = shell("check", path, LANG="C", LC_ALL="C", PYTHONIOENCODING="ascii")
        assert (told.returncode, told.stderr) == (status, "")
        assert told.stdout.isascii()
    document = shell("check", failing, "--json", PYTHONIOENCODING="ascii")
    assert document.returncode == 1
    assert document.stdout == shell("check", failing, "--json", PYTHONIOENCODING="utf-8").stdout


def test_a_narrow_terminal_gets_sentences_not_columns_of_syllables(failing):
    told = shell("check", failing, COLUMNS="40").stdout
    assert max(map(len, told.splitlines())) <= 40
    assert "…" not in told
    wide = shell("check", failing, COLUMNS="300").stdout
    causes = re.findall(r"│ ✗ fails +│ (\S+) +│ (.+?) +│", wide)
    assert len(causes) > 2
    for rule, says in causes:
        assert f"✗ fails {rule} {says}" in " ".join(told.split())


@pytest.mark.parametrize("words", [("check",), ("check", "--json"), ("schema",), ("shop", "check")], ids=" ".join)
def test_no_verdict_when_nobody_can_read_it(failing, words):
    """Status 1 says that a finding fails; a reader that went away or a full disk says nothing of the build."""
    script = Path(sys.executable).with_name("loadstead")
    target = {"check": [failing], "schema": [], "shop": [FOLDERS["hallamoor"]]}[words[0]]
    nobody, end = os.pipe()
    os.close(nobody)
    for out, status in ((end, 141), (os.open("/dev/full", os.O_WRONLY), 2)):
        done = subprocess.run(
            [script, *words, *target], stdout=out, stderr=subprocess.PIPE, text=True, timeout=60, check=False
        )
        os.close(out)
        assert done.returncode == status, done.stderr
        assert len(done.stderr.splitlines()) == (status == 2)


@pytest.mark.skipif(os.name != "posix", reason="signals of another kind")
@pytest.mark.parametrize(("sent", "status"), [(signal.SIGTERM, 143), (signal.SIGINT, 130)])
def test_a_build_that_is_told_to_end_leaves_nothing(tmp_path, sent, status):
    script = Path(sys.executable).with_name("loadstead")
    build = subprocess.Popen([script, "site", "build", "-o", tmp_path / "site"], stdout=subprocess.DEVNULL)
    until = time.monotonic() + 60
    while not list(tmp_path.iterdir()) and time.monotonic() < until:
        time.sleep(0.05)
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".site-")]
    build.send_signal(sent)
    assert build.wait(timeout=60) == status
    assert list(tmp_path.iterdir()) == []


def test_words_of_a_shop_are_not_read_as_marks_of_the_terminal(run, tmp_path):
    folder = tmp_path / "shop"
    shutil.copytree(FOLDERS["hallamoor"], folder)
    strange = "Fitters [/b] [red]of :bus:"
    for path in (folder / "workshop.toml", *folder.glob("sections/*.toml")):
        text = path.read_text(encoding="utf-8")
        path.write_text(re.sub(r'(?m)^(name|title) = ".*"', rf'\1 = "{strange}"', text, count=1), encoding="utf-8")
    build = tmp_path / "build.json"
    build.write_text(write_enquiry(enquiry("hallamoor")), encoding="utf-8")
    for words in (("shop", "check", folder), ("check", build, "--shop", folder)):
        assert strange in run(*words).stdout
