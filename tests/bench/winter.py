"""The four charts of warmth and damp in CPython, worked out and drawn with nothing remembered."""

import time

from engine.build import winter_hours
from engine.desk import start_enquiry
from engine.sheets.book import book_of
from engine.sheets.charts import warmth as charts
from engine.sheets.warmth import warmth
from tests.shops import quick_scene, resolver

ROUNDS = 7


def winter_ms(shop: str) -> float:
    """Milliseconds for a shop's opening build in January, the least of several rounds."""
    enquiry = start_enquiry(resolver(shop).catalogue)
    cold = enquiry.trip.model_copy(update={"months": (1,)})
    scene = quick_scene(resolver(shop), enquiry.model_copy(update={"trip": cold}))
    book = book_of(scene.catalogue, scene.build.climate)
    memos = (
        winter_hours.through, winter_hours._night, winter_hours._damp_day, charts.wall, charts.heat, charts.night,
        charts.damp,
    )  # fmt: skip
    taken = []
    for _ in range(ROUNDS):
        for memo in memos:
            memo.cache_clear()
        began = time.process_time()
        warmth(scene, book)
        taken.append((time.process_time() - began) * 1000)
    return min(taken)
