"""Every way of spoiling a shop folder gets its message: the right place, what was found, what to write instead."""

import json
import os
import subprocess
import sys
import tomllib
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from pydantic import ValidationError

from engine.catalogue.folder import MOST_FILES
from engine.catalogue.measures import parse_quantity
from engine.catalogue.problems import Problem, ShopProblems
from engine.catalogue.reading import KINDS, read_shop
from engine.catalogue.shapes import keys_of, models_in, sample
from engine.cli_shop import shop

CASES = [
    case
    for file in sorted((Path(__file__).parents[1] / "bad_input" / "shop").glob("*.toml"))
    for case in tomllib.loads(file.read_text(encoding="utf-8"))["case"]
]


def problems_of(folder: Path, climates: tuple[str, ...]) -> tuple[Problem, ...]:
    with pytest.raises(ShopProblems) as caught:
        read_shop(folder, climates)
    return caught.value.problems


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["name"])
def test_spoilt_folder_gets_its_message(
    case: dict[str, Any], spoilt: Callable[..., Path], climates: tuple[str, ...]
) -> None:
    problems = problems_of(spoilt(*case["change"]), climates)
    told = "\n\n".join(map(str, problems))
    here = [p for p in problems if p.place == case["at"] and all(s in str(p) for s in case["says"])]
    assert here, f"expected at {case['at']}: {case['says']}\n\n{told}"
    assert len(problems) == case.get("count", 1), told
    assert "invalid" not in told.lower()
    assert not any(words in told for words in case.get("lacks", ()))


def _frozen(value: Any) -> Any:
    """With lists as the tuples that pages hold."""
    if isinstance(value, dict):
        return {k: _frozen(v) for k, v in value.items()}
    return tuple(_frozen(v) for v in value) if isinstance(value, list) else value


def test_what_a_message_says_to_write_can_be_read() -> None:
    todo, seen, tried = list(KINDS.values()), set(), 0
    while todo:
        model = todo.pop()
        if model in seen:
            continue
        seen.add(model)
        for key, field in keys_of(model).items():
            todo += models_in(field.annotation)
            line = sample(model, key)
            if line.startswith("["):
                continue
            value = tomllib.loads(line, parse_float=Decimal)[key]
            try:
                model.model_validate(
                    {key: _frozen(value)},
                    strict=True, by_alias=True, by_name=False, context={"parse": parse_quantity},
                )  # fmt: skip
            except ValidationError as error:
                assert not [e for e in error.errors() if e["loc"] and e["loc"][0] == key], line
            tried += 1
    assert tried > 500


def test_there_are_many_kinds() -> None:
    assert len({case["name"] for case in CASES}) == len(CASES) >= 80


