"""Panels in strings on charge controllers: who feeds whom, how they are best connected, and what speaks against it."""

from typing import NamedTuple

from engine.build.model import Build
from engine.build.roof import RoofFigures
from engine.catalogue.facets import SolarController, SolarPanel
from engine.physics.cell import cell_degc
from engine.physics.panel import Panel
from engine.physics.string_current import needs_fuse
from engine.physics.string_joint import Kind, given_w, joint_splits
from engine.physics.string_layout import Input, Split, most_panels, split, splits
from engine.physics.string_voltage import reached_degc

CALM_WIND_M_S = 1.0
"""Wind on the hottest hour, when cells get hottest (assumption)."""

FULL_SUN_W_M2 = 1000.0
"""Of standard test conditions."""

POWER_VOLTAGE_COEFFICIENT_FRAC_K = -0.0040
"""Of the voltage at maximum power, where a panel's sheet does not state it (common practice)."""


class StringGroup(NamedTuple):
    """Equal panels on one controller."""

    panel_id: str
    panel_name: str
    controller_id: str
    controller_name: str
    panel_count: int
    layout: Split
    """As the workshop wires them, else the best way to connect all that hang on the controller; see its objections."""
    better: Split | None
    """Where something speaks against that: the best way that works with as many of the panels as possible."""
    panel: Panel
    into: Input
    coldest_degc: float
    hottest_cell_degc: float
    over_below_degc: float | None
    """Cells colder than this pass the controller's voltage; None where the coldest morning's do not."""
    unit: int
    """Which of all controllers, one by one, it hangs on."""
    beside_a: float = 0.0
    """Short-circuit current of the unlike strings on the same controller."""
    beside_count: int = 0
    idle: bool = False
    """It would cost the unlike ones beside it more than it brings, so it is best left unconnected."""

    @property
    def wired(self) -> str:
        """How it is connected, in words."""
        return "best left unconnected" if self.idle else words(self.layout)


def words(layout: Split) -> str:
    """How panels are connected: "3 in series, 2 such strings"."""
    if layout.panel_count == 1:
        return "one panel by itself"
    if layout.parallel == 1:
        return f"all {layout.series} in series"
    if layout.series == 1:
        return f"all {layout.parallel} in parallel"
    return f"{layout.series} in series, {layout.parallel} such strings"


class _Kind(NamedTuple):
    option_id: str
    name: str
    panel: Panel
    mount: str
    in_series: int | None
    panel_count: int


class _Controller(NamedTuple):
    option_id: str
    name: str
    into: Input
    unit: int = 0


def hottest_cell_degc(air_degc: float, mount: str) -> float:
    """Cells in full sun and next to no wind on the hottest hour."""
    return max(25.0, cell_degc(FULL_SUN_W_M2, air_degc, mount, CALM_WIND_M_S))


def string_groups(build: Build, roof: RoofFigures, charge_v: float | None) -> tuple[StringGroup, ...]:
    """Every group of panels with its controller; none without panels on the roof, controllers or one battery voltage.

    The place's whole year counts, not only the months of this trip: the vehicle stays what it is. Where kinds of panels
    outnumber the controllers, the smallest kinds hang where they add most, and how they are connected is chosen for all
    of a controller together, because they share one voltage.
    """
    if charge_v is None:
        return ()
    kinds = _kinds(build, roof)
    controllers = [
        _Controller(
            p.option.id,
            p.option.name,
            Input(f.max_input_v, charge_v, f.headroom_v, f.max_input_a, f.max_output_a, f.technology == "pwm"),
        )
        for p, f in build.facets(SolarController)
        for _ in range(p.count)
    ]
    controllers.sort(key=lambda c: (-(c.into.output_a or 0), c.option_id))
    controllers = [c._replace(unit=i) for i, c in enumerate(controllers)]
    if not kinds or not controllers:
        return ()
    coldest = min(build.climate.coldest_night_degc)
    air = max(build.climate.hottest_day_degc)
    by_unit: dict[int, list[tuple[_Kind, int, _Controller]]] = {}
    for hung in _shared_out(kinds, controllers, coldest, air):
        by_unit.setdefault(hung[2].unit, []).append(hung)
    return tuple(g for unlike in by_unit.values() for g in _groups(unlike, coldest, air))


def _kinds(build: Build, roof: RoofFigures) -> list[_Kind]:
    placed = dict(roof.packing.counts)
    kinds = [
        _Kind(
            p.option.id,
            p.option.name,
            Panel(
                f.power_w,
                f.open_circuit_v,
                f.max_power_v,
                f.short_circuit_a,
                f.voltage_coefficient_frac_k,
                f.max_power_voltage_coefficient_frac_k or POWER_VOLTAGE_COEFFICIENT_FRAC_K,
                f.series_fuse_a,
            ),
            f.mount,
            f.in_series,
            placed[p.option.id],
        )
        for p, f in build.facets(SolarPanel)
        if placed.get(p.option.id)
    ]
    return sorted(kinds, key=lambda k: (-k.panel.power_w * k.panel_count, k.option_id))


