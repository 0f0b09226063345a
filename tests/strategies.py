"""Hypothesis strategies that several tests share."""

from collections.abc import Sequence
from decimal import Decimal

from hypothesis import strategies as st

from engine.catalogue.trip import CargoBox, Trip
from engine.enquiry.model import Enquiry, Move

_WORDS = st.text("abcdefghijklmnopqrstuvwxyz0123456789", min_size=1, max_size=11)
SLUGS = st.lists(_WORDS, min_size=1, max_size=4).map("-".join)
LINES = st.text(st.characters(codec="utf-8"), min_size=1, max_size=160)
DAYS = st.dates().map(lambda d: d.isoformat())
BUDGETS = st.integers(1, 10**12 - 1).map(lambda cents: Decimal(cents) / 100)


def floats(low: float, high: float) -> st.SearchStrategy[float]:
    """Plain finite numbers in a range, both ends included, round ones often."""
    return st.floats(low, high) | st.sampled_from((float(low), float(high), float(round((low + high) / 2))))


def cargo_boxes() -> st.SearchStrategy[CargoBox]:
    """Any kind of box that validates."""
    return st.builds(
        lambda **values: CargoBox(**values),  # the bare class would be given its sizes by their aliases too
        name=LINES.map(str.strip).filter(bool),
        length_m=floats(0.06, 4),
        width_m=floats(0.03, 2),
        height_m=floats(0.03, 2),
        count=st.integers(1, 8),
        mass_kg=st.none() | floats(0, 200),
        any_way_up=st.booleans(),
    )


def moves() -> st.SearchStrategy[Move]:
    """Any move that validates."""
    return st.builds(Move, x_m=floats(0, 12), side=st.sampled_from(("left", "right")))


def trips(places: Sequence[str] | None = None) -> st.SearchStrategy[Trip]:
    """Any trip that validates; to any place, or to one of ``places``."""
    return st.builds(
        Trip,
        adults=st.integers(1, 8),
        children=st.integers(0, 8),
        pets=st.integers(0, 6),
        tallest_m=floats(1.2, 2.2),
        adult_kg=st.none() | floats(40, 200),
        place=SLUGS if places is None else st.sampled_from(places),
        months=st.lists(st.integers(1, 12), min_size=1, max_size=12, unique=True).map(tuple),
        days_between_fills_d=floats(0.5, 60),
        days_off_grid_d=floats(0.5, 90),
        driving_h=floats(0, 14),
        showers_per_day=floats(0, 3),
        shower_minutes=floats(0.5, 20),
        hot_meals_per_day=floats(0, 5),
        computer_h=floats(0, 48),
        cooling=st.booleans(),
        inside_degc=floats(5, 26),
        baggage_kg=floats(0, 1500),
        cupboards_kg=floats(0, 800),
        nose_kg=floats(0, 500),
        budget=st.none() | BUDGETS,
        boxes=st.just(()) | st.lists(cargo_boxes(), max_size=3).map(tuple),
        height_limit_m=st.none() | floats(1.5, 6),
        hookup_a=st.none() | floats(3, 63),
    )


def enquiries(
    vehicles: Sequence[str] | None = None,
    options: Sequence[str] | None = None,
    places: Sequence[str] | None = None,
    most_options: int = 12,
) -> st.SearchStrategy[Enquiry]:
    """Any enquiry that validates; ids from the given ones (say, a catalogue's), or made up."""
    ids = SLUGS if options is None else st.sampled_from(options)
    return st.builds(
        Enquiry,
        workshop=st.none() | SLUGS,
        vehicle=SLUGS if vehicles is None else st.sampled_from(vehicles),
        options=st.dictionaries(ids, st.integers(1, 20), max_size=most_options),
        moves=st.just({}) | st.dictionaries(ids, moves(), max_size=3),
        trip=trips(places),
        title=st.none() | LINES,
        catalogue_dated=st.none() | DAYS,
    )
