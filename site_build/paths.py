"""Where the site build keeps what it may throw away, and where its own files are."""

from __future__ import annotations

import os
from pathlib import Path

HERE = Path(__file__).parent
PROJECT = HERE.parent


def cache_dir() -> Path:
    """The folder for fetched and prepared files; it can be deleted at any time.

    In a checkout it is `.cache/` beside the sources (not tracked); for an installed package it is the user's
    cache folder. `LOADSTEAD_CACHE` names another place.
    """
    named = os.environ.get("LOADSTEAD_CACHE")
    if named:
        return Path(named).expanduser().resolve()
    if (PROJECT / "pyproject.toml").is_file():
        return PROJECT / ".cache"
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA") or str(Path.home() / ".cache")
    return Path(base) / "loadstead"


BROWSER = HERE / "browser"
"""All the JavaScript and CSS of the configurator, and the first Python that runs there."""

SHEET_CSS = BROWSER / "sheet.css"
"""The sheet's own look, on the configurator's page and in single sheets alike."""
