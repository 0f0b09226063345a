"""Single changes that could keep the battery from running empty, as the hourly reckoning takes them."""

from typing import NamedTuple

from engine.build.day_plan import DRIVING, day_plan, driving_shares, warmth_loads
from engine.build.energy_inputs import Asked
from engine.build.loads import least_room_degc
from engine.build.model import Build
from engine.build.power import PowerFigures, largest_choice
from engine.build.roof import RoofFigures, room_for_one_more
from engine.build.sun_power import panel_mount
from engine.catalogue.facets import SolarPanel
from engine.physics.energy_system import DayPlan, EnergySystem
from engine.physics.panel_day import PanelGroup

LESS_FRAC = 0.5
"""How much less of the largest load is tried."""

MORE_DRIVING_H = 1.0
"""How much more driving a day is tried."""


class Idea(NamedTuple):
    """One change, ready to be reckoned."""

    what: str
    option_id: str
    """The option that it is about."""
    system: EnergySystem
    plan: DayPlan


def _more_sun(build: Build, roof: RoofFigures, a: Asked) -> list[Idea]:
    """One more of the first kind of panels for which the roof has room, as it stands."""
    if not a.system.panels:
        return []
    found = []
    for part, f in [x for x in build.facets(SolarPanel) if room_for_one_more(build, roof, x[0].option.id)][:1]:
        first = a.system.panels[0]
        # Behind a switching controller warmth takes nothing; see ``sun_system``.
        gamma = f.power_coefficient_frac_k if first.power_coefficient_frac_k else 0.0
        one = PanelGroup(
            f.power_w,
            gamma,
            panel_mount(f),
            f.tilt_deg,
            first.facing_deg,
            first.kept_frac,
            first.unit,
            first.shaded_frac,
            first.falls_from_degc,
            first.falls_frac_k,
        )
        system = a.system._replace(panels=(*a.system.panels, one))
        found.append(Idea(f"one more {part.option.name}", part.option.id, system, a.plan))
    return found


def _more_battery(power: PowerFigures, a: Asked) -> list[Idea]:
    groups = power.bank.groups
    if not groups:
        return []
    g, store = groups[0], a.system.store
    usable_wh = (g.usable_wh or 0.0) / g.parallel
    more = store._replace(
        usable_wh=store.usable_wh + usable_wh,
        charge_w=store.charge_w + g.charge_a * g.nominal_v / g.parallel,
        discharge_w=store.discharge_w + g.continuous_a * g.nominal_v / g.parallel,
    )
    pieces = "one more" if g.series == 1 else f"{g.series} more of"
    return [Idea(f"{pieces} {g.name}", g.option_id, a.system._replace(store=more), a.plan)]


def _less_load(build: Build, power: PowerFigures, a: Asked) -> list[Idea]:
    found = []
    inverter = power.inverter
    if inverter is not None and inverter.awake_h >= 24 and inverter.idle_wh_d:
        asleep = tuple(inverter.idle_w * min(1.0, w) for w in a.plan.ac_w)
        found.append(
            Idea(
                "an inverter that is off unless something runs on it", inverter.ids[0], a.system,
                a.plan._replace(idle_w=asleep),
            )
        )  # fmt: skip
    largest = largest_choice(build, power)
    if largest is not None:
        less = tuple(
            x._replace(hours_d=x.hours_d * LESS_FRAC, rated_hours_d=x.rated_hours_d * LESS_FRAC)
            if x.option_id == largest.option_id
            else x
            for x in power.all_loads
        )
        fewer = power._replace(all_loads=less)
        system = a.system._replace(by_warmth=warmth_loads(fewer, least_room_degc(build)))
        # The inverter's own draw stays what it was: whether it may sleep is a question of its own.
        plan = day_plan(fewer, build.trip.driving_h)._replace(idle_w=a.plan.idle_w)
        found.append(Idea(f"half as much of {largest.name}", largest.option_id, system, plan))
    return found


def _more_driving(build: Build, power: PowerFigures, a: Asked) -> list[Idea]:
    output_w, hours = power.alternator.output_w, build.trip.driving_h + MORE_DRIVING_H
    if not output_w or hours > len(DRIVING):
        return []
    driven = tuple(output_w * x for x in driving_shares(hours))
    ids = power.alternator.ids
    return [Idea("an hour more of driving a day", ids[0], a.system, a.plan._replace(alternator_w=driven))]


def ideas(build: Build, power: PowerFigures, roof: RoofFigures, a: Asked) -> list[Idea]:
    """The changes that are tried, each by itself: sun, battery, the inverter's idling, the largest load, driving."""
    return [
        *_more_sun(build, roof, a),
        *_more_battery(power, a),
        *_less_load(build, power, a),
        *_more_driving(build, power, a),
    ]
