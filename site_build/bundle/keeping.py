"""Folders of the cache that are there whole or not at all, also when two builds make the same one at once."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def made_whole(home: Path) -> Iterator[Path]:
    """An empty folder to fill. It becomes `home` when the block ends well; of two builds the first to end wins."""
    home.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=home.parent, prefix=f"{home.name}.") as name:
        staged = Path(name) / "new"
        staged.mkdir()
        yield staged
        try:
            staged.rename(home)
        except OSError:
            # Another build was quicker; both made the same from the same locks and sources.
            if not home.is_dir():
                raise
