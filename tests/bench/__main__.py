"""`make bench`: times and sizes with their targets side by side, all from one run on one machine.

Absolute times depend on the machine, so the targets are ratios of things measured here and now, in turn, several times;
the least time of each counts, because noise only ever adds. Of picks, which are all different, and of the loops run
between them, the median counts. Beside checks in milliseconds stands how fast this machine adds.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from rich.console import Console
from rich.progress import Progress
from rich.table import Table

from site_build.command import build
from tests.bench import masses
from tests.bench.cpython import check_times_ms
from tests.bench.energy import IN_BROWSER as ENERGY_IN_BROWSER
from tests.bench.energy import energy_times
from tests.bench.in_browser import BootTimes, PickTimes, boot_times, ms_in_browser, pick_times
from tests.bench.plan import IN_BROWSER, arranging_ms, space_check_ms
from tests.bench.roof import packing_times_ms
from tests.bench.rows import Row
from tests.bench.sizes import wire_bytes
from tests.bench.winter import winter_ms
from tests.shops import DEMO

ROUNDS = 5


def boot_rows(times: BootTimes) -> list[Row]:
    """Start-up against Pyodide alone.

    The target is for npm's files as they come: whatever is trimmed off the runtime makes the page start sooner, and
    must not count against it. Beside it stands the runtime as it is served.
    """
    ms = f"{times.interactive_ms:.0f} ms / "
    return [
        Row("page interactive / bare loadPyodide() of npm's files", times.interactive_ms / times.stock_ms, 1.4,
            ms + f"{times.stock_ms:.0f} ms"),
        Row("page interactive / the same of the trimmed files", times.interactive_ms / times.bare_ms, None,
            ms + f"{times.bare_ms:.0f} ms"),
    ]  # fmt: skip


def pick_rows(times: PickTimes) -> list[Row]:
    """A pick as a buyer makes it, one that comes out of nowhere, and a frame with nothing new."""
    of = f" / {times.loop_ms:.0f} ms"
    return [
        Row("pick to new sheet / a million float additions", times.pick_ms / times.loop_ms, 0.3,
            f"{times.pick_ms:.1f} ms{of}"),
        Row("a pick that nothing announces / the same", times.sudden_ms / times.loop_ms, None,
            f"{times.sudden_ms:.0f} ms{of}"),
        Row("a frame with nothing new / the same", times.empty_ms / times.loop_ms, None,
            f"{times.empty_ms:.0f} ms{of}"),
    ]  # fmt: skip


def main() -> int:
    """Measure and print; status 1 when a target is missed."""
    console = Console()
    with tempfile.TemporaryDirectory() as name, Progress(console=console, transient=True) as bar:
        task = bar.add_task("Building the site", total=4 + ROUNDS)
        site = Path(name) / "site"
        build(DEMO / "quillback", site, lambda step: bar.update(task, description=step))
        bar.update(task, advance=1, description="Checking in CPython")
        cold_ms, warm_ms = check_times_ms("quillback")
        energy = energy_times()
        few_ms, many_ms = masses.mass_times_ms("quillback", 50), masses.mass_times_ms("quillback", 500)
        hardest_ms, growth = packing_times_ms()
        arranged_ms = arranging_ms("quillback")
        small_ms, large_ms = space_check_ms("quillback", 50), space_check_ms("quillback", 500)
        bar.update(task, advance=1, description="Weighing")
        ours, core = wire_bytes(site)
        bar.update(task, advance=1, description="Starting the page, again and again")
        boots = boot_times(site, ROUNDS, lambda: bar.advance(task))
        bar.update(task, description="Picking")
        picked = pick_times(site)
        amid_ms = pick_times(site, picks=12, rest=False).pick_ms
        arranged_there_ms = ms_in_browser(site, IN_BROWSER, "_arranging_ms()")
        masses_there_ms = [ms_in_browser(site, masses.IN_BROWSER, f"_masses_ms({n})") for n in (50, 500)]
        trip_there_ms = ms_in_browser(site, ENERGY_IN_BROWSER, "_trip_ms()")
        slice_there_ms = ms_in_browser(site, ENERGY_IN_BROWSER, "_longest_slice_ms()")
        bar.advance(task)
    rows = boot_rows(boots)
    rows += pick_rows(picked)
    adding = f"where a million additions take {energy.loop_ms:.0f} ms"
    rows.append(Row("one check in CPython, cold memo, ms", cold_ms, 20.0, adding))
    rows.append(Row("one check in CPython, warm memo, ms", warm_ms, 3.0, adding))
    rows.append(Row("masses and all worst cases of 50 parts, ms", few_ms, 2.0, ""))
    rows.append(Row("the same for 500 parts / for 50", many_ms / few_ms, 10.0, f"{many_ms:.2f} ms / {few_ms:.2f} ms"))
    few_there_ms, many_there_ms = masses_there_ms
    rows.append(Row("masses of 50 parts in the browser, ms", few_there_ms, 20.0, ""))
    rows.append(
        Row("the same for 500 parts / for 50", many_there_ms / few_there_ms, 10.0,
            f"{many_there_ms:.1f} ms / {few_there_ms:.1f} ms")
    )  # fmt: skip
    rows.append(Row("arranging eight modules in CPython, ms", arranged_ms, 10.0, ""))
    rows.append(Row("arranging eight modules in the browser, ms", arranged_there_ms, 100.0, ""))
    rows.append(
        Row(
            "plan and space checks of 500 parts / of 50",
            large_ms / small_ms,
            10.0,
            f"{large_ms:.2f} ms / {small_ms:.2f} ms",
        )
    )
    rows.append(Row("charts of warmth and damp, ms", winter_ms("quillback"), 5.0, ""))
    rows.append(Row("hardest mix of panels on one roof, ms", hardest_ms, 50.0, ""))
    rows.append(Row("five of each of three kinds / two of each", growth, 8.0, ""))
    made_of = f"{energy.trip_ms:.0f} ms / {energy.loop_ms:.0f} ms"
    rows.append(Row("14 days x 200 weather years / additions, CPython", energy.trip_ms / energy.loop_ms, 3.3, made_of))
    rows.append(Row("pick in the middle of slow work / pick", amid_ms / picked.pick_ms, None, f"{amid_ms:.0f} ms"))
    rows.append(Row("14 days x 200 weather years in the browser, ms", trip_there_ms, 180.0, ""))
    rows.append(Row("a year x 10 weather years, ms", energy.year_ms, None, ""))
    rows.append(
        Row("longest slice of slow figures in the browser, ms", slice_there_ms, 250.0, "what a pick may wait for")
    )
    rows.append(
        Row(
            "bytes over the wire / Pyodide's core alone",
            ours / core,
            1.25,
            f"{ours / 1e6:.2f} MB / {core / 1e6:.2f} MB",
        )
    )
    table = Table("Measured", "Value", "Target, at most", "", "From", title="Loadstead, one run")
    for row in rows:
        target = "–" if row.target is None else f"{row.target:g}"
        table.add_row(row.name, f"{row.value:.2f}", target, row.word, row.made_of)
    console.print(table)
    return 0 if all(row.met for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
