"""The one error of physics: a value outside the range for which a formula holds."""


class OutOfRangeError(ValueError):
    """A value outside the range in which a formula is valid; nothing is clamped in silence."""

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        super().__init__(f"{name}: {value:g} is outside {low:g} to {high:g}")
        self.name, self.value, self.low, self.high = name, value, low, high


def within(name: str, value: float, low: float, high: float) -> float:
    """Return ``value`` when it lies in [low, high]; raise OutOfRangeError otherwise (also for NaN)."""
    if not low <= value <= high:
        raise OutOfRangeError(name, value, low, high)
    return value
