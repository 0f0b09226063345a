"""What a workshop's prices are, and are not: tax and work."""

from engine.catalogue import Workshop
from engine.spelling import begun
from engine.units import money_of_one


def price_terms(shop: Workshop) -> str:
    """What the prices of options are, and are not."""
    tax = begun(shop.tax.name)
    tax = f"{tax} is in both" if shop.tax.in_prices else f"{tax} comes on top of both"
    return f"Parts are priced without the work, which is {labour_rate(shop)} an hour. {tax}."


def work_terms(shop: Workshop) -> str:
    """What an hour of work costs, where no parts are spoken of."""
    return f"Work is charged at {labour_rate(shop)} an hour {_with_tax(shop)}."


def labour_rate(shop: Workshop) -> str:
    """The price of an hour of work."""
    return money_of_one(shop.labour_rate, shop.currency)


def price_label(shop: Workshop) -> str:
    """Heading of a vehicle's price, which says whether tax is in it."""
    return f"Price {_with_tax(shop)}"


def _with_tax(shop: Workshop) -> str:
    return f"{'with' if shop.tax.in_prices else 'before'} {shop.tax.name}"
