"""Putting a finished site in the place of an older one: at once, and with nothing lost that no build of ours wrote."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from site_build.progress import SiteProblem

MARK = ".loadstead-site"
"""Says that a folder was written by the site build: the version on its first line, then each file that it wrote."""


def mark(site: Path, version: str) -> None:
    """Write the mark of a finished site."""
    (site / MARK).write_text("\n".join([version, *_files(site)]) + "\n", encoding="utf-8")


def may_replace(out_dir: Path) -> None:
    """Raises SiteProblem for a place that holds anything but a site of ours."""
    if os.path.lexists(out_dir) and not out_dir.is_dir():
        raise SiteProblem(f"{out_dir} is no folder. Name a folder for the site.")
    if out_dir.is_dir() and any(out_dir.iterdir()) and not (out_dir / MARK).is_file():
        raise SiteProblem(
            f"{out_dir} holds files that no site build of ours has written, so it is left alone. "
            "Name an empty folder with -o."
        )


def replace(site: Path, out_dir: Path, room: Path) -> None:
    """Put a site where an older one may be, so that a half-written one is never seen.

    What somebody has added there since (.htaccess, a domain's file, .git) comes along. `room` is an empty folder of the
    same file system. Raises SiteProblem when an added file and one of the new site have the same name.
    """
    added = _added(out_dir)
    if both := [name for name in added if os.path.lexists(site / name)]:
        raise SiteProblem(
            f"{out_dir} holds what no site build of ours has written, and the new site has files of the same name, so "
            f"it is left alone: {', '.join(both)}. Move them away."
        )
    for name in added:
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(out_dir / name, site / name, follow_symlinks=False)
    if not out_dir.is_dir():
        site.rename(out_dir)
        return
    old = room / "old"
    out_dir.rename(old)
    try:
        site.rename(out_dir)
    except BaseException:
        old.rename(out_dir)
        raise


def _added(out_dir: Path) -> list[str]:
    if not (out_dir / MARK).is_file():
        return []
    _, *ours = (out_dir / MARK).read_text(encoding="utf-8").splitlines()
    # A mark without a list was written before there were lists.
    return [name for name in _files(out_dir) if name not in {MARK, *ours}] if ours else []


def _files(folder: Path) -> list[str]:
    """Paths of all files and links below a folder; a link to a folder is a link."""
    found = []
    for root, folders, names in os.walk(folder):
        links = [name for name in folders if (Path(root) / name).is_symlink()]
        found += [(Path(root) / name).relative_to(folder).as_posix() for name in (*names, *links)]
    return sorted(found)
