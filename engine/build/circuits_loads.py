"""Circuits of every direct-current load, and what feeds their boards."""

from engine.build.circuit_asks import FUSE_MARGIN, OUTSIDE_SOCKET, Ask, class_v, run_m, spot, stated, with_stated
from engine.build.circuit_hub import BOARD, BUS, CONVERTED_BOARD, Hub
from engine.build.circuit_lines import BLADE_MOST_A
from engine.build.demand import LONG_START_S
from engine.build.loads import DC_V, Load
from engine.build.model import Part
from engine.catalogue.facets import Converter, Outlet, Pump

BOARD_LEAST_A = 30.0
"""A board's feed is made for at least this, for circuits that come later (common practice)."""

SOCKET_12V_A = 10.0
"""What the circuit of a round 12 V socket is made for (common practice)."""

SENSITIVE = frozenset(("heating", "cooling", "computers"))
"""Habits whose loads have electronics or a motor that needs its voltage."""


def load_side(hub: Hub) -> tuple[list[Ask], list[Ask], float, float]:
    """(branches, feeders, current of loads straight on the busbars, what of all that is a start of seconds), everything
    switched on and the worst starting."""
    build, power, wiring = hub.build, hub.power, hub.wiring
    parts = {p.option.id: p for p in build.parts}
    outlets = {p.option.id: f for p, f in build.facets(Outlet) if f.supply == "battery"}
    branches: list[Ask] = []
    board_a = direct_a = board_start_a = direct_start_a = 0.0
    worst_a, passing_a = 0.0, 0.0
    done: set[str] = set()
    for x in power.all_loads:
        if x.mains:
            continue
        behind = power.converting.behind(x)
        volts = hub.volts
        if behind or not power.converting.made_for_battery(x):
            volts = class_v(power.converting.output_v or x.supply_v or DC_V)
        outlet = outlets.get(x.option_id) if x.option_id not in done else None
        done.add(x.option_id)
        ask = _load(hub, parts[x.option_id], x, volts, behind, outlet)
        if not behind:
            more_a = ask.current_a - x.power_w / volts - _plugged_a(outlet)
            if more_a > worst_a:
                worst_a, passing_a = more_a, 0.0 if x.start_s >= LONG_START_S else more_a
            if ask.design_a > BLADE_MOST_A:
                direct_a += x.pieces_count * (x.power_w / volts + _plugged_a(outlet))
                direct_start_a = max(direct_start_a, more_a)
                ask = ask._replace(
                    start=BUS, one_way_m=run_m(hub.place, spot(parts[x.option_id]), wiring.slack_m),
                    bundled_count=1,
                )  # fmt: skip
            else:
                board_a += x.pieces_count * (x.power_w / volts + _plugged_a(outlet))
                board_start_a = max(board_start_a, more_a)
        branches.append(with_stated(ask, stated(build, x.option_id, "battery")))
    low_v = class_v(power.converting.output_v) if power.converting.output_v else hub.volts
    for option_id, f in outlets.items():
        if option_id not in done:
            branches.append(_socket(hub, parts[option_id], f, low_v))
            board_a += parts[option_id].count * _plugged_a(f) if low_v == hub.volts else 0.0
    # Starts seldom meet: one at a time counts, here that of the board's feeder unless a larger one is not on the board.
    direct_a += max(0.0, direct_start_a - board_start_a)
    return branches, _feeders(hub, board_a, board_start_a), direct_a, passing_a


def _load(hub: Hub, part: Part, x: Load, volts: float, behind: bool, outlet: Outlet | None) -> Ask:
    wiring = hub.wiring
    each_a = max(x.power_w, 0.1) / volts
    start_a = each_a * x.start_multiple
    motor = x.start_va > 1.01 * x.apparent_va or any(isinstance(f, Pump) for f in part.option.facets)
    sensitive = x.keeps_degc is not None or motor or x.habit in SENSITIVE
    # A start of seconds passes; one of minutes, such as a glow plug's, warms a fuse as what runs for hours does.
    long = x.start_s >= LONG_START_S
    plugged_a = _plugged_a(outlet)
    current = max(each_a, start_a) + plugged_a
    design = max(FUSE_MARGIN * each_a, (FUSE_MARGIN if long else 1.0) * start_a) + plugged_a
    words: tuple[str, ...] = (f"{start_a:.3g} A while it starts",) if start_a > 1.01 * each_a else ()
    if outlet is not None and outlet.outside:
        words += (OUTSIDE_SOCKET,)
    return Ask(
        "loads", x.name, (x.option_id,), CONVERTED_BOARD if behind else BOARD, x.name,
        run_m(hub.board, spot(part), wiring.slack_m), volts, current, design,
        wiring.critical_drop_frac if sensitive else wiring.ordinary_drop_frac, "fuse", bundled_count=wiring.bundled,
        pieces=x.pieces_count, remarks=words,
    )  # fmt: skip


def _socket(hub: Hub, part: Part, f: Outlet, volts: float) -> Ask:
    """A socket that belongs to no load."""
    wiring, amps = hub.wiring, _plugged_a(f)
    return with_stated(
        Ask(
            "loads", part.option.name, (part.option.id,), CONVERTED_BOARD if volts != hub.volts else BOARD,
            part.option.name, run_m(hub.board, spot(part), wiring.slack_m), volts, amps, amps,
            wiring.ordinary_drop_frac, "fuse", bundled_count=wiring.bundled,
            pieces=part.count, remarks=(OUTSIDE_SOCKET,) if f.outside else (),
        ),
        stated(hub.build, part.option.id, "battery"),
    )  # fmt: skip


def _plugged_a(f: Outlet | None) -> float:
    """Current that something plugged in may take."""
    return 0.0 if f is None else f.rating_a or SOCKET_12V_A


def _feeders(hub: Hub, board_a: float, start_a: float) -> list[Ask]:
    """From the busbars to the board, which carries its largest start on top of the rest, and to converters."""
    wiring, found = hub.wiring, []
    if board_a:
        found.append(
            Ask(
                "battery", "Board of direct-current circuits", hub.board_ids, BUS, BOARD,
                run_m(hub.place, hub.board, wiring.slack_m), hub.volts, board_a + start_a,
                max(FUSE_MARGIN * board_a, board_a + start_a, BOARD_LEAST_A),
                wiring.critical_drop_frac, "fuse",
                remarks=(
                    "everything on the board switched on" + (", and its largest start" if start_a > 0.05 else ""),
                ),
            )
        )  # fmt: skip
    for p, f in hub.build.facets(Converter):
        drawn = f.output_a * f.output_v / f.efficiency_frac / hub.lowest_v
        found.append(
            with_stated(
                Ask(
                    "battery", p.option.name, (p.option.id,), BUS, p.option.name, hub.to_bus(p), hub.volts, drawn,
                    FUSE_MARGIN * drawn, wiring.critical_drop_frac, "fuse", pieces=p.count,
                ),
                stated(hub.build, p.option.id, "battery"),
            )
        )  # fmt: skip
        found.append(
            Ask(
                "battery", f"{p.option.name}, output", (p.option.id,), p.option.name, CONVERTED_BOARD,
                run_m(spot(p), hub.board, wiring.slack_m), class_v(f.output_v), f.output_a, FUSE_MARGIN * f.output_a,
                wiring.critical_drop_frac, "fuse", pieces=p.count,
            )
        )  # fmt: skip
    return found
