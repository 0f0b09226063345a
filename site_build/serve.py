"""A small server for the finished site, with fixed MIME types, the site's own policy and an optional sub-path."""

from __future__ import annotations

import sys
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote, urlsplit

from site_build.headers import TYPES, cache_rule, inline_hashes, policy


class Handler(SimpleHTTPRequestHandler):
    """One request: a file below the prefix, with the headers that the published recipes also give."""

    protocol_version = "HTTP/1.1"

    def __init__(self, *args: Any, prefix: str, rule: str, **kwargs: Any) -> None:
        # Requests come with their odd characters encoded, and so does the prefix then.
        self._prefix = quote(prefix)
        self._rule = rule
        super().__init__(*args, **kwargs)

    def translate_path(self, path: str) -> str:
        return super().translate_path(path.removeprefix(self._prefix.rstrip("/")) or "/")

    def send_head(self) -> Any:
        path = urlsplit(self.path).path
        if not path.startswith(self._prefix):
            if path == self._prefix.rstrip("/") or path == "/":
                self.send_response(HTTPStatus.FOUND)
                self.send_header("Location", self._prefix)
                self.send_header("Content-Length", "0")
                self.end_headers()
            else:
                self.send_error(HTTPStatus.NOT_FOUND)
            return None
        if "\0" in unquote(path):
            self.send_error(HTTPStatus.NOT_FOUND)
            return None
        return super().send_head()

    def list_directory(self, path: Any) -> None:
        # Hosts show no lists of files, so neither does this server.
        self.send_error(HTTPStatus.NOT_FOUND)

    def guess_type(self, path: Any) -> str:
        # Never the registry of the machine: on Windows it may call scripts text/plain.
        return TYPES.get(Path(path).suffix.lower(), "application/octet-stream")

    def end_headers(self) -> None:
        path = urlsplit(self.path).path.removeprefix(self._prefix).lstrip("/")
        self.send_header("Cache-Control", cache_rule(path))
        self.send_header("Content-Security-Policy", self._rule)
        self.send_header("X-Content-Type-Options", "nosniff")
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing: a line for each of the many files would hide the address."""


class SiteServer(ThreadingHTTPServer):
    """Serves one folder. `prefix` is the path below which the site lives, with a slash at both ends."""

    daemon_threads = True

    def __init__(self, site: Path, port: int = 0, host: str = "127.0.0.1", prefix: str = "/") -> None:
        rule = policy(inline_hashes(site))
        super().__init__((host, port), partial(Handler, directory=str(site), prefix=prefix, rule=rule))
        self.address = f"http://{host}:{self.server_address[1]}{quote(prefix)}"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say what went wrong, unless the browser only went away in the middle of a file, as it may."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)
