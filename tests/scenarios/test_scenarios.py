"""Whole builds with the verdicts they must get, each a data file under cases/, checked through the terminal.

A file states ``explanation``, ``shop`` and what is chosen: ``vehicle`` and ``[options]``, or ``ready`` (one of the
shop's ready builds) with what differs from it (0 takes an option out), and ``[trip]`` with what differs from the shop's
usual trip. ``expect`` lists "rule:verdict", the verdict being the most serious of that rule's findings, or "none". With
``others = "calm"`` no other rule may warn. Tables ``figures`` (by figure), ``measured``, ``limit`` and ``margin`` (by
rule) hold [value, how far it may be off].
"""

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from engine.document import FIGURES
from engine.enquiry.door import write_enquiry
from engine.rules import all_rules
from tests.shops import Checked, check, enquiry

FILES = sorted(Path(__file__).parent.glob("cases/**/*.toml"))
KEYS = {
    "explanation", "shop", "vehicle", "ready", "options", "trip", "expect", "others",
    "figures", "measured", "limit", "margin", "mentions",
}  # fmt: skip
SERIOUS = ("none", "ok", "note", "tight", "unknown", "fails")


def worst_of(checked: Checked) -> dict[str, dict[str, Any]]:
    """The most serious finding of every rule that had something to say."""
    worst: dict[str, dict[str, Any]] = {}
    for finding in checked.findings:
        have = worst.get(finding["rule"])
        if have is None or SERIOUS.index(finding["verdict"]) > SERIOUS.index(have["verdict"]):
            worst[finding["rule"]] = finding
    return worst


@pytest.mark.parametrize("path", FILES, ids=lambda p: f"{p.parent.name}/{p.stem}")
def test_a_whole_build_gets_its_verdicts(path: Path, tmp_path: Path) -> None:
    case = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)
    assert case.keys() <= KEYS and {"explanation", "shop", "expect"} <= case.keys()
    assert len(case["explanation"]) > 40
    build_file = tmp_path / "build.json"
    trip = {k: float(v) if isinstance(v, Decimal) and k != "budget" else v for k, v in case.get("trip", {}).items()}
    asked = enquiry(case["shop"], case.get("vehicle"), case.get("options"), case.get("ready"), **trip)
    build_file.write_text(write_enquiry(asked), encoding="utf-8")
    checked = check(case["shop"], build_file)

    worst = worst_of(checked)
    codes = {r.code for r in all_rules()}
    for line in case["expect"]:
        code, _, verdict = line.partition(":")
        assert code in codes and verdict in SERIOUS, line
        found = worst.get(code, {"verdict": "none", "cause": ""})
        assert found["verdict"] == verdict, f"{code}: {found['verdict']}, not {verdict}. {found['cause']}"
    if case.get("others") == "calm":
        expected = {line.partition(":")[0] for line in case["expect"]}
        loud = [
            f"{c}: {f['cause']}" for c, f in worst.items() if c not in expected and f["verdict"] not in ("ok", "note")
        ]
        assert not loud
    assert checked.status == (1 if any(f["verdict"] == "fails" for f in checked.findings) else 0)

    for key, (value, off) in case.get("figures", {}).items():
        assert key in FIGURES
        assert checked.figures[key]["value"] == pytest.approx(float(value), abs=float(off)), key
    for part in ("measured", "limit", "margin"):
        for code, (value, off) in case.get(part, {}).items():
            assert worst[code][part] == pytest.approx(float(value), abs=float(off)), f"{part} of {code}"
    for code, text in case.get("mentions", {}).items():
        finding = worst[code]
        assert text in f"{finding['cause']} {finding['remedy']} {' '.join(finding['options'])}"


def test_there_are_scenarios_of_every_shop() -> None:
    shops = {tomllib.loads(p.read_text(encoding="utf-8"))["shop"] for p in FILES}
    assert shops == {"quillback", "hallamoor", "proving-yard"}
    assert len(FILES) >= 40


def test_every_verdict_that_can_stop_a_build_occurs_in_some_scenario() -> None:
    seen = {line for p in FILES for line in tomllib.loads(p.read_text(encoding="utf-8"))["expect"]}
    stopping = {f"{r.code}:fails" for r in all_rules() if "fails" in r.says and r.category in ("safety", "legal")}
    assert stopping <= seen, sorted(stopping - seen)
