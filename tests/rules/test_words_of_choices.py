"""Words of findings on choices: whose reason is told, which part is heaviest, what a choice is called."""

from engine.build import work_out
from engine.rule import MOST_REASONS, Finding, asked_by, each_once
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import catalogue, enquiry, resolver

RULES = {r.code: r for r in all_rules()}


def said(code: str, shop: str, vehicle: str, options: dict[str, int]) -> list[Finding]:
    build = resolver(shop).resolve(enquiry(shop, vehicle, options))
    return findings_of(RULES[code], build, work_out(build))


def test_one_options_reason_is_not_told_of_the_others() -> None:
    alike = asked_by([("Hob", "They burn gas."), ("Oven", "They burn gas.")])
    assert alike["because"] == " They burn gas."
    unlike = asked_by([("Pump", "It has a circuit of its own."), ("Lamp", "Each zone is a circuit.")])
    assert unlike["because"] == " It has a circuit of its own. Each zone is a circuit."
    many = asked_by([(f"Option {k}", f"Reason {k}.") for k in range(MOST_REASONS + 1)])
    assert many["because"] == "" and many["name"].endswith("and “Option 3”")


def test_the_heaviest_part_is_a_part() -> None:
    # Three people and their baggage weigh more than anything that is fitted here.
    options = {"battery-12v-100": 1, "bath-fan": 1}
    parts = resolver("quillback").resolve(enquiry("quillback", "van", options)).parts
    [gross] = said("gross-mass", "quillback", "van", options)
    heaviest = max(parts, key=lambda p: p.mass_kg or 0.0).option.name
    assert [f.value for f in gross.facts if f.name == "heaviest part"] == [heaviest]


def test_an_option_that_does_not_fit_is_called_by_its_name() -> None:
    known = catalogue("quillback")
    misfit = next(o for s in known.sections for o in s.options if o.fits and "van" not in o.fits)
    [finding] = said("choice-known", "quillback", "van", {misfit.id: 1})
    assert finding.cause == (
        f"“{misfit.name}” is left out: it is not for the Long high-roof panel van. No price, mass or figure has it. "
        "Take it out, or choose something else in its place."
    )
    assert finding.verdict == "note", "nothing is unsafe, and nothing is unknown"
    [gone] = said("choice-known", "quillback", "van", {"sold-out": 1})
    assert gone.cause.startswith("“sold-out” is left out of all sums: the catalogue no longer has it")
    assert (gone.verdict, gone.category) == ("fails", "comfort")


def test_one_of_something_at_most_is_said_as_people_say_it() -> None:
    one = next(o for s in catalogue("quillback").sections for o in s.options if o.most == 1 and not o.fits)
    [finding] = [f for f in said("option-count", "quillback", "van", {one.id: 2}) if f.verdict == "fails"]
    assert finding.remedy.startswith("Choose only 1")


def test_two_of_one_thing_are_told_as_two() -> None:
    assert each_once(["Fan heater", "Microwave", "Fan heater"]) == ["2 × Fan heater", "Microwave"]
