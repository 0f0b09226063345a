"""Centimetres of the vehicle as numbers in a drawing."""


def cm(metres: float) -> str:
    """A length or place in centimetres, to a tenth of a millimetre, without needless zeros."""
    text = f"{metres * 100:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def length_class(width_m: float) -> int:
    """The drawing's width in whole metres, 4 to 14: the style sheet sets the size of letters by it."""
    return max(4, min(14, round(width_m)))
