"""Centimetres of the vehicle as numbers in a drawing."""

from markupsafe import Markup


def cm(metres: float) -> str:
    """A length or place in centimetres, to a tenth of a millimetre, without needless zeros."""
    text = f"{metres * 100:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


EM_PER_M = 0.035
"""Size of letters for each metre of a drawing's length class; the style sheet has it as ``--per-m``."""

_TALL = 4 / 3
"""A drawing is shown at most this much narrower than its height would ask for."""


def length_class(width_m: float, height_m: float = 0.0) -> int:
    """The drawing's width in whole metres, 4 to 14: the style sheet sets the size of letters by it.

    A tall drawing counts as wider, because it is shown smaller.
    """
    return max(4, min(14, round(max(width_m, height_m * _TALL))))


def em_of(size: int) -> float:
    """Size of letters in a drawing of this length class, in metres of the vehicle."""
    return EM_PER_M * size


def rect_at(x_m: float, y_m: float, length_m: float, width_m: float) -> Markup:
    """The place and size of a rectangle, as attributes."""
    return Markup(f'x="{cm(x_m)}" y="{cm(y_m)}" width="{cm(length_m)}" height="{cm(width_m)}"')


def text_at(x_m: float, y_m: float) -> Markup:
    """The middle of a text, as attributes."""
    return Markup(f'x="{cm(x_m)}" y="{cm(y_m)}"')
