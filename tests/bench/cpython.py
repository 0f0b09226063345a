"""One check in CPython, as a pick asks for it: resolve, quick figures, every rule.

In processes that do nothing else: the first check of each is cold, a later one meets only what is remembered.
"""

import json
import subprocess
import sys

ROUNDS = 7

_CHECKS = """
import gc, json, sys, time
from engine.desk import start_enquiry
from engine.rules import all_rules
from tests.shops import catalogue, quick_scene, resolver
shop = sys.argv[1]
by = resolver(shop)
asked = start_enquiry(catalogue(shop))
all_rules()
gc.freeze()  # a catalogue that is open stays
gc.disable()  # up to the first answer, as the doors of terminal and browser have it
took_ms = []
for _ in range(50):
    began = time.perf_counter()
    quick_scene(by, asked)
    took_ms.append((time.perf_counter() - began) * 1000)
    gc.enable()
print(json.dumps([took_ms[0], min(took_ms[1:])]))
"""


def check_times_ms(shop: str) -> tuple[float, float]:
    """Milliseconds of the first check of a process, and of a later one."""
    command = (sys.executable, "-c", _CHECKS, shop)
    cold_ms, warm_ms = zip(
        *(
            json.loads(subprocess.run(command, capture_output=True, text=True, check=True).stdout)
            for _ in range(ROUNDS)
        ),
        strict=True,
    )
    return min(cold_ms), min(warm_ms)
