"""The bore that the gas pipe takes if everything burns at once.

A figure to begin with: the fitter sizes each branch under the local code, with hoses, regulator and shut-offs.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.gas_rate import LEAST_LOSS_KPA, LOSS_KPA, USUAL_BORE_M
from engine.physics.gas_pipe import least_bore_m, pipe_loss_kpa, pipe_w
from engine.rule import ELSEWHERE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, fact


class Pipe(Inputs):
    """The longest run."""

    input_heat_w: float = fact("heat input of everything that burns gas", "catalogue", gt=0)
    length_run_m: float = fact("way to the farthest of it, with bends", "computed", gt=0)
    bore_thick_m: float = fact("least bore for that", "computed", gt=0)
    usual_thick_m: float = fact("bore of the pipe as stated, else as usual", "assumed", default=USUAL_BORE_M)
    stated: bool = fact("whether the catalogue states it", "catalogue", default=False)
    loss_gas_kpa: float = fact("pressure lost in it and in the hose", "computed", ge=0, default=0)
    hose_gas_kpa: float = fact("of that in the hose alone", "computed", ge=0, default=0)
    allowed_gas_kpa: float = fact("pressure that may be lost", "regulation", gt=0)
    which: str = fact("which pipe it is", "computed", default="usual")

    @property
    def pipes(self) -> str:
        """Something where the hose leaves enough for a pipe, nothing where none makes up for it."""
        return "1" if self.allowed_gas_kpa - self.hose_gas_kpa >= LEAST_LOSS_KPA else ""


def read(build: Build, figures: Figures) -> Pipe | None:
    """Nothing to ask without a store and something that burns."""
    p = figures.gas_pipe
    if p is None:
        return None
    return Pipe(
        options=(*figures.gas_rate.store_ids,) if figures.gas_rate else (),
        input_heat_w=p.input_w,
        length_run_m=p.length_m,
        bore_thick_m=p.least_bore_m,
        usual_thick_m=p.bore_m,
        stated=p.stated,
        loss_gas_kpa=p.loss_kpa,
        hose_gas_kpa=p.hose_kpa,
        allowed_gas_kpa=p.allowed_kpa,
        which="stated" if p.stated else "usual",
    )


def judge(x: Pipe) -> Softened:
    """A stated pipe is judged with its hose by the pressure that gets lost; the usual one is worth a note at most."""
    if x.stated:
        return Softened(AtMost(x.loss_gas_kpa, x.allowed_gas_kpa, "gas_kpa", tight_from=JUST_ENOUGH), "tight")
    return Softened(AtMost(x.bore_thick_m, x.usual_thick_m, "thick_m", tight_from=JUST_ENOUGH), "note")


def _box(input_w: float, region: str, stated: bool = False) -> dict[str, str | float | bool]:
    """Six metres of pipe of 8 mm with so much burning behind it, and no hose."""
    allowed = LOSS_KPA[region]
    return {
        "input_heat_w": input_w, "length_run_m": 6.0, "bore_thick_m": least_bore_m(6.0, input_w, allowed),
        "allowed_gas_kpa": allowed, "stated": stated, "which": "stated" if stated else "usual",
        "loss_gas_kpa": pipe_loss_kpa(USUAL_BORE_M, 6.0, input_w),
    }  # fmt: skip


def _full(region: str) -> dict[str, str | float | bool]:
    """As much as that pipe carries."""
    return _box(pipe_w(USUAL_BORE_M, 6.0, LOSS_KPA[region]), region)


def _narrow_hose(region: str) -> dict[str, str | float | bool]:
    """A wide pipe behind a hose that loses everything by itself."""
    allowed = LOSS_KPA[region]
    pipe = pipe_loss_kpa(0.012, 6.0, 24000.0)
    return _box(24000.0, region, stated=True) | {
        "bore_thick_m": least_bore_m(6.0, 24000.0, LEAST_LOSS_KPA), "usual_thick_m": 0.012,
        "hose_gas_kpa": allowed, "loss_gas_kpa": allowed + pipe,
    }  # fmt: skip


RULE = Rule(
    code="gas-pipe",
    title="Bore of the gas pipe",
    topic="gas",
    category="function",
    inputs=Pipe,
    read=read,
    judge=judge,
    formula="D = Q^0.381 / (19.17 · (ΔH / (C_r · L))^0.206), ΔH the loss allowed",
    sources=(
        Source("International Fuel Gas Code 2018", "402.4 (formula from memory; tables for tube and pipe seen)"),
        Source("Common practice", "pipe of 10 mm outside with a bore of 8 mm"),
    ),
    says={
        "ok": "{input_heat_w} over {length_run_m} of pipe ask for a bore of {bore_thick_m}: the {which} pipe of "
        "{usual_thick_m} does.",
        "tight": "{input_heat_w} over {length_run_m} of pipe and hose lose {measured} where all burns at once; {limit} "
        "may be lost. {pipes:The hose alone is too narrow for that|A bore of {bore_thick_m} would do|A bore of "
        "{bore_thick_m} would do}.",
        "note": "{input_heat_w} over {length_run_m} of pipe ask for a bore of {bore_thick_m} where all burns at once: "
        "more than the {usual_thick_m} of the usual pipe. The fitter decides.",
    },
    remedy="Let the fitter size the pipe.",
    examples=lambda: (
        Example(_box(6000.0, "us"), "ok", "a hob and a small heater", "us"),
        Example(_full("us"), "ok", "exactly what the usual pipe carries", "us"),
        Example(_box(24000.0, "us"), "note", "instant water heater", "us"),
        Example(_box(24000.0, "us", stated=True), "tight", "the same on a stated pipe", "us"),
        Example(_narrow_hose("us"), "tight", "the same behind a narrow hose", "us"),
        Example(_box(6000.0, "eu"), "ok", "a hob and a small heater", ELSEWHERE),
        Example(_full("eu"), "ok", "exactly what the usual pipe carries", ELSEWHERE),
        Example(_box(24000.0, "eu"), "note", "instant water heater", ELSEWHERE),
        Example(_box(24000.0, "eu", stated=True), "tight", "the same on a stated pipe", ELSEWHERE),
        Example(_narrow_hose("eu"), "tight", "the same behind a narrow hose", ELSEWHERE),
    ),
    offers="gas-store",
    caution=cautions.GAS,
)
