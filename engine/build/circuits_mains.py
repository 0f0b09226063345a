"""Circuits at mains voltage: inlet, inverter's output, charger, and the branches behind them."""

from engine.build.circuit_asks import FUSE_MARGIN, OUTSIDE_SOCKET, Ask, Spot, run_m, spot, stated, with_stated
from engine.build.model import Build, Part
from engine.build.power import PowerFigures
from engine.build.shore import USUAL_A
from engine.catalogue.facets import (
    AcLoad,
    AirConditioner,
    Facet,
    Generator,
    Inverter,
    MainsProtection,
    Outlet,
    ShoreCharger,
    ShoreInlet,
)

BRANCH_A = {"us": 15.0, "eu": 16.0, "uk": 16.0, "au": 16.0}
"""What the usual branch is made for (common practice)."""

OWN_FROM_FRAC = 0.4
"""A load that takes more than this of a branch gets a branch of its own, and so does every air conditioner (common
practice)."""

INLET_LEAST = {True: "2.5 mm²", False: "10 AWG"}
"""Thinnest conductor behind an inlet, metric or not, as thick as its cord (common practice)."""

BREAKER_BOARD = "breaker board"
AHEAD = "breakers ahead of the change-over"

HOOKUP_ONLY = "on a hook-up only"

SOURCES: tuple[type[Facet], ...] = (Inverter, ShoreInlet, ShoreCharger, Generator)


def mains_aboard(build: Build) -> tuple[str, ...]:
    """Ids of the options that bring or use mains voltage."""
    outlets = tuple(p.option.id for p, f in build.facets(Outlet) if f.supply == "mains")
    return tuple(dict.fromkeys((*build.ids(*SOURCES), *build.ids(AcLoad), *outlets)))


def mains_side(build: Build, power: PowerFigures, metric: bool) -> list[Ask]:
    """Every circuit at mains voltage; none in a build without."""
    ids = set(mains_aboard(build)) | {x.option_id for x in power.all_loads if x.mains}
    if not ids:
        return []
    parts = {p.option.id: p for p in build.parts}
    volts = build.workshop.mains_v
    board = _board(build, parts, ids)
    ahead = _ahead(build, board)
    found = _feeds(build, power, board, volts, metric)
    branch_a = BRANCH_A[build.workshop.region]
    margin = _long_margin(metric)
    outlets = [(p, f) for p, f in build.facets(Outlet) if f.supply == "mains"]
    small: list[str] = []
    fixed = set(build.ids(AirConditioner))
    for x in power.all_loads:
        if not x.mains:
            continue
        each_a = x.apparent_va / volts
        # What the inverter must never feed shares no branch with sockets that it does feed.
        own = x.option_id in fixed or x.shore_only
        if each_a <= OWN_FROM_FRAC * branch_a and not own:
            small.append(x.option_id)
            continue
        words = (HOOKUP_ONLY,) if x.shore_only else ()
        start = ahead if x.shore_only else board
        found.append(
            _branch(build, start, parts[x.option_id], x.name, each_a, margin * each_a, volts, x.pieces_count, words)
        )
    for p, f in outlets:
        amps = f.rating_a or branch_a
        words = (OUTSIDE_SOCKET,) if f.outside else ()
        found.append(_branch(build, board, p, p.option.name, amps, amps, volts, p.count, words))
    if small and not any(not f.outside for _, f in outlets):
        far = max((parts[i] for i in small), key=lambda p: (run_m(board, spot(p), 0), p.option.id))
        words = ("shared by " + ", ".join(dict.fromkeys(parts[i].option.name for i in small)),)
        found.append(_branch(build, board, far, "Sockets and small appliances", branch_a, branch_a, volts, 1, words))
    return found


def _long_margin(metric: bool) -> float:
    """What a breaker is rated over a load of hours: those of IEC 60898 carry their rating, those of the NEC do not."""
    return 1.0 if metric else FUSE_MARGIN


def _board(build: Build, parts: dict[str, Part], ids: set[str]) -> Spot:
    """Where the breakers are: with the protection, else with the inverter or what else brings mains."""
    named = build.ids(MainsProtection, *SOURCES)
    first = parts[next((i for i in named), min(ids))]
    return spot(first)._replace(name=BREAKER_BOARD)


def _ahead(build: Build, board: Spot) -> Spot:
    """Where branches begin that the inverter must not feed: on the hook-up's side of the change-over."""
    return board._replace(name=AHEAD) if build.ids(Inverter) else board


def _feeds(build: Build, power: PowerFigures, board: Spot, volts: float, metric: bool) -> list[Ask]:
    wiring = build.workshop.wiring
    found = []
    shore = power.shore
    inlet_a = 0.0
    if shore is not None:
        inlets = build.facets(ShoreInlet)
        place = spot(inlets[0][0]) if inlets else board
        amps = inlet_a = shore.inlet_a or max(shore.pitch_a, USUAL_A[build.workshop.region])
        found.append(
            Ask(
                "mains", "Inlet", shore.inlet_ids or shore.charger_ids, "inlet", board.name,
                run_m(place, board, wiring.slack_m), volts, amps, amps, wiring.critical_drop_frac, "breaker",
                mains=True, at_least=INLET_LEAST[metric],
                remarks=("cuts both poles, close to the inlet", "residual-current device in front of everything"),
            )
        )  # fmt: skip
    both = set(build.ids(ShoreCharger)) & set(build.ids(Inverter))
    for p, f in build.facets(Inverter):
        # A case that holds charger and inverter holds the change-over too (common practice): what the hook-up gives
        # goes through it, so its output carries whichever is more.
        passed_a = inlet_a if p.option.id in both else 0.0
        amps = max(f.continuous_w / f.output_v / f.legs, passed_a)
        if passed_a:
            found.append(
                _branch(
                    build, _ahead(build, board), p, f"{p.option.name}, supply", passed_a, passed_a, volts,
                    p.count * f.legs, ("feeds its charger and, through its change-over, the breaker board",),
                )._replace(at_least=INLET_LEAST[metric])
            )  # fmt: skip
        found.append(
            with_stated(
                Ask(
                    "mains", f"{p.option.name}, output", (p.option.id,), p.option.name, board.name,
                    run_m(spot(p), board, wiring.slack_m), f.output_v, amps, amps, wiring.critical_drop_frac, "breaker",
                    mains=True, pieces=p.count * f.legs,
                    remarks=("change-over: never inverter and hook-up at once", "neutral to earth at one point only"),
                ),
                stated(build, p.option.id, "mains"),
            )
        )  # fmt: skip
    for p, c in build.facets(ShoreCharger):
        if p.option.id in both:
            continue
        amps = c.output_a * (power.bank.charge_v or c.output_v) / c.efficiency_frac / volts
        found.append(
            _branch(
                build, _ahead(build, board), p, f"{p.option.name}, supply", amps, _long_margin(metric) * amps, volts,
                p.count, (HOOKUP_ONLY,),
            )
        )  # fmt: skip
    return found


def _branch(
    build: Build, board: Spot, part: Part, what: str, current_a: float, design_a: float, volts: float, pieces: int,
    words: tuple[str, ...],
) -> Ask:  # fmt: skip
    wiring = build.workshop.wiring
    return with_stated(
        Ask(
            "mains", what, (part.option.id,), board.name, part.option.name, run_m(board, spot(part), wiring.slack_m),
            volts, current_a, design_a, wiring.critical_drop_frac, "breaker", mains=True, pieces=pieces, remarks=words,
        ),
        stated(build, part.option.id, "mains"),
    )  # fmt: skip
