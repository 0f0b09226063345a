"""The board has a fused circuit for each direct-current load."""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import DcBoard
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact


class Board(Inputs):
    """Circuits wanted and there."""

    wanted: int = fact("circuits of direct-current loads", "computed", ge=0)
    there: int = fact("fused circuits on the boards", "catalogue", ge=1)


def read(build: Build, figures: Figures) -> Board | None:
    """Nothing to ask where no option states a board."""
    c = figures.circuits
    if c.board_circuits is None or not c.board_lines:
        return None
    return Board(options=build.ids(DcBoard), wanted=c.board_lines, there=c.board_circuits)


def judge(x: Board) -> Softened:
    """Too few is worth a note: small loads may share one."""
    return Softened(AtMost(float(x.wanted), float(x.there), "count", tight_from=JUST_ENOUGH), "note")


RULE = Rule(
    code="board-circuits",
    title="Circuits on the board",
    topic="power",
    category="function",
    inputs=Board,
    read=read,
    judge=judge,
    formula="circuits wanted ≤ circuits on the boards",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{wanted} direct-current circuits are wanted, and the board has {there}.",
        "note": "{wanted} direct-current circuits are wanted and the board has {there}: small loads of one kind share.",
    },
    remedy="Choose a larger board, or let small loads share a circuit.",
    examples=lambda: (
        Example({"wanted": 12, "there": 24}, "ok", "half"),
        Example({"wanted": 14, "there": 14}, "ok", "exactly as many"),
        Example({"wanted": 17, "there": 14}, "note", "three too many"),
    ),
    offers="dc-board",
    caution=cautions.BATTERY,
)
