"""Bytes that a first visit to the configurator fetches, as gzip sends them, against Pyodide's core alone."""

import gzip
from pathlib import Path

from site_build.bundle.fetch import fetch
from site_build.progress import silent

CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
NOT_FETCHED = ("licences.txt",)


def wire_bytes(site: Path) -> tuple[int, int]:
    """Bytes of everything below app/ that the page loads, and bytes of npm's four core files."""
    ours = sum(_sent(p) for p in (site / "app").rglob("*") if p.is_file() and p.name not in NOT_FETCHED)
    pyodide = fetch(silent).npm / "pyodide"
    return ours, sum(_sent(pyodide / name) for name in CORE)


def _sent(path: Path) -> int:
    data = path.read_bytes()
    return min(len(data), len(gzip.compress(data, 9)))
