"""Circuits of the battery side: bank, inverter, what charges; those of its loads are in ``circuits_loads``."""

from engine.build.battery_bank import CHARGE_OF_FULL_FRAC
from engine.build.circuit_asks import FUSE_MARGIN, Ask, Spot, class_v, run_m, spot, stated, with_stated
from engine.build.circuit_hub import BUS, Hub
from engine.build.circuit_lines import one_line
from engine.build.circuits_loads import load_side
from engine.build.model import Build, Part
from engine.build.power import PowerFigures
from engine.build.solar_strings import needs_string_fuses
from engine.catalogue.facets import AlternatorCharger, Inverter, ShoreCharger, SolarController, SolarPanel
from engine.physics.battery_sag import prospective_a
from engine.physics.conductor import AWG, WORKSHOP_METRIC
from engine.physics.direct_current import charger_input_a
from engine.physics.string_current import conductor_a

STARTER_SHORT_A = 5000.0
"""Fault current of a starter battery (largest class of ABYC E-11's table, from memory)."""

STARTER_Y_M, STARTER_Z_M = 0.4, 0.9
"""Where a starter battery usually sits, beside the middle and above the road (assumption)."""

JOINTS_OHM = 0.0002
"""Lugs, fuse and posts of one cable together (assumption)."""

LEAST_OHM = 1e-5
"""No bank has less."""

METRE_OHM = {c.label: c.metre_ohm for c in (*AWG, *WORKSHOP_METRIC)}

EACH_BATTERY, MAIN_CABLE = "Each battery to the main fuse", "Main cable"

ROOF_LEAST = {True: "4 mm²", False: "12 AWG"}
"""Thinnest cable down from the panels, metric or not: what their own leads and plugs are made for (common practice)."""


def _charging_a(hub: Hub) -> float:
    """Current that all chargers bring to the busbars at once."""
    return (
        sum(f.max_output_a * p.count for p, f in hub.build.facets(SolarController))
        + sum(f.output_a * p.count for p, f in hub.build.facets(AlternatorCharger))
        + sum(f.output_a * p.count for p, f in hub.build.facets(ShoreCharger))
    )


def _inverters(hub: Hub) -> list[Ask]:
    charging = {p.option.id: f.output_a for p, f in hub.build.facets(ShoreCharger)}
    found = []
    for p, f in hub.build.facets(Inverter):
        lowest_v = f.cutoff_v or hub.lowest_v
        input_w = f.continuous_w / f.efficiency_frac
        charge_a = charging.get(p.option.id, 0.0)
        current = max(input_w / lowest_v, charge_a)
        words = (f"{current:.0f} A at its cut-off of {lowest_v:g} V",) if f.cutoff_v else ()
        found.append(
            with_stated(
                Ask(
                    "battery", p.option.name, (p.option.id,), BUS, p.option.name, hub.to_bus(p), hub.volts, current,
                    max(current, FUSE_MARGIN * input_w / hub.volts, FUSE_MARGIN * charge_a),
                    hub.wiring.critical_drop_frac, "fuse", pieces=p.count,
                    remarks=(*words, "two conductors, as short as can be, tied together"),
                ),
                stated(hub.build, p.option.id, "battery"),
            )
        )  # fmt: skip
    return found


def _main(hub: Hub, discharge_a: float, start_a: float, charge_a: float) -> list[Ask]:
    """From the batteries to the busbars, through main fuse and main switch; of the discharge so much is a start."""
    bank = hub.power.bank
    current = max(discharge_a, charge_a, 1.0)
    name = hub.place.name
    slack = hub.wiring.slack_m
    found = []
    parallel = bank.groups[0].parallel if len(bank.groups) == 1 else 1
    post_a = None if hub.short_a is None else hub.short_a / parallel
    if hub.short_a is not None and bank.charge_v is not None:
        full_v = bank.charge_v / CHARGE_OF_FULL_FRAC
        post_a = prospective_a(full_v, max(LEAST_OHM, parallel * full_v / hub.short_a), JOINTS_OHM)
    if parallel > 1:
        each = current / parallel
        found.append(
            Ask(
                "battery", EACH_BATTERY, hub.battery_ids, name, "main fuse", slack, hub.volts, each,
                FUSE_MARGIN * each, hub.wiring.critical_drop_frac, "fuse", prospective_a=post_a, pieces=parallel,
                remarks=("equal lengths, so that all batteries share alike", "fuse at the battery's post"),
            )
        )  # fmt: skip
    whole = Ask(
        "battery", MAIN_CABLE, hub.battery_ids, name, f"main switch and {BUS}", slack, hub.volts, current,
        FUSE_MARGIN * current, hub.wiring.critical_drop_frac, "fuse",
        prospective_a=post_a if parallel == 1 else _behind_cables(hub, found),
        remarks=(
            "main switch behind the fuse, within reach",
            # Source: ABYC E-11, as reproduced.
            "fuse within 18 cm (7 in) of the post, 1 m (40 in) where sheathed",
            # Most vehicle parts end at 32 V: an arc at 57 V does not put itself out.
            *(("switch, busbars and shunt made for 60 V of direct current",) if hub.volts > 32 else ()),
        ),
        start_a=max(0.0, current - max(discharge_a - start_a, charge_a, 1.0)),
    )  # fmt: skip
    found.append(with_stated(whole, stated(hub.build, hub.battery_ids[0], "battery")))
    return found


