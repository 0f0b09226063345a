"""The folder that mkdocs turns into pages: hand-written pages, pages from rules and catalogue, and the navigation."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

from engine.build import Resolver
from engine.catalogue.workshop import Catalogue
from engine.rules import all_rules
from engine.units import day_words
from site_build.pages.catalogue import catalogue_pages, chapter_titles
from site_build.pages.configurator import configurator_page
from site_build.pages.markdown import title
from site_build.pages.prose import regional
from site_build.pages.ready import ready_pages
from site_build.pages.rules import handbook_nav, handbook_pages
from site_build.pages.start import start_page
from site_build.paths import HERE, PROJECT
from site_build.progress import Progress, SiteProblem

DOCS = PROJECT / "docs"
SETTINGS = PROJECT / "mkdocs.yml"


def prepare(catalogue: Catalogue, resolver: Resolver, app: str, folder: Path, progress: Progress) -> None:
    """Write `docs/` and `mkdocs.yml` into an empty folder."""
    shop = catalogue.workshop
    if not SETTINGS.is_file():
        raise SiteProblem(f"The site is built from a checkout of the project; {SETTINGS} is not there.")
    pages = folder / "docs"
    shutil.copytree(DOCS, pages)
    progress("Writing the pages")
    for path in pages.glob("*.md"):
        path.write_text(regional(path.read_text(encoding="utf-8"), shop.units), encoding="utf-8")
    written = start_page(catalogue)
    written |= configurator_page(catalogue, resolver, app)
    written |= ready_pages(catalogue, resolver)
    written |= catalogue_pages(catalogue)
    written |= handbook_pages(all_rules(), shop.units, shop.currency, shop.region)
    for name, content in written.items():
        path = pages / name
        if path.exists():
            raise SiteProblem(f"docs/{name} would be overwritten by a generated page; give it another name.")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")
    settings = {
        "INHERIT": os.path.relpath(SETTINGS, folder).replace(os.sep, "/"),
        "docs_dir": "docs",
        "theme": {"custom_dir": str(HERE / "theme")},
        **names(catalogue),
    }
    # JSON is YAML; no words from a shop file can mean anything else in it.
    (folder / "mkdocs.yml").write_text(json.dumps(settings, indent=1), encoding="utf-8")


def names(catalogue: Catalogue) -> dict[str, object]:
    """What the theme is told in the shop's own words: it writes them into pages and attributes as they are."""
    shop = catalogue.workshop
    return {
        "site_name": title(shop.name).replace('"', "&quot;"),
        "site_description": title(shop.tagline).replace('"', "&quot;"),
        "copyright": f"{title(shop.name)} · catalogue of {day_words(catalogue.dated, shop.units)}",
        "nav": _nav(catalogue),
    }


def _nav(catalogue: Catalogue) -> list[dict[str, object]]:
    ready: list[object] = [
        {"All finished vehicles": "ready/index.md"},
        *({title(r.name): f"ready/{r.id}.md"} for r in catalogue.ready),
    ]
    return [
        {"Start": "index.md"},
        {"Configurator": "configurator/index.md"},
        {"Finished vehicles": ready},
        {"Catalogue": [{title(name): path} for name, path in chapter_titles(catalogue)]},
        {
            "Handbook": [
                *handbook_nav(all_rules(), catalogue.workshop.units, catalogue.workshop.region),
                {"How it is worked out": "method.md"},
                {"Climate sources": "climate-sources.md"},
            ]
        },
        {"Safety": "safety.md"},
        {"For workshops": "for-workshops.md"},
    ]


def run_mkdocs(folder: Path, out: Path, progress: Progress) -> None:
    """Turn the prepared folder into pages. A link that leads nowhere stops the build."""
    progress("Turning the pages into HTML")
    command = (
        sys.executable,
        "-m",
        "mkdocs",
        "build",
        "--quiet",
        "--strict",
        "-f",
        str(folder / "mkdocs.yml"),
        "-d",
        str(out),
    )
    env = os.environ | {"NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"}
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=env)
    if done.returncode != 0:
        raise SiteProblem("mkdocs could not build the pages:\n" + (done.stderr + done.stdout)[-3000:])
