"""Panels in series keep enough voltage to fill the battery when they are hot.

Voltage falls as cells warm up, and on a roof in full sun they are some 40 °C (70 °F) above the air. A tracking
controller steps down only: its panels must stay a little above the voltage at which the battery is full. Where they do
not, charging stops when it is wanted most. Switching (PWM) controllers have a check of their own:
``string-current-hot``.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.solar_strings import StringGroup, survives_more, words
from engine.rule import AtLeast, Example, Inputs, Rule, Source, fact

MORE = "Connect more in series, or choose panels of a higher voltage"
ADD = "Add another of these panels in series, or choose panels of a higher voltage"
HIGHER = "Choose panels of a higher voltage, or a battery of a lower one"


class HotString(Inputs):
    """A string on the hottest noon."""

    name: str = fact("panels and how many", "chosen")
    controller: str = fact("the controller they feed", "chosen")
    wired: str = fact("how they are connected", "computed")
    hot_v: float = fact("voltage of a string at its greatest power, hot", "computed", gt=0)
    cell_degc: float = fact("cells on the hottest noon of the year", "computed")
    charge_v: float = fact("voltage of the full battery while it charges", "computed", gt=0)
    headroom_v: float = fact("how far above it the panels must stay for this controller", "catalogue", ge=0)
    way: str = fact("what raises it", "computed", default=MORE)
    instead: str = fact("what would work", "computed", default="")


def read(build: Build, figures: Figures) -> list[HotString]:
    """One question for each group of panels on a tracking controller."""
    found = []
    for g in figures.power.strings:
        if g.into.switching or (g.idle and "hot-voltage" not in g.layout.objections):
            continue
        better = f"; {g.better.panel_count} of them would work, {words(g.better)}" if g.better else ""
        found.append(
            HotString(
                options=(g.panel_id, g.controller_id),
                name=f"{g.panel_count} × {g.panel_name}",
                controller=g.controller_name,
                wired=words(g.layout),
                hot_v=g.layout.hot_power_v,
                cell_degc=g.hottest_cell_degc,
                charge_v=g.into.charge_v,
                headroom_v=g.layout.needed_v - g.into.charge_v,
                way=_way(g, figures.roof.packing.complete),
                instead=better,
            )
        )
    return found


def _way(g: StringGroup, room: bool) -> str:
    """More in series where the controller survives it: of strings side by side, or of another panel that has room."""
    if not survives_more(g):
        return HIGHER
    if g.layout.parallel > 1 or g.layout.series < g.panel_count:
        return MORE
    # A roof that has no place for all the chosen panels has none for more.
    return ADD if room else HIGHER


def judge(x: HotString) -> AtLeast:
    """Hot voltage against what the battery needs. Close to it is close only within 3 %: the hottest noon is rare."""
    return AtLeast(x.hot_v, x.charge_v + x.headroom_v, "v", tight_from=0.97)


_ONE = {"controller": "Controller", "cell_degc": 65, "charge_v": 28.4, "headroom_v": 0}
RULE = Rule(
    code="string-voltage-hot",
    title="Panel voltage on the hottest noon",
    topic="power",
    category="function",
    inputs=HotString,
    read=read,
    judge=judge,
    formula="n·U_mp·(1 + β·(T_cell − 25 °C)) ≥ charging voltage + headroom",
    sources=(
        Source("IEC 60891", "linear temperature coefficients (from memory)"),
        Source("SAND2004-3535", "equations 11 and 12: cell temperature", "2026-11-25"),
        Source("Common practice", "−0.40 %/K where the panel's sheet states no coefficient for that voltage"),
    ),
    says={
        "ok": "{name} on {controller}, {wired}: still {measured} with cells at {cell_degc}; filling the battery takes "
        "{limit}.",
        "tight": "{name} on {controller}, {wired}: {measured} with cells at {cell_degc}, hardly more than the "
        "{limit} that "
        "filling the battery takes.",
        "fails": "{name} on {controller}, {wired}: {measured} with cells at {cell_degc}; filling the battery takes "
        "{limit}, "
        "so on hot days it stays short of full. The sun's yield counts that.",
    },
    remedy="{way}{instead}.",
    examples=lambda: (
        Example(
            _ONE | {"name": "1 × Panel", "wired": "one panel by itself", "hot_v": 26.04}, "fails", "31 V at 65 °C: 26 V"
        ),
        Example(_ONE | {"name": "2 × Panel", "wired": "all 2 in series", "hot_v": 52.08}, "ok", "two in series: 52 V"),
        Example(_ONE | {"name": "2 × Panel", "wired": "all 2 in series", "hot_v": 28.4}, "tight", "exactly enough"),
        Example(
            _ONE | {"name": "1 × Panel", "wired": "one panel by itself", "hot_v": 28.6, "headroom_v": 1},
            "fails",
            "enough for the battery, not for a controller that wants a volt more",
        ),
        Example(
            _ONE | {"name": "1 × Panel", "wired": "one panel by itself", "hot_v": 28.39}, "fails", "just short of it"
        ),
    ),
    follows=("panels-on-roof",),
    offers="solar-controller",
    caution=cautions.PANELS,
)
