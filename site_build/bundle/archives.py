"""Archives whose bytes depend on nothing but their content, so that equal input gives an equal build id."""

from __future__ import annotations

import gzip
import io
import tarfile
import zipfile
from collections.abc import Mapping
from pathlib import Path

Files = Mapping[str, bytes]
"""Path with forward slashes, to content."""

_EPOCH = (1980, 1, 1, 0, 0, 0)


def stored_zip(files: Files) -> bytes:
    """A zip that is not compressed: Python imports from it without inflating, and `packed` shrinks it as a whole."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            info = zipfile.ZipInfo(name, _EPOCH)
            info.external_attr = 0o644 << 16
            info.create_system = 3
            archive.writestr(info, files[name])
    return out.getvalue()


def packed(content: bytes) -> bytes:
    """Gzip without time or name. The worker unpacks it, so no host has to know how to compress, and the checksum
    at the end tells a damaged file from a whole one."""
    return gzip.compress(content, compresslevel=9, mtime=0)


def read_zip(path: Path) -> dict[str, bytes]:
    """All files of a zip or wheel."""
    return zip_members(path.read_bytes())


def zip_members(data: bytes) -> dict[str, bytes]:
    """All files of a zip that is at hand."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}


def read_tar(path: Path) -> dict[str, bytes]:
    """All files of a source archive, without the top folder's name."""
    files: dict[str, bytes] = {}
    with tarfile.open(path) as archive:
        for member in archive.getmembers():
            handle = archive.extractfile(member) if member.isfile() else None
            if handle is not None:
                files[member.name.partition("/")[2]] = handle.read()
    return files
