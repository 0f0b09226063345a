"""The application's folder: engine, catalogue, scripts and styles under a build id, and the service worker's lists."""

from __future__ import annotations

import json
import tempfile
from dataclasses import dataclass
from pathlib import Path

from engine.catalogue.published import catalogue_json
from engine.catalogue.workshop import Catalogue
from engine.sheets.templates import compile_templates
from site_build.bundle.archives import packed
from site_build.bundle.assemble import assemble, folder_hash
from site_build.bundle.engine_files import engine_files
from site_build.bundle.fetch import fetch
from site_build.paths import BROWSER, PROJECT
from site_build.progress import Progress

_AS_THEY_ARE = (
    "worker.js",
    "engine_worker.js",
    "page.js",
    "ahead.js",
    "kept_build.js",
    "pressed.js",
    "refused.js",
    "placing.js",
    "steadily.js",
    "plan.js",
    "sending.js",
    "status_line.js",
    "offline.js",
    "watch.js",
)
_STYLES = ("sheet.css", "status.css")
PATIENCE_MS = 60_000
"""How long the start may be silent before it is called a failure; every arriving byte starts it anew."""


@dataclass(frozen=True)
class Application:
    """What the configurator needs, as files below the site's folder `app/`."""

    files: dict[str, bytes]
    """Path below the site's root, to content."""
    build: str
    """Build id: changes when anything in the files does."""

    @property
    def folder(self) -> str:
        """Where page.js and its neighbours are, from the site's root."""
        return f"app/{self.build}"


def application(catalogue: Catalogue, progress: Progress) -> Application:
    """Fetch, trim, compile and pack everything that the browser needs for one shop."""
    fetched = fetch(progress)
    modules, outside = engine_files(PROJECT)
    progress("Translating the templates")
    # Templates travel as Python alone.
    modules = {name: data for name, data in modules.items() if not name.endswith(".jinja")} | _templates()
    parts = assemble(fetched, modules, outside, progress)
    python_folder = f"python-{folder_hash(parts.python)}"
    own = {name: (BROWSER / name).read_bytes() for name in (*_AS_THEY_ARE, *_STYLES)}
    own["morphdom.js"] = _morphdom(fetched.npm / "morphdom")
    own["engine.zip.pack"] = packed(parts.engine)
    own["catalogue.json.pack"] = packed(catalogue_json(catalogue).encode())
    packs = [data for name, data in (*parts.python.items(), *own.items()) if name.endswith(".pack")]
    manifest = {
        "python": f"../{python_folder}/",
        "bytes": sum(map(len, packs)),
        "patience_ms": PATIENCE_MS,
        "versions": parts.versions,
        # Pyodide wants a list of packages it could load; ours come from our own archives, so the list is empty.
        "lock": json.dumps({"info": _lock_info(fetched.npm), "packages": {}}),
    }
    own["manifest.js"] = f"export const manifest = {json.dumps(manifest, indent=1)};\n".encode()
    build = folder_hash(own)
    files = {f"app/{python_folder}/{name}": data for name, data in parts.python.items()}
    files |= {f"app/{build}/{name}": data for name, data in own.items()}
    return Application(files, build)


def _morphdom(package: Path) -> bytes:
    """The morphing library as a module. Its classic script leaves its one function on the global object."""
    licence = (package / "LICENSE").read_text(encoding="utf-8").strip()
    script = (package / "dist" / "morphdom-umd.min.js").read_text(encoding="utf-8").strip()
    return f"/*!\n{licence}\n*/\n{script}\nexport default self.morphdom;\n".encode()


def service_worker(version: str, kept: list[str]) -> str:
    """The service worker's script with the site's version and the paths it keeps."""
    text = (BROWSER / "sw.js").read_text(encoding="utf-8")
    return text.replace("@VERSION@", version).replace("@KEPT@", json.dumps(kept, indent=1))


def _templates() -> dict[str, bytes]:
    """The sheets' templates as Python modules, so that the browser never compiles one."""
    with tempfile.TemporaryDirectory() as name:
        target = Path(name) / "compiled"
        compile_templates(target)
        return {f"engine/sheets/compiled/{path.name}": path.read_bytes() for path in sorted(target.glob("*.py"))}


def _lock_info(npm: Path) -> dict[str, str]:
    lock = json.loads((npm / "pyodide" / "pyodide-lock.json").read_text(encoding="utf-8"))
    info: dict[str, str] = lock["info"]
    return info
