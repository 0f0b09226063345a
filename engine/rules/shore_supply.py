"""The hook-up bears what runs on it: loads at mains voltage, and the battery charger.

A hook-up has a breaker of its own, and the inlet another; the smaller counts. A charger can wait or be turned down
while the kettle boils, so only the loads themselves can be too many; what is left for the charger is told. In North
America what runs for hours, as a charger does, may take four fifths of the breaker.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.shore import HOLDS_FRAC
from engine.physics.shore import SUPPLIES, charger_left_a, charger_w
from engine.rule import ELSEWHERE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, each_once, fact, listed
from engine.units import show

APART = "Run them one after another, wire two of them so that only one can be on"
SMALLER = "Choose something smaller to run on it"


class Hookup(Inputs):
    """A hook-up and what is on it."""

    loads: str = fact("loads that plausibly run together on the hook-up", "assumed")
    all_on: str = fact("loads on the hook-up with charging", "assumed")
    loads_a: float = fact("their current", "computed", ge=0)
    charger_a: float = fact("current that the charger adds at full output", "computed", ge=0)
    left_a: float = fact("charging current at the battery that is left beside the loads", "computed", ge=0)
    breaker_a: float = fact("breaker of hook-up or inlet, the smaller, all legs", "computed", gt=0)
    holds_a: float = fact("what such a breaker holds for an hour", "regulation", gt=0)
    lasting_a: float = fact("what such a breaker carries for hours", "regulation", gt=0)
    stated_pitch_a: float | None = fact("breaker of the hook-up", "chosen", default=None)
    usual_pitch_a: float | None = fact("breaker of the hook-up, where the trip states none", "assumed", default=None)
    pitch: str = fact("words on the hook-up, where that one decides", "computed", default="")
    stronger: str = fact("what hook-up or inlet would help", "computed", default="ask for a stronger hook-up")
    off: str = fact("which loads to switch off, the fewest", "computed", default="")
    waits: str = Field(default="", description="words on the charger")
    way: str = Field(default=APART, description="the way out")

    @property
    def lasts(self) -> str:
        """What it carries for hours, where that is not all of it."""
        if self.lasting_a >= self.breaker_a:
            return ""
        share, amps = self.lasting_a / self.breaker_a, show(self.lasting_a, "a", "metric")
        return f", for hours {show(share, 'frac', 'metric')} of that, which is {amps}"


def read(build: Build, figures: Figures) -> Hookup | None:
    """Nothing to ask without an inlet or charger, or while nothing would be on it."""
    s = figures.power.shore
    if s is None or not (s.loads or s.charger_w):
        return None
    names = each_once(x.name for x in s.loads[:4])
    wider = s.inlet_a is not None and s.inlet_a > s.pitch_a
    apart_a = max((x.apparent_va for x in s.loads), default=0.0) / s.supply_v
    return Hookup(
        options=tuple(dict.fromkeys((*s.inlet_ids, *s.charger_ids, *(x.option_id for x in s.loads[:3])))),
        loads=listed(names) or "nothing",
        all_on=listed([*names, *(["charging"] if s.charger_w else [])]),
        loads_a=s.loads_va / s.supply_v,
        charger_a=s.charger_w / s.supply_v,
        left_a=s.charger_left_a,
        breaker_a=s.breaker_a * s.legs,
        holds_a=s.breaker_a * s.legs * HOLDS_FRAC[build.workshop.region],
        lasting_a=s.continuous_w / s.supply_v,
        stated_pitch_a=s.pitch_a if s.stated else None,
        usual_pitch_a=None if s.stated else s.pitch_a,
        pitch=f" A hook-up of {s.pitch_a:g} A is assumed." if wider and not s.stated else "",
        stronger=_stronger(s.pitch_a, s.inlet_a),
        off=f" Switch off {listed(each_once(s.off))}." if s.off else "",
        waits="; the charger has to wait" if s.charger_w else "",
        # What is too much alone is so whenever it runs.
        way=APART if len(s.loads) > 1 and apart_a <= s.breaker_a * s.legs else SMALLER,
    )


def _stronger(pitch_a: float, inlet_a: float | None) -> str:
    """The smaller of hook-up and inlet is what has to grow."""
    if inlet_a is None:
        return "ask for a stronger hook-up"
    if inlet_a > pitch_a:
        return f"ask for a hook-up of {inlet_a:g} A, which the inlet takes"
    if inlet_a < pitch_a:
        return f"choose a larger inlet: the hook-up has {pitch_a:g} A, and this one takes {inlet_a:g} A"
    return "ask for a stronger hook-up, and choose an inlet for it"


def judge(x: Hookup) -> AtMost | Softened:
    """Loads against the breaker; loads with a charger, which runs for hours, only make a note."""
    alone = AtMost(x.loads_a, x.breaker_a, "a")
    if x.breaker_a < x.loads_a <= x.holds_a * (1 + 1e-9):
        return Softened(alone, "tight")
    if alone.verdict() != "ok":
        return alone
    bears_a = x.lasting_a if x.charger_a else x.breaker_a
    return Softened(AtMost(x.loads_a + x.charger_a, bears_a, "a", tight_from=JUST_ENOUGH), "note")


_DOWN = "turn the charger down to # at the battery, or wait"


def _on(code: str, loads: str, loads_a: float, output_a: float = 0.0, off: str = "") -> dict[str, str | float]:
    """Loads on one of the usual supplies, with a charger of that output at 14.4 V."""
    s, (region, _, _) = SUPPLIES[code], code.partition("-")
    taken_w = charger_w(output_a, 14.4, 0.9)
    return {
        "loads": loads, "all_on": f"{loads}, charging" if output_a else loads, "loads_a": loads_a,
        "charger_a": taken_w / s.supply_v, "breaker_a": s.breaker_a, "holds_a": s.breaker_a * HOLDS_FRAC[region],
        "lasting_a": s.continuous_w / s.supply_v,
        "left_a": charger_left_a(s.continuous_w, loads_a * s.supply_v, output_a, 14.4, 0.9),
        "off": f" Switch off {off}." if off else "", "waits": "; the charger has to wait" if output_a else "",
    }  # fmt: skip


RULE = Rule(
    code="shore-supply",
    title="Hook-up with everything running",
    topic="power",
    category="function",
    inputs=Hookup,
    read=read,
    judge=judge,
    formula="Σ S / U_mains ≤ breaker of hook-up and inlet; with the charger, what it carries for hours",
    sources=(
        Source("NFPA 70 (NEC)", "551.71 and 210.20(A), as trade papers give them", region="us"),
        Source("IEC 60898-1", "1.13 times the rating without tripping for an hour; from memory", region=ELSEWHERE),
        Source("Common practice", "pitches of 6, 10 and 16 A in Europe, 15 A in Australia", region=ELSEWHERE),
    ),
    says={
        "ok": "A hook-up gives {breaker_a}; {measured} are taken while these run: {all_on}.",
        "note": "On a hook-up these together would take {measured}: {all_on}. The breaker carries {breaker_a}{lasts}: "
        "{left_a:the charger has to wait|" + _DOWN + "|" + _DOWN + "}.{pitch}",
        "tight": "With {loads} running a hook-up has to give {measured}, and its breaker is made for {limit}{waits}."
        "{pitch}",
        "fails": "With {loads} running a hook-up would have to give {measured}; its breaker trips at "
        "{limit}.{pitch}{off}",
    },
    remedy="{way}, or {stronger}.",
    examples=lambda: (
        Example(_on("us-30", "Air conditioner, Microwave", 24), "ok", "24 A of 30 A, four fifths", "us"),
        Example(_on("us-30", "Air conditioner, Microwave", 30), "tight", "exactly the breaker", "us"),
        Example(_on("us-15", "Air conditioner", 8, 20), "ok", "on a household socket: 8 A and a charger of 20 A", "us"),
        Example(
            _on("us-15", "Air conditioner", 9, 60), "note", "for hours 12 A of 15 A, so 3 A feed the charger", "us"
        ),
        Example(_on("us-15", "Air conditioner", 9, 25), "note", "12.3 A: for a while the breaker bears it", "us"),
        Example(_on("us-15", "Air conditioner", 9, 22.5), "ok", "exactly 12 A, four fifths", "us"),
        Example(
            _on("us-15", "Air conditioner, Toaster", 17, off="Toaster"), "fails", "17 A on a breaker of 15 A", "us"
        ),
        Example(_on("us-15", "Toaster, Air conditioner, Microwave", 21, 60, "Air conditioner"), "fails", "140 %", "us"),
        Example(_on("eu-10", "Fan heater, Fridge", 6), "ok", "6 A of 10 A", "eu uk"),
        Example(_on("eu-10", "Hob, Boiler", 10), "tight", "exactly the breaker", "eu uk"),
        Example(_on("eu-10", "Hob, Boiler", 11.3), "tight", "what a breaker of 10 A holds for an hour", "eu uk"),
        Example(_on("eu-10", "Hob, Boiler", 14, 60, "Boiler"), "fails", "140 %", "eu uk"),
        Example(_on("eu-10", "Hob", 7, 60), "note", "the charger would be too much", "eu uk"),
        Example(_on("au-15", "Air conditioner, Microwave", 12), "ok", "12 A of 15 A", "au"),
        Example(_on("au-15", "Hob, Boiler", 16.95), "tight", "what a breaker of 15 A holds for an hour", "au"),
        Example(_on("au-15", "Hob, Boiler", 21, 60, "Boiler"), "fails", "140 %", "au"),
        Example(_on("au-15", "Air conditioner, Microwave", 13, 60), "note", "the charger would be too much", "au"),
    ),
    offers="shore-inlet",
    caution=cautions.MAINS,
)
