"""Sockets outside have a circuit of their own, with its own protection, that can be switched off from inside.

Rain gets in, and strangers plug in. A fault out there must not take the lights with it, and on mains voltage it must
switch off before it harms anybody who stands on wet ground.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import Outlet
from engine.rule import Example, Holds, Inputs, Rule, Source, fact


class Outside(Inputs):
    """An outlet outside."""

    outlet: str = fact("the outlet", "chosen")
    own_circuit: bool = fact("a circuit of its own, fused", "catalogue")
    switched: bool = fact("can be switched off from inside", "catalogue")
    mains: bool = fact("mains voltage", "catalogue")

    @property
    def faults(self) -> str:
        """What is missing, in words."""
        said = [] if self.own_circuit else ["shares its circuit"]
        return " and ".join(said if self.switched else [*said, "cannot be switched off from inside"])


def read(build: Build, figures: Figures) -> list[Outside]:
    """One question for each outlet outside."""
    return [
        Outside(
            options=(p.option.id,),
            outlet=p.option.name,
            own_circuit=f.own_circuit,
            switched=f.switched,
            mains=f.supply == "mains",
        )
        for p, f in build.facets(Outlet)
        if f.outside
    ]


def judge(x: Outside) -> Holds:
    """Both are needed; whether mains is protected is asked for the whole vehicle."""
    return Holds(x.own_circuit and x.switched)


_OUT = {"outlet": "Outside outlet", "mains": True}
RULE = Rule(
    code="outside-sockets-protected",
    title="Sockets outside",
    topic="power",
    category="safety",
    inputs=Outside,
    read=read,
    judge=judge,
    formula="outside → own circuit, fused, switched from inside",
    sources=(
        Source("Common practice"),
        Source("NFPA 70 (NEC) 2023", "551.41(C), receptacles outside, from memory", region="us"),
    ),
    says={
        "ok": "{outlet}: has a circuit of its own that can be switched off from inside.",
        "fails": "{outlet}: it {faults}.",
    },
    remedy="Give it a circuit of its own, with fuse or breaker and a switch inside.",
    examples=lambda: (
        Example(_OUT | {"own_circuit": True, "switched": True}, "ok", "own circuit, switched"),
        Example(_OUT | {"own_circuit": False, "switched": True}, "fails", "shares a circuit"),
        Example(_OUT | {"own_circuit": True, "switched": False}, "fails", "no switch inside"),
    ),
    offers="outlet",
    caution=cautions.MAINS,
)  # fmt: skip
