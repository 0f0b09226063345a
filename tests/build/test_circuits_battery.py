"""Fuses at the battery: what breaks its fault."""

from engine.build import work_out
from engine.build.circuit_lines import one_line
from engine.rules import judge
from tests.build.wiring import US, ask, circuits, with_facet
from tests.shops import enquiry, resolver


def test_at_48_volts_no_part_ends_at_32_volts() -> None:
    off = dict.fromkeys(
        ("battery-24v-200", "inverter-charger-24v-3000", "alternator-charger-24v-25", "step-down-24-12"), 0
    )
    on = dict.fromkeys(
        ("battery-48v-100", "inverter-charger-48v-5000", "alternator-charger-48v-13", "step-down-48-12"), 1
    )
    asked = enquiry("quillback", ready="long-winter-box", options=off | on)
    lines = work_out(resolver("quillback").resolve(asked)).circuits.lines
    high = [x for x in lines if x.ask.system_v == 48 and x.ask.device == "fuse"]
    assert len(high) >= 5 and all(x.kind and x.kind.code in ("class-t", "nh", "mrbf") for x in high)
    # Behind the converter blades will do.
    assert all(x.kind and x.kind.code == "blade" for x in lines if x.group == "loads")
    [main] = [x for x in lines if x.ask.what == "Main cable"]
    assert any("60 V of direct current" in words for words in main.ask.remarks)
    [low] = [x for x in circuits("quillback", "long-winter-box").lines if x.ask.what == "Main cable"]
    assert not any("60 V" in words for words in low.ask.remarks)


def test_a_fault_that_no_usual_fuse_breaks_is_told_as_such() -> None:
    three = {"lfp-24v-200": 3, "inverter-charger-24-5000": 1, "converter-24-12": 1, "board-12v": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", three))
    figures = work_out(build)
    main = next(x for x in figures.circuits.lines if x.ask.what == "Main cable")
    assert main.unbroken and main.device == "fuse, of no usual kind"
    strongest = main.strongest()
    assert strongest is not None and strongest.code == "nh"
    found = {f.rule: f for f in judge(build, figures)}
    # An NH fuse breaks 25 kA; three batteries of some 10 kA give more.
    assert (found["fuse-interrupts"].verdict, found["fuse-interrupts"].limit) == ("fails", 25_000)
    assert "class T" not in found["fuse-interrupts"].remedy
    n = len(figures.circuits.lines)
    assert found["cable-found"].cause.startswith(f"{n} of {n} circuits have a usual cable, and {n - 1} a usual fuse.")
    asked = [x.what for x in figures.circuits.needed if x.kind == "fuse, of no usual kind"]
    assert asked == [f"{main.fuse_a:g} A, to break {main.ask.prospective_a:,.0f} A"]


def test_a_datasheet_s_short_circuit_settles_an_alarm() -> None:
    four = {"battery-12v-300": 4, "inverter-charger-12v-3000": 1, "main-fuse": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "box", four))
    [alarm] = [f for f in judge(build, work_out(build)) if f.rule == "fuse-interrupts" and f.verdict == "fails"]
    assert "short-circuit current in the battery's datasheet" in alarm.remedy
    sheet = with_facet(build, "battery-12v-300", "battery", short_circuit_a=4000.0)
    [calm] = [f for f in judge(sheet, work_out(sheet)) if f.rule == "fuse-interrupts"]
    # Four times 4 kA, less what the cables take, on a fuse for 20 kA.
    assert calm.verdict == "ok" and 3000 < calm.measured < 16_000


def test_one_battery_s_fault_is_broken_by_a_usual_fuse() -> None:
    one = {"lfp-24v-200": 1, "inverter-charger-24-5000": 1, "converter-24-12": 1, "board-12v": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", one))
    figures = work_out(build)
    assert not any(x.unbroken for x in figures.circuits.lines)
    found = {f.rule: f for f in judge(build, figures)}
    assert found["fuse-interrupts"].verdict == "ok"
    assert "usual cable and fuse." in found["cable-found"].cause
    assert not any("no usual kind" in x.kind for x in figures.circuits.needed)


def test_a_workshop_without_strong_fuses_is_pointed_to_them() -> None:
    strong = ask(100, 0.8)._replace(prospective_a=9000.0)
    line = one_line(strong, US, ("anl", "mega"))
    strongest = line.strongest(("anl", "mega"))
    assert line.unbroken and strongest is not None and strongest.code == "anl"
    high = one_line(strong._replace(system_v=48.0), US, ("anl", "mega"))
    assert high.unbroken and high.strongest(("anl", "mega")) is None


def test_the_short_circuit_gets_less_behind_cables() -> None:
    c = circuits("quillback", "two-up-van")
    at_bus = next(x.ask.prospective_a for x in c.lines if x.ask.what.startswith("Inverter"))
    assert c.short_a is not None and at_bus is not None
    assert 1000 < at_bus < c.short_a


def test_schedule_and_check_give_a_string_the_same_fuse() -> None:
    options = {"panel-100": 4, "solar-controller-100-30": 1, "battery-12v-100": 1, "main-fuse": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "box", options))
    build = with_facet(
        build, "panel-100", "solar-panel", power_w=80, short_circuit_a=4.5, series_fuse_a=8.0, in_series=1
    )
    figures = work_out(build)
    # 1.5625 · 4.5 A are 7.03 A, and 1.25 · 4.5 A · 3 would come back through a string whose panel stands 8 A.
    [note] = [f for f in judge(build, figures) if f.rule == "string-fuse"]
    assert note.verdict == "note" and "its own fuse, 8 A" in note.cause
    [line] = [x for x in figures.circuits.lines if x.ask.device == "isolator"]
    assert "a fuse in each string, 8 A" in line.ask.remarks


def test_the_main_switch_need_not_carry_a_start_of_seconds_for_long() -> None:
    kit = {"lfp-230": 2, "board-12v": 1, "fridge-85": 1, "led-lights": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", kit))
    build = with_facet(build, "fridge-85", "dc-load", power_w=2400, start_multiple=3, start_s=0.5)
    figures = work_out(build)
    [main] = [x for x in figures.circuits.lines if x.ask.what == "Main cable"]
    # 2400 W at 12 V run on 200 A and start with 600.
    assert main.ask.start_a == 400 and main.ask.current_a > 600
    assert figures.circuits.main_a == main.ask.current_a - 400
    [switch] = [f for f in judge(build, figures) if f.rule == "main-switch"]
    assert switch.verdict == "ok" and switch.measured == figures.circuits.main_a
    long = with_facet(build, "fridge-85", "dc-load", start_s=60.0)
    assert work_out(long).circuits.main_a == main.ask.current_a
