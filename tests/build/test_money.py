"""Price to the cent, with tax in the prices or on top of them."""

from dataclasses import replace
from decimal import Decimal

import pytest

from engine.build.money import money_figures
from engine.catalogue.workshop import Tax

# Van 20,000; battery 500 and 2 h, twice; inverter 400 and 2 h; labour at 50 an hour: 21,400 and 300.
CHOSEN = {"lfp-100": 2, "inverter-2000": 1}


def with_tax(build, rate_frac, in_prices, labour_rate="50"):
    tax = Tax(name="Tax", rate_frac=rate_frac, in_prices=in_prices)
    shop = build.workshop.model_copy(update={"tax": tax, "labour_rate": Decimal(labour_rate)})
    return money_figures(replace(build, workshop=shop))


def test_sums_before_tax(yard):
    money = with_tax(yard(options=CHOSEN), 0.0, False)
    assert (money.vehicle, money.parts, money.labour) == (Decimal(20000), Decimal(1400), Decimal(300))
    assert money.labour_h == 6
    assert (money.tax, money.total) == (0, Decimal(21700))


def test_tax_on_top(yard):
    money = with_tax(yard(options=CHOSEN), 0.0785, False)
    # 21,700 · 0.0785 = 1703.45
    assert (money.tax, money.total) == (Decimal("1703.45"), Decimal("23403.45"))


def test_tax_in_the_prices(yard):
    money = with_tax(yard(options=CHOSEN), 0.19, True)
    # 21,700 − 21,700/1.19 = 3464.705…
    assert (money.tax, money.total) == (Decimal("3464.71"), Decimal(21700))


@pytest.mark.parametrize(("rate", "labour"), [("33.335", "200.01"), ("33.334", "200.00")])
def test_labour_is_rounded_once_and_half_up(yard, rate, labour):
    # 6 h at 33.335 are 200.01 exactly; at 33.334 they are 200.004.
    assert with_tax(yard(options=CHOSEN), 0.0, False, rate).labour == Decimal(labour)


def test_half_a_cent_of_tax_goes_up(yard):
    # 21,700 · 0.00005 is 1.085.
    assert with_tax(yard(options=CHOSEN), 0.00005, False).tax == Decimal("1.09")


def test_a_vehicle_that_the_buyer_brings_costs_nothing(yard):
    build = yard(options=CHOSEN)
    brought = replace(build, vehicle=build.vehicle.model_copy(update={"price": None}))
    money = money_figures(brought)
    assert money.vehicle is None
    # 1700 and 20 % on top.
    assert money.total == Decimal("2040.00")


def test_the_slowest_part_decides_when_all_are_there(yard):
    from tests.shops import catalogue, enquiry, resolver

    assert money_figures(yard(options=CHOSEN)).lead_time_d == 0
    assert money_figures(yard()).lead_time_d == 0
    shown = catalogue("hallamoor")
    ready = next(r for r in shown.ready if r.id == "dry-stone")
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready=ready.id))
    slowest = max(shown.options_by_id[i][1].lead_time_d for i in ready.options)
    assert money_figures(build).lead_time_d == slowest > 0
