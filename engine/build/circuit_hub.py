"""The middle of the battery side of the wiring: where battery, busbars and boards are, and their voltage."""

from engine.build.circuit_asks import LOWEST_FRAC, class_v, run_m, spot
from engine.build.model import Build, Part
from engine.build.power import PowerFigures
from engine.build.wiring_practice import lay_of
from engine.catalogue.facets import Battery, DcBoard

BUS = "busbars"
BOARD = "board"
CONVERTED_BOARD = "board behind the converter"


class Hub:
    """The middle of the battery side: where battery, busbars and board are, and their voltage."""

    def __init__(self, build: Build, power: PowerFigures) -> None:
        self.build, self.power, self.wiring = build, power, build.workshop.wiring
        self.lay = lay_of(build)
        bank = power.bank
        self.volts = class_v(power.battery_v or 12.0)
        self.lowest_v = self.volts * LOWEST_FRAC
        self.short_a = bank.short_a
        """At the terminals; behind cables it is less, see ``circuits_battery``."""
        batteries = build.facets(Battery)
        self.battery_ids = tuple(p.option.id for p, _ in batteries)
        self.place = spot(batteries[0][0])
        boards = build.facets(DcBoard)
        self.board = spot(boards[0][0]) if boards else self.place
        self.board_ids = tuple(p.option.id for p, _ in boards)

    def to_bus(self, part: Part) -> float:
        """Length of a run from the busbars, which sit beside the battery, to a part."""
        return run_m(self.place, spot(part), self.wiring.slack_m)
