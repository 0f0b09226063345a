"""What `loadstead site build` and `loadstead site serve` do."""

from __future__ import annotations

import os
import socket
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from engine.build import Resolver
from engine.build.mass_readings import published
from engine.catalogue.problems import ShopProblems
from engine.catalogue.reading import read_shop
from engine.catalogue.workshop import Catalogue
from engine.enquiry.climate import load_places
from site_build.application import application, service_worker
from site_build.audit import loaded_from_elsewhere, missing_targets
from site_build.bundle.assemble import folder_hash
from site_build.headers import write_headers
from site_build.prepare import prepare, run_mkdocs
from site_build.progress import Progress, SiteProblem
from site_build.replace import mark, may_replace, replace
from site_build.serve import SiteServer

__all__ = ["SiteProblem", "build", "serve"]

_NOT_KEPT = (".map", ".gz", ".xml", ".conf.txt", ".htaccess.txt", "_headers")
"""Endings of files that a reader without network never needs."""


def build(shop_dir: Path, out_dir: Path, progress: Progress | None = None) -> None:
    """Build the site of a shop into a folder; what was there before is replaced once the new one is complete.

    Without `progress` the steps are shown at the terminal. Raises `SiteProblem`; the old site then stays as it was.
    """
    may_replace(out_dir)
    out_dir = Path(os.path.realpath(out_dir))  # a link to a folder stays one
    with _shown(progress) as say:
        say("Reading the shop")
        places = load_places()
        catalogue = _catalogue(shop_dir, tuple(places))
        resolver = Resolver(catalogue, places)
        out_dir.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".site-", dir=out_dir.parent) as name:
            app = application(catalogue, say)
            work, site = Path(name) / "work", Path(name) / "site"
            work.mkdir()
            prepare(catalogue, resolver, app.folder, work, say)
            run_mkdocs(work, site, say)
            say("Adding the application")
            for path, data in app.files.items():
                target = site / path
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(data)
            _finish(site)
            say("Reading the finished site once more")
            if troubles := [*loaded_from_elsewhere(site), *missing_targets(site)]:
                raise SiteProblem("The site is not fit to be published:\n" + "\n".join(troubles))
            replace(site, out_dir, Path(name))


def serve(shop_dir: Path, out_dir: Path, port: int = 8400, prefix: str = "/") -> None:
    """Build the site, then serve it on this machine until interrupted."""
    with _told_of(port):
        socket.create_server(("127.0.0.1", port)).close()  # nobody waits for a build that cannot be served
    build(shop_dir, out_dir)
    with _told_of(port):
        server = SiteServer(out_dir, port, prefix=prefix)
    print(f"The site is at {server.address} (stop with Ctrl-C)", flush=True)  # noqa: T201
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        pass
    finally:
        server.server_close()


@contextmanager
def _told_of(port: int) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise SiteProblem(f"Port {port} cannot be used ({error.strerror}). Name another with --port.") from None


def _catalogue(shop_dir: Path, places: tuple[str, ...]) -> Catalogue:
    try:
        return published(read_shop(shop_dir, places), dated=date.today().isoformat())
    except ShopProblems as problems:
        raise SiteProblem(f"{problems}\n\nRun `loadstead shop check {shop_dir}` while putting this right.") from None


def _finish(site: Path) -> None:
    """What is made from the finished pages: the headers, the service worker and its list, the mark."""
    (site / ".nojekyll").write_text("", encoding="utf-8")
    write_headers(site)
    files = sorted(p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file())
    kept = [name for name in files if not name.endswith(_NOT_KEPT) and "/lunr/" not in name and name != ".nojekyll"]
    # A word changed on any page is a new version, for each version keeps its own files.
    version = folder_hash({name: (site / name).read_bytes() for name in kept})
    (site / "sw.js").write_text(service_worker(version, kept), encoding="utf-8")
    mark(site, version)


@contextmanager
def _shown(progress: Progress | None) -> Iterator[Progress]:
    """The caller's own progress, or a bar at the terminal."""
    if progress is not None:
        yield progress
        return
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description}"), BarColumn(pulse_style="cyan"), TimeElapsedColumn())
    with Bar(*columns) as bar:
        task = bar.add_task("Building the site", total=None)
        yield lambda step: bar.update(task, description=step)
