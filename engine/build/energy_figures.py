"""What the hourly reckoning says of a build's energy; see ``trip_energy``, which works it out."""

from math import inf
from typing import Literal, NamedTuple

from engine.physics.energy_trace import HourBalance
from engine.physics.energy_trip import EnergyTrip
from engine.physics.energy_year import MonthBalance
from engine.physics.sun_day import DAYS_IN_MONTH

Kind = Literal["usual", "dull", "bright"]
"""Half of the days have as much sun or less; one in ten has as much or less; one in ten has more."""


class Look(NamedTuple):
    """Which day the reader wants to see by the hour."""

    month: int = 0
    """1 to 12; 0: the trip's hardest."""
    kind: Kind = "usual"


USUAL = Look()


class DaySeen(NamedTuple):
    """One day of a month by the hour."""

    month: int
    kind: Kind
    hours: tuple[HourBalance, ...]
    """24; none where the battery's content in that month's cold is not known."""


class Change(NamedTuple):
    """What one change does to the trip."""

    what: str
    option_id: str
    before_d: float | None
    """Days until empty in the median year; None: not within the days looked at."""
    after_d: float | None
    before_unmet_frac: float
    """Share of the loads that goes unmet, all years together."""
    after_unmet_frac: float

    @property
    def gain(self) -> float:
        """By how much less of the loads goes unmet; what counts where days do not tell."""
        return self.before_unmet_frac - self.after_unmet_frac

    @property
    def days_gained_d(self) -> float:
        """Days more in the median year, without end where it never runs empty then; 0 where days do not tell."""
        if self.before_d is None:
            return 0.0
        return inf if self.after_d is None else self.after_d - self.before_d

    @property
    def helps(self) -> bool:
        """Whether it helps at all, in days where they tell."""
        return self.days_gained_d > 0 or (self.days_gained_d == 0 and self.gain > 0)


class Clipped(NamedTuple):
    """Sun that the controllers do not pass."""

    lost_wh: tuple[float, ...]
    """In a year, by controller."""
    share_frac: tuple[float, ...]
    """Of what all of them could pass without a limit."""


class EnergyFigures(NamedTuple):
    """What the hourly reckoning says of a trip in its hardest month. Later parts are None until they are worked out."""

    days_count: int
    """Days looked at, from a full battery."""
    years_count: int
    trip: EnergyTrip
    alone_d: float
    """Days that the battery alone holds, without sun and driving."""
    day: DaySeen | None = None
    """The day that the reader wants to see."""
    year: tuple[MonthBalance, ...] | None = None
    """Living aboard all year, January first."""
    months_d: tuple[float | None, ...] | None = None
    """By month, days until the battery is empty in the median year, were the trip made then; None: not within
    ``days_count``. Not known, as of a battery colder than its data, counts as no day."""
    changes: tuple[Change, ...] | None = None
    """Changes that help, the one that helps most first; none where nothing is lacking even in the poor year."""

    @property
    def sun_alone_frac(self) -> float | None:
        """Share of the year's days on which the sun by itself puts back what the day takes; None until known."""
        if self.year is None:
            return None
        return sum(m.sun_alone_frac * n for m, n in zip(self.year, DAYS_IN_MONTH, strict=True)) / sum(DAYS_IN_MONTH)

    @property
    def clipped(self) -> Clipped | None:
        """What each controller's output limit costs in a year; None until known."""
        if self.year is None or self.sun_wh_y is None:
            return None
        units = zip(*(m.clipped_wh_d for m in self.year), strict=True)
        lost = tuple(sum(wh * n for wh, n in zip(unit, DAYS_IN_MONTH, strict=True)) for unit in units)
        whole = self.sun_wh_y + sum(lost)
        return Clipped(lost, tuple(wh / whole if wh else 0.0 for wh in lost))

    @property
    def sun_wh_y(self) -> float | None:
        """What the controllers offer in a year; None until known."""
        if self.year is None:
            return None
        return sum(m.sun_wh_d * n for m, n in zip(self.year, DAYS_IN_MONTH, strict=True))

    @property
    def complete(self) -> bool:
        """Whether every part is worked out."""
        return self.changes is not None
