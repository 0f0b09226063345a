"""Price, labour and lead time."""

from decimal import ROUND_HALF_UP, Decimal
from typing import NamedTuple

from engine.build.model import Build

CENT = Decimal("0.01")


class MoneyFigures(NamedTuple):
    """What a build costs the buyer, and when it can be ready."""

    vehicle: Decimal | None
    """Price of the base vehicle; None when the buyer brings it."""
    parts: Decimal
    labour_h: float
    labour: Decimal
    tax: Decimal
    total: Decimal
    """With tax, whichever way the workshop states its prices."""
    lead_time_d: float


def money_figures(build: Build) -> MoneyFigures:
    """Sums in the workshop's currency, exact to the cent; tax is rounded once, at the end."""
    shop = build.workshop
    parts = sum((p.price for p in build.parts), Decimal(0))
    hours = sum(p.labour_h for p in build.parts)
    labour = (shop.labour_rate * Decimal(str(hours))).quantize(CENT, ROUND_HALF_UP)
    net = parts + labour + (build.vehicle.price or Decimal(0))
    rate = Decimal(str(shop.tax.rate_frac))
    if shop.tax.in_prices:
        total = net
        tax = (net - net / (1 + rate)).quantize(CENT, ROUND_HALF_UP)
    else:
        tax = (net * rate).quantize(CENT, ROUND_HALF_UP)
        total = net + tax
    return MoneyFigures(
        vehicle=build.vehicle.price,
        parts=parts,
        labour_h=hours,
        labour=labour,
        tax=tax,
        total=total,
        lead_time_d=max((p.option.lead_time_d for p in build.parts), default=0.0),
    )
