"""The finished site, read byte by byte: nothing it loads may come from elsewhere, nothing private may be in it."""

from __future__ import annotations

import gzip
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urlsplit

from site_build.bundle.archives import zip_members

# Attributes that make a browser fetch; `a href` is not among them, a link in prose is fetched by nobody.
_FETCHING = {
    "script": ("src",),
    "link": ("href",),
    "img": ("src", "srcset"),
    "source": ("src", "srcset"),
    "iframe": ("src",),
    "video": ("src", "poster"),
    "audio": ("src",),
    "embed": ("src",),
    "object": ("data",),
    "form": ("action",),
    "image": ("href", "xlink:href"),
    "use": ("href", "xlink:href"),
    "input": ("src",),
    "track": ("src",),
}
# Link relations that only name an address.
_NAMING = {"canonical", "prev", "next", "alternate", "author", "license"}
_IN_CSS = re.compile(r"""(?:url\(\s*["']?|@import\s+["'])\s*(?P<url>[^"')\s]+)""")
_FETCH_IN_JS = re.compile(r"""(?:import|fetch|importScripts|Worker)\s*\(\s*["'`](?P<url>(?:https?:)?//[^"'`]+)""")


class _Loads(HTMLParser):
    """Collects what a page makes the browser fetch."""

    def __init__(self) -> None:
        super().__init__()
        self.urls: list[str] = []
        self._style = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._style = tag == "style"
        if "style" in given:
            self.urls += [m["url"] for m in _IN_CSS.finditer(given["style"])]
        if tag == "link" and set(given.get("rel", "").split()) <= _NAMING:
            return
        for name in _FETCHING.get(tag, ()):
            if value := given.get(name):
                self.urls += [part.split()[0] for part in value.split(",")] if name == "srcset" else [value]

    def handle_data(self, data: str) -> None:
        if self._style:
            self.urls += [m["url"] for m in _IN_CSS.finditer(data)]


def loaded_from_elsewhere(site: Path) -> list[str]:
    """One sentence for each address outside the site that some file makes a browser fetch."""
    found = []
    for path in sorted(site.rglob("*")):
        for url in _fetched_by(path):
            parts = urlsplit(url)
            if parts.netloc or parts.scheme in ("http", "https", "ftp", "ws", "wss"):
                found.append(f"{path.relative_to(site).as_posix()} loads {url}")
    return found


def missing_targets(site: Path) -> list[str]:
    """One sentence for each file of the site that a page loads and that is not there."""
    found = []
    for path in sorted(site.rglob("*.html")):
        for url in _fetched_by(path):
            parts = urlsplit(url)
            if parts.scheme or parts.netloc or not parts.path:
                continue
            if parts.path.startswith("/"):
                found.append(
                    f"{path.relative_to(site).as_posix()} loads {url} from the host's root, not from the site's"
                )
            elif not (path.parent / parts.path).exists():
                found.append(f"{path.relative_to(site).as_posix()} loads {url}, which is not there")
    return found


def _fetched_by(path: Path) -> Iterator[str]:
    if path.suffix == ".html":
        parser = _Loads()
        parser.feed(path.read_text(encoding="utf-8"))
        yield from parser.urls
    elif path.suffix == ".css":
        yield from (m["url"] for m in _IN_CSS.finditer(path.read_text(encoding="utf-8")))
    elif path.suffix == ".js":
        yield from (m["url"] for m in _FETCH_IN_JS.finditer(path.read_text(encoding="utf-8")))


def holding(site: Path, marks: list[bytes]) -> list[str]:
    """Files, also inside archives, whose bytes hold one of the marks."""
    return [name for name, data in every_content(site) if any(mark in data for mark in marks)]


def every_content(site: Path) -> Iterator[tuple[str, bytes]]:
    """Every file of the site; packed files and archives also taken apart."""
    for path in sorted(p for p in site.rglob("*") if p.is_file()):
        name, data = path.relative_to(site).as_posix(), path.read_bytes()
        yield name, data
        if data[:2] == b"\x1f\x8b":
            data = gzip.decompress(data)
            yield f"{name} unpacked", data
        if data[:4] == b"PK\x03\x04":
            for inner, content in zip_members(data).items():
                yield f"{name} › {inner}", content