def _behind_cables(hub: Hub, cables: list[Ask]) -> float | None:
    """Short-circuit current behind cables that carry it one after the other, each of its pieces side by side."""
    bank = hub.power.bank
    if hub.short_a is None or bank.charge_v is None:
        return None
    full_v = bank.charge_v / CHARGE_OF_FULL_FRAC
    ohm = 0.0
    for ask in cables:
        line = one_line(ask, hub.lay, hub.wiring.fuse_kinds)
        metre_ohm = METRE_OHM[line.size] if line.size else 0.0
        ohm += (metre_ohm * 2 * ask.one_way_m / line.parallel + JOINTS_OHM) / ask.pieces
    return prospective_a(full_v, max(LEAST_OHM, full_v / hub.short_a), ohm)


def _solar(hub: Hub) -> list[Ask]:
    panels = {p.option.id: p for p, _ in hub.build.facets(SolarPanel)}
    controllers = {p.option.id: p for p, _ in hub.build.facets(SolarController)}
    found = []
    for g in hub.power.strings:
        if g.idle:
            continue
        n, series = g.layout.parallel, g.layout.series
        needs = needs_string_fuses(g)
        fuse = g.layout.string_fuse_a
        words: tuple[str, ...] = (g.wired, "parts made for direct voltage and sun")
        if needs:
            words += ("a fuse in each string" + (f", {fuse:g} A" if fuse else ": none fits, see the check"),)
        controller = controllers[g.controller_id]
        found.append(
            with_stated(
                Ask(
                    "charging", f"{g.panel_name} to controller", (g.panel_id, g.controller_id), "roof",
                    g.controller_name, run_m(spot(panels[g.panel_id]), spot(controller), hub.wiring.slack_m),
                    max(5.0, series * g.panel.max_power_v), n * g.panel.power_w / g.panel.max_power_v,
                    conductor_a(g.panel.short_circuit_a, n), hub.wiring.critical_drop_frac, "isolator", remarks=words,
                    at_least=ROOF_LEAST[hub.lay.metric],
                    conductor_degc=g.hottest_cell_degc,  # it lies under the panels
                ),
                stated(hub.build, g.panel_id, "battery"),
            )
        )  # fmt: skip
    return found


def _chargers(hub: Hub) -> list[Ask]:
    build, wiring, engine = hub.build, hub.wiring, hub.build.vehicle.engine
    starter = Spot("starter battery", -build.vehicle.front_overhang_m / 2, STARTER_Y_M, STARTER_Z_M)
    inverting = set(build.ids(Inverter))
    found = []
    for p, f in build.facets(SolarController):
        found.append(_to_bus(hub, p, f.max_output_a))
    for p, a in build.facets(AlternatorCharger):
        drawn = charger_input_a(a.output_a, a.output_v, a.efficiency_frac, engine.voltage_v)
        found.append(
            Ask(
                "charging", f"{p.option.name}, input", (p.option.id,), starter.name, p.option.name,
                run_m(starter, spot(p), wiring.slack_m), class_v(engine.voltage_v), drawn, FUSE_MARGIN * drawn,
                wiring.critical_drop_frac, "fuse", engine_space=True, prospective_a=STARTER_SHORT_A, pieces=p.count,
                remarks=("fuse at the starter battery; on only while the engine runs",),
            )
        )  # fmt: skip
        found.append(_to_bus(hub, p, a.output_a))
    for p, s in build.facets(ShoreCharger):
        if p.option.id not in inverting:  # an inverter-charger has one cable for both ways
            found.append(_to_bus(hub, p, s.output_a))
    return found


def _to_bus(hub: Hub, part: Part, output_a: float) -> Ask:
    return with_stated(
        Ask(
            "charging", f"{part.option.name} to the {BUS}", (part.option.id,), part.option.name, BUS, hub.to_bus(part),
            hub.volts, output_a, FUSE_MARGIN * output_a, hub.wiring.critical_drop_frac, "fuse",
            pieces=part.count,
            remarks=(f"fuse at the {BUS}, where the danger comes from",),
        ),
        stated(hub.build, part.option.id, "battery"),
    )  # fmt: skip


def battery_side(build: Build, power: PowerFigures) -> list[Ask]:
    """Every circuit at battery voltage; none without a battery."""
    if not power.bank.groups:
        return []
    hub = Hub(build, power)
    inverters = _inverters(hub)
    branches, feeders, direct_a, start_a = load_side(hub)
    fed = [a for a in feeders if a.start == BUS]
    discharge = sum(a.current_a * a.pieces for a in (*inverters, *fed)) + direct_a
    main = _main(hub, discharge, start_a, _charging_a(hub))
    rest = [*inverters, *feeders, *_solar(hub), *_chargers(hub), *branches]
    bus_a = _behind_cables(hub, main)
    at_bus = (a._replace(prospective_a=bus_a) if BUS in (a.start, a.end) and a.device == "fuse" else a for a in rest)
    return [*main, *at_bus]
