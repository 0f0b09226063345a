"""What a workshop's prices are, and are not: tax and work."""

from engine.catalogue import Workshop
from engine.units import money


def price_terms(shop: Workshop) -> str:
    """What the prices of options are, and are not."""
    tax = shop.tax.name[:1].upper() + shop.tax.name[1:]
    tax = f"{tax} is in both" if shop.tax.in_prices else f"{tax} comes on top of both"
    return f"Parts are priced without the work, which is {money(shop.labour_rate, shop.currency)} an hour. {tax}."


def price_label(shop: Workshop) -> str:
    """Heading of a vehicle's price, which says whether tax is in it."""
    return f"Price {'with' if shop.tax.in_prices else 'before'} {shop.tax.name}"
