"""Finds a chromium for the tests, or gets one: the one on the path, Playwright's, else the distribution's package.

`python -m site_build.test_browser` prints its path; `make test` runs it before the tests.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")


def on_path() -> Path | None:
    """A chromium that this machine already has."""
    found = (shutil.which(name) for name in NAMES)
    return next((Path(path) for path in found if path), None)


def from_playwright() -> Path | None:
    """The chromium that Playwright has fetched for this user, if any."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = Path(playwright.chromium.executable_path)
    return path if path.is_file() else None


def find() -> Path | None:
    """A chromium, without getting one."""
    return on_path() or from_playwright()


def get() -> Path | None:
    """A chromium; fetched when there is none. Playwright's first, then Debian's and Ubuntu's package."""
    if found := find():
        return found
    print("No chromium here; asking Playwright for one.", file=sys.stderr)  # noqa: T201
    subprocess.run((sys.executable, "-m", "playwright", "install", "chromium"), check=False)
    if found := from_playwright():
        return found
    if shutil.which("apt-get"):
        print("Playwright has none for this machine; asking the distribution.", file=sys.stderr)  # noqa: T201
        root = () if not hasattr(os, "geteuid") or os.geteuid() == 0 else ("sudo",)
        subprocess.run((*root, "apt-get", "update", "-qq"), check=False)
        subprocess.run((*root, "apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"), check=False)
    return find()


def main() -> int:
    """Print the browser's path; status 1 and a sentence when none can be had."""
    found = get()
    if found is None:
        print(  # noqa: T201
            "The browser tests need chromium and none could be installed. Install chromium (or Chrome) so that it is "
            "on the path, then run the same command again.",
            file=sys.stderr,
        )
        return 1
    print(found)  # noqa: T201
    return 0


if __name__ == "__main__":
    sys.exit(main())