def test_all_problems_come_at_once_by_file_and_line(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt(
        {"file": "workshop.toml", "old": 'mains = "230 V"', "new": "mains = 230"},
        {"file": "sections/warmth.toml", "old": "price = 900", "new": 'price = "900"'},
        {"file": "sections/warmth.toml", "old": 'fuel = "wood"', "new": 'fuel = "woood"'},
        {"file": "sections/power.toml", "old": '"battery-100", because', "new": '"battery-10", because'},
        {"file": "ready/first-van.toml", "old": "price = 48000", "new": "price = 48000 GBP"},
    )
    assert [p.place for p in problems_of(folder, climates)] == [
        "ready/first-van.toml:5:15",
        "sections/power.toml:56",
        "sections/warmth.toml:10",
        "sections/warmth.toml:19",
        "workshop.toml:10",
    ]


def test_an_unreadable_section_does_not_make_its_options_missing(
    spoilt: Callable[..., Path], climates: tuple[str, ...]
) -> None:
    folder = spoilt({"file": "sections/power.toml", "old": "order = 10", "new": "order = = 10"})
    assert [p.place for p in problems_of(folder, climates)] == ["sections/power.toml:3:9"]


@pytest.mark.parametrize(("start", "line_end"), [("\ufeff", "\n"), ("", "\r\n")])
def test_a_byte_order_mark_and_windows_line_ends_are_no_problem(
    start: str, line_end: str, spoilt: Callable[..., Path], climates: tuple[str, ...], small_folder: Path
) -> None:
    good = (small_folder / "workshop.toml").read_text(encoding="utf-8")
    folder = spoilt({"file": "workshop.toml", "text": start + good.replace("\n", line_end)})
    assert read_shop(folder, climates).workshop.name == "Small Shop"


def test_files_that_editors_leave_are_passed_over(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt(
        {"file": "sections/.#power.toml", "link": "somebody@somewhere.1234"},
        {"file": "sections/._power.toml", "text": "\0\0"},
        {"file": "sections/power.toml~", "text": "="},
        {"file": "notes.md", "text": "# for us"},
        {"file": ".git/config", "text": ""},
    )
    assert len(read_shop(folder, climates).sections) == 2


def test_a_shop_needs_no_finished_vehicle(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt(
        {"file": "ready/first-van.toml", "delete": True},
        {"file": "workshop.toml", "old": 'start = "first-van"\n', "new": ""},
    )
    (folder / "ready").rmdir()
    assert read_shop(folder, climates).ready == ()


def test_a_problem_reads_as_a_paragraph(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt({"file": "sections/power.toml", "old": 'idle = "10 W"', "new": 'idle = "300 W"'})
    (problem,) = problems_of(folder, climates)
    assert str(problem) == (
        "sections/power.toml:45: option inverter-1000, facets › inverter › idle\n"
        '  "300 W" is too large.\n'
        "  Wanted (own draw while switched on with nothing plugged in): at least 0 W and at most 200 W."
    )


def test_folder_not_there(tmp_path: Path, climates: tuple[str, ...]) -> None:
    (problem,) = problems_of(tmp_path / "nowhere", climates)
    assert "There is no such folder" in problem.said
    assert "nowhere" in problem.of


def test_folder_is_a_file(small_folder: Path, climates: tuple[str, ...]) -> None:
    (problem,) = problems_of(small_folder / "workshop.toml", climates)
    assert "not a folder" in problem.said


def test_empty_folder_tells_the_layout(tmp_path: Path, climates: tuple[str, ...]) -> None:
    problems = problems_of(tmp_path, climates)
    assert [(p.file, p.said) for p in problems] == [
        ("", "The folder has no workshop.toml."),
        ("sections", "There is no file in sections/."),
        ("vehicles", "There is no file in vehicles/."),
    ]


def test_a_name_with_a_zero_byte_is_told(climates: tuple[str, ...]) -> None:
    assert problems_of(Path("a\0b"), climates)


def test_too_many_files(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt()
    for number in range(MOST_FILES):
        (folder / "ready" / f"r{number}.toml").touch()
    told = problems_of(folder, climates)
    assert f"at most {MOST_FILES} are read" in told[0].said


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_pipe_is_told_and_not_waited_for(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt()
    os.mkfifo(folder / "sections" / "pipe.toml")
    (problem,) = problems_of(folder, climates)
    assert problem.place == "sections/pipe.toml"


def test_command_exits_2_and_prints_a_paragraph_each(spoilt: Callable[..., Path]) -> None:
    folder = spoilt(
        {"file": "workshop.toml", "old": 'mains = "230 V"', "new": "mains = 230"},
        {"file": "sections/warmth.toml", "old": "price = 900", "new": 'price = "900"'},
    )
    result = CliRunner().invoke(shop, ["check", str(folder)])
    assert result.exit_code == 2
    paragraphs = result.output.strip().split("\n\n")
    assert [p.split("\n")[0] for p in paragraphs[:2]] == [
        "sections/warmth.toml:10: option stove, price",
        "workshop.toml:10: mains",
    ]
    assert paragraphs[2].startswith("2 problems in ")


def test_a_terminal_without_the_characters_still_gets_its_problems(spoilt: Callable[..., Path]) -> None:
    folder = spoilt({"file": "sections/power.toml", "old": 'idle = "10 W"', "new": "idle = 10"})
    for extra in ([], ["--json"]):
        done = subprocess.run(
            [sys.executable, "-m", "engine.cli", "shop", "check", *extra, str(folder)],
            env={**os.environ, "PYTHONIOENCODING": "ascii"}, capture_output=True, text=True, timeout=60,
        )  # fmt: skip
        assert done.returncode == 2, done.stderr
        assert "10 has no unit" in done.stdout
    assert json.loads(done.stdout)["problems"][0]["key"] == "facets › inverter › idle"


def test_command_prints_json(spoilt: Callable[..., Path], small_folder: Path) -> None:
    folder = spoilt({"file": "workshop.toml", "old": 'mains = "230 V"', "new": "mains = 230"})
    result = CliRunner().invoke(shop, ["check", "--json", str(folder)])
    assert result.exit_code == 2
    (problem,) = json.loads(result.output)["problems"]
    assert problem["file"] == "workshop.toml"
    assert problem["line"] == 10
    assert problem["key"] == "mains"
    fine = CliRunner().invoke(shop, ["check", "--json", str(small_folder)])
    assert fine.exit_code == 0
    told = json.loads(fine.output)
    (finished,) = told.pop("ready")
    assert finished["id"] == "first-van"
    assert {"heater-capacity", "berths"} <= {f["rule"] for f in finished["fails"]}  # a stove of 2 kW, and no bed
    assert told == {
        "fine": True,
        "counts": {"vehicles": 1, "sections": 2, "options": 5, "ready builds": 1},
        "problems": [],
    }


def test_command_summarises_a_good_folder(small_folder: Path) -> None:
    result = CliRunner().invoke(shop, ["check", str(small_folder)])
    assert result.exit_code == 0
    assert "nothing to put right" in result.output
    assert "2 sections" in result.output
    assert "1 vehicle, 1 ready build" in result.output


def test_no_control_character_reaches_a_terminal(spoilt: Callable[..., Path]) -> None:
    folder = spoilt({"file": "sections/warmth.toml", "old": '"Wood stove"', "new": '"Wood\\u001b[2J\\u202estove"'})
    result = CliRunner().invoke(shop, ["check", str(folder)])
    assert result.exit_code == 2
    assert "\x1b" not in result.output
    assert "\u202e" not in result.output
    assert r"\x1b[2J" in result.output


def test_a_name_in_brackets_is_no_style_of_the_terminals(spoilt: Callable[..., Path]) -> None:
    folder = spoilt(
        {"file": "workshop.toml", "old": '"Small Shop"', "new": '"Small [red] Shop"'},
        {"file": "sections/warmth.toml", "old": 'title = "Warmth"', "new": 'title = "Warmth [bold]"'},
    )
    result = CliRunner().invoke(shop, ["check", str(folder)])
    assert result.exit_code == 0
    assert "Small [red] Shop: nothing to put right" in result.output and "Warmth [bold]" in result.output
