"""Centimetres of the vehicle as numbers in a drawing."""

from markupsafe import Markup


def cm(metres: float) -> str:
    """A length or place in centimetres, to a tenth of a millimetre, without needless zeros."""
    text = f"{metres * 100:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def length_class(width_m: float) -> int:
    """The drawing's width in whole metres, 4 to 14: the style sheet sets the size of letters by it."""
    return max(4, min(14, round(width_m)))


def rect_at(x_m: float, y_m: float, length_m: float, width_m: float) -> Markup:
    """The place and size of a rectangle, as attributes."""
    return Markup(f'x="{cm(x_m)}" y="{cm(y_m)}" width="{cm(length_m)}" height="{cm(width_m)}"')


def text_at(x_m: float, y_m: float) -> Markup:
    """The middle of a text, as attributes."""
    return Markup(f'x="{cm(x_m)}" y="{cm(y_m)}"')
