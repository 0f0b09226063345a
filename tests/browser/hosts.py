"""Hosts that fail in ways that real hosts do."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from site_build.headers import inline_hashes, policy
from site_build.serve import Handler, SiteServer


@dataclass(frozen=True)
class Reply:
    """What a host sends for one path."""

    status: int
    type: str
    body: bytes
    policy: str
    stalls: bool = False
    pauses_after: int = 0
    """Bytes after which the host takes its time."""


Fault = Callable[[str, Reply], Reply]


@dataclass
class Faults:
    """The faults of one host, applied one after the other."""

    of: list[Fault] = field(default_factory=list)
    paths: list[str] = field(default_factory=list)
    """Every path that was asked for."""


class _BadHandler(Handler):
    def __init__(self, *args: Any, faults: Faults, **kwargs: Any) -> None:
        self._faults = faults
        super().__init__(*args, **kwargs)

    def do_GET(self) -> None:
        path = urlsplit(self.path).path
        self._faults.paths.append(path)
        local = Path(self.translate_path(path))
        local = local / "index.html" if local.is_dir() else local
        found = local.is_file()
        reply = Reply(
            200 if found else 404,
            self.guess_type(local) if found else "text/html",
            local.read_bytes() if found else b"<!doctype html><title>Not here</title>",
            self._rule,
        )
        for fault in self._faults.of:
            reply = fault(path, reply)
        self.send_response(reply.status)
        self.send_header("Content-Type", reply.type)
        self.send_header("Content-Length", str(len(reply.body) + (1000 if reply.stalls else 0)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        if reply.policy:
            self.send_header("Content-Security-Policy", reply.policy)
        super(Handler, self).end_headers()
        if reply.pauses_after:
            self.wfile.write(reply.body[: reply.pauses_after])
            self.wfile.flush()
            time.sleep(2.5)
        self.wfile.write(reply.body[reply.pauses_after :])
        if reply.stalls:
            self.wfile.flush()
            time.sleep(20)


class BadHost(SiteServer):
    """A server of a site with faults; `fail` adds one."""

    def __init__(self, site: Path) -> None:
        self.faults = Faults()
        handler = partial(
            _BadHandler, directory=str(site), prefix="/", rule=policy(inline_hashes(site)), faults=self.faults
        )
        ThreadingHTTPServer.__init__(self, ("127.0.0.1", 0), handler)
        self.address = f"http://127.0.0.1:{self.server_address[1]}/"

    def fail(self, fault: Fault) -> None:
        """From now on replies are changed by this."""
        self.faults.of.append(fault)


def on(ending: str, **changes: Any) -> Fault:
    """Replies for paths with this ending are changed; a change may be a function of what it replaces."""

    def fault(path: str, reply: Reply) -> Reply:
        if not path.endswith(ending):
            return reply
        plain = {n: v(getattr(reply, n)) if callable(v) else v for n, v in changes.items()}
        return replace(reply, **plain)

    return fault


def flipped(body: bytes) -> bytes:
    """The same bytes with one bit of the middle one changed."""
    middle = len(body) // 2
    return body[:middle] + bytes([body[middle] ^ 1]) + body[middle + 1 :]
