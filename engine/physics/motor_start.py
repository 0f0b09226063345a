"""What motors take while they start."""

from engine.physics.ranges import within


def start_va(running_a: float, supply_v: float, start_a: float | None = None, start_multiple: float = 1.0) -> float:
    """Apparent power of a start: by the nameplate's locked-rotor current, else by a multiple of the running current.

    running_a, start_a: 0 to 500. supply_v: 5 to 500. start_multiple: 1 to 10. Source: S = U·I.

    >>> start_va(9, 120, start_a=40), start_va(9, 120)
    (4800, 1080.0)
    """
    within("running_a", running_a, 0, 500)
    within("supply_v", supply_v, 5, 500)
    within("start_multiple", start_multiple, 1, 10)
    if start_a is not None:
        return supply_v * within("start_a", start_a, 0, 500)
    return supply_v * running_a * start_multiple