def _shared_out(
    kinds: list[_Kind], controllers: list[_Controller], coldest_degc: float, air_degc: float
) -> list[tuple[_Kind, int, _Controller]]:
    """Which panels feed which controller: the strongest kind gets the largest, spare ones go where most power is.

    A spare controller stays idle rather than get too few panels to charge through.
    """

    def too_few(kind: _Kind, controllers_count: int) -> bool:
        hot_degc = hottest_cell_degc(air_degc, kind.mount)
        count = kind.panel_count // controllers_count
        found = splits(kind.panel, controllers[0].into, count, coldest_degc, hot_degc)
        return all("hot-voltage" in s.objections for s in found)

    share = [1] * min(len(kinds), len(controllers))
    for _ in range(len(controllers) - len(share)):
        rooms = [
            i for i, k in enumerate(kinds[: len(share)]) if share[i] < k.panel_count and not too_few(k, share[i] + 1)
        ]
        if not rooms:
            break
        share[max(rooms, key=lambda i: (kinds[i].panel.power_w * kinds[i].panel_count / share[i], -i))] += 1
    free = iter(controllers)
    found = []
    for i, kind in enumerate(kinds[: len(share)]):
        whole, more = divmod(kind.panel_count, share[i])
        found += [(kind, whole + (j < more), next(free)) for j in range(share[i])]
    for kind in kinds[len(share) :]:
        found.append((kind, kind.panel_count, _best_beside(kind, found, coldest_degc, air_degc)))
    return found


def _best_beside(
    kind: _Kind, hung: list[tuple[_Kind, int, _Controller]], coldest_degc: float, air_degc: float
) -> _Controller:
    """The controller beside whose panels a further kind adds most power; of equal ones the last."""

    def gives_w(into: Input, on_it: list[tuple[_Kind, int]]) -> float:
        kinds = tuple(Kind(k.panel, n, hottest_cell_degc(air_degc, k.mount), k.in_series) for k, n in on_it)
        watts = given_w(kinds, into, joint_splits(kinds, into, coldest_degc))
        return watts if into.output_a is None else min(watts, into.output_a * into.charge_v)

    controllers = {c.unit: c for _, _, c in hung}
    if len(controllers) == 1:
        return hung[0][2]
    gains = []
    for unit, c in controllers.items():
        there = [(k, n) for k, n, on in hung if on.unit == unit]
        gained_w = gives_w(c.into, [*there, (kind, kind.panel_count)]) - gives_w(c.into, there)
        gains.append((round(gained_w), unit))
    return controllers[max(gains)[1]]


def _groups(hung: list[tuple[_Kind, int, _Controller]], coldest_degc: float, air_degc: float) -> list[StringGroup]:
    """Panels of one controller, each kind as it is best connected beside the others."""
    hot = [hottest_cell_degc(air_degc, kind.mount) for kind, _, _ in hung]
    if len(hung) == 1:
        [(kind, count, controller)] = hung
        return [
            _group(
                kind, count, controller, coldest_degc, hot[0], _layout(kind, count, controller, coldest_degc, hot[0])
            )
        ]
    kinds = tuple(Kind(k.panel, n, degc, k.in_series) for (k, n, _), degc in zip(hung, hot, strict=True))
    layouts = joint_splits(kinds, hung[0][2].into, coldest_degc)
    all_a = sum(k.panel.short_circuit_a * x.parallel for k, x in zip(kinds, layouts, strict=True) if x)
    all_count = sum(x.parallel for x in layouts if x)
    found = []
    for one, degc, joined in zip(hung, hot, layouts, strict=True):
        x = joined or _layout(*one, coldest_degc, degc)
        group = _group(*one, coldest_degc, degc, x)._replace(idle=joined is None)
        if joined:
            beside_a = max(0.0, all_a - group.panel.short_circuit_a * x.parallel)
            group = group._replace(beside_a=beside_a, beside_count=all_count - x.parallel)
        found.append(group)
    return found


def _layout(kind: _Kind, count: int, controller: _Controller, coldest_degc: float, hot_degc: float) -> Split:
    if kind.in_series is None:
        return splits(kind.panel, controller.into, count, coldest_degc, hot_degc)[0]
    series = min(kind.in_series, count)
    return split(kind.panel, controller.into, series, count // series, coldest_degc, hot_degc)


def _group(
    kind: _Kind, count: int, controller: _Controller, coldest_degc: float, hot_degc: float, layout: Split
) -> StringGroup:
    panel, into = kind.panel, controller.into
    left_over = count % layout.series if kind.in_series is not None else 0
    better = most_panels(panel, into, count, coldest_degc, hot_degc) if layout.objections or left_over else None
    string_v = panel.open_circuit_v * layout.series
    over = None
    if "cold-voltage" in layout.objections and string_v <= 2000:
        over = reached_degc(string_v, panel.open_coefficient_frac_k or -0.003, into.highest_v)
    return StringGroup(
        panel_id=kind.option_id,
        panel_name=kind.name,
        controller_id=controller.option_id,
        controller_name=controller.name,
        panel_count=count,
        layout=layout,
        better=better,
        panel=panel,
        into=into,
        coldest_degc=coldest_degc,
        hottest_cell_degc=hot_degc,
        over_below_degc=over,
        unit=controller.unit,
    )


def by_controller(groups: tuple[StringGroup, ...]) -> list[tuple[StringGroup, ...]]:
    """The groups of each single controller, in parallel at its terminals."""
    units: dict[int, tuple[StringGroup, ...]] = {}
    for g in groups:
        units[g.unit] = (*units.get(g.unit, ()), g)
    return list(units.values())


def survives_more(group: StringGroup) -> bool:
    """Whether its controller survives one more of the panels in each string on the coldest morning."""
    layout = group.layout
    return layout.cold_open_v * (layout.series + 1) / layout.series <= group.into.highest_v


def needs_string_fuses(group: StringGroup) -> bool:
    """Whether each string of a group needs a fuse of its own."""
    return needs_fuse(
        group.panel.short_circuit_a,
        group.layout.parallel,
        group.panel.series_fuse_a,
        group.beside_a,
        group.beside_count,
    )
