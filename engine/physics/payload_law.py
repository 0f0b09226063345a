"""What laws ask a motor home to be able to carry. Each returns kilograms; the laws differ by region."""

from engine.physics.ranges import within

SEAT_US_KG = 68.0
"""A person in a belted seat, 68 kg (150 lb). Source: 49 CFR 567.4(g)(3)."""

PERSON_EU_KG = 75.0
"""The driver, and each passenger. Source: Regulation (EU) 1230/2012, Annex I; since 2022 (EU) 2021/535, Annex XIII."""

RUNNING_ORDER_FUEL_FRAC = 0.9
"""Fill of the fuel tank in the mass in running order. Source: Regulation (EU) 1230/2012, Article 2(4)."""


def capacity_us_kg(gross_kg: float, unloaded_kg: float) -> float:
    """Occupant and cargo carrying capacity (OCCC) as on the yellow label: rating less the unloaded vehicle.

    unloaded_kg is the vehicle as delivered with fuel, fluids and propane full; fresh water is cargo. Both 500 kg to
    20,000 t; the result is below 0 when nothing may be carried.

    Source: FMVSS 110 and 120 (49 CFR 571.110 and 571.120, S10.4), final rule 72 FR 68442 of 4 December 2007.

    >>> capacity_us_kg(4500, 3900)
    600
    """
    return within("gross_kg", gross_kg, 500, 2e7) - within("unloaded_kg", unloaded_kg, 500, 2e7)


def least_capacity_us_kg(belted_count: float) -> float:
    """What the label must at least allow: 68 kg (150 lb) for each belted seat, 0 to a million of them.

    Source: 49 CFR 567.4(g)(3); that the label may not say less, agency's letter 08-003469 on FMVSS 110 and 120.

    >>> least_capacity_us_kg(4)
    272.0
    """
    return within("belted_count", belted_count, 0, 1e6) * SEAT_US_KG


def running_order_eu_kg(built_kg: float, fuel_kg: float, gas_kg: float, water_kg: float) -> float:
    """Mass in running order of a motor caravan: driver aboard, fuel nine tenths full, gas and water as for travel.

    built_kg: vehicle with all that is built in, fuel tank full, nobody aboard, 500 kg to 20,000 t. fuel_kg: the full
    tank's content, 0 to 1,000. Gas and water: 0 to 20,000 t, more than any list of choices holds. All that is built in
    counts as standard equipment.

    Source: Regulation (EU) 1230/2012, Article 2(4); (EU) 2021/535 keeps the definition.

    >>> round(running_order_eu_kg(2700, 80, 11, 100), 3)
    2878.0
    """
    within("built_kg", built_kg, 500, 2e7)
    spared_kg = within("fuel_kg", fuel_kg, 0, 1000) * (1 - RUNNING_ORDER_FUEL_FRAC)
    aboard_kg = within("gas_kg", gas_kg, 0, 2e7) + within("water_kg", water_kg, 0, 2e7)
    return built_kg - spared_kg + aboard_kg + PERSON_EU_KG


def payload_eu_kg(gross_kg: float, running_order_kg: float, passengers_count: float) -> float:
    """What is left for belongings with a passenger of 75 kg in every seat beside the driver's.

    gross_kg, running_order_kg: 500 kg to 20,000 t. passengers_count: 0 to a million. Below 0 when nothing is left.

    Source: Regulation (EU) 1230/2012, Annex I, Part A, 2.6; (EU) 2021/535, Annex XIII.

    >>> payload_eu_kg(3500, 2900, 3)  # less 180 kg of optional equipment: 195 kg
    375.0
    """
    within("gross_kg", gross_kg, 500, 2e7)
    within("running_order_kg", running_order_kg, 500, 2e7)
    return gross_kg - running_order_kg - within("passengers_count", passengers_count, 0, 1e6) * PERSON_EU_KG


def least_payload_eu_kg(people_count: float, length_m: float) -> float:
    """Smallest pay-mass of a motor caravan: PM = 10·(n + L), n people with the driver, L the length in metres.

    people_count: 1 to a million. length_m: 2 to 20.

    Source: Regulation (EU) 1230/2012, Annex I, Part A, 2.6.4.1.2; carried over to (EU) 2021/535, Annex XIII.

    >>> round(least_payload_eu_kg(4, 7.45), 1)
    114.5
    """
    return 10 * (within("people_count", people_count, 1, 1e6) + within("length_m", length_m, 2, 20))
