"""One check in CPython, as a pick asks for it: resolve, quick figures, every rule. Cold: in a fresh process."""

import json
import subprocess
import sys
import time

from engine.desk import start_enquiry
from tests.shops import catalogue, quick_scene, resolver

ROUNDS = 7

_COLD = """
import gc, json, sys, time
from engine.desk import start_enquiry
from engine.rules import all_rules
from tests.shops import catalogue, quick_scene, resolver
shop = sys.argv[1]
by = resolver(shop)
asked = start_enquiry(catalogue(shop))
all_rules()
gc.freeze()  # with the next, as the doors of terminal and browser do once a catalogue is open
gc.disable()
began = time.perf_counter()
quick_scene(by, asked)
print(json.dumps((time.perf_counter() - began) * 1000))
"""


def check_times_ms(shop: str) -> tuple[float, float]:
    """Milliseconds of the first check of a process, and of a later one that meets only what is remembered."""
    command = (sys.executable, "-c", _COLD, shop)
    colds = [
        float(json.loads(subprocess.run(command, capture_output=True, text=True, check=True).stdout))
        for _ in range(ROUNDS)
    ]
    by, asked = resolver(shop), start_enquiry(catalogue(shop))
    quick_scene(by, asked)
    warms = []
    for _ in range(50):
        began = time.perf_counter()
        quick_scene(by, asked)
        warms.append((time.perf_counter() - began) * 1000)
    return min(colds), min(warms)
