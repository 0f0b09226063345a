"""Policy and caching headers, as files for hosts that read them: `_headers`, an nginx and an Apache snippet.

The theme has a few inline scripts; the policy names their hashes, which only the finished pages can tell.
"""

from __future__ import annotations

import base64
import hashlib
import re
from pathlib import Path

_INLINE = re.compile(r"<script(?P<attributes>[^>]*)>(?P<code>.*?)</script>", re.DOTALL)
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".json": "application/json; charset=utf-8",
    ".map": "application/json; charset=utf-8",
    ".xml": "application/xml; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".wasm": "application/wasm",
    ".pack": "application/octet-stream",
    ".gz": "application/gzip",
    ".toml": "text/plain; charset=utf-8",
    ".ico": "image/x-icon",
}
"""Every type a site of ours has. Hosts and Windows' registry are not asked: some of them get these wrong."""


def inline_hashes(site: Path) -> list[str]:
    """Hashes, as a policy writes them, of all inline scripts of all pages."""
    found = set()
    for page in site.rglob("*.html"):
        for match in _INLINE.finditer(page.read_text(encoding="utf-8")):
            if "src=" in match["attributes"] or "application/json" in match["attributes"]:
                continue
            digest = hashlib.sha256(match["code"].encode()).digest()
            found.add(f"'sha256-{base64.b64encode(digest).decode()}'")
    return sorted(found)


def policy(hashes: list[str]) -> str:
    """The content security policy: this site alone, WebAssembly allowed, no evaluation of text as code."""
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src 'self' 'wasm-unsafe-eval' {' '.join(hashes)}".rstrip(),
            "worker-src 'self'",
            "connect-src 'self'",
            # The theme draws its icons from data: addresses and places a few elements with style attributes.
            "style-src 'self' 'unsafe-inline'",
            "img-src 'self' data:",
            "font-src 'self'",
            "manifest-src 'self'",
            "base-uri 'self'",
            "form-action 'self'",
            "frame-ancestors 'self'",
        )
    )


_FOR_GOOD = "public, max-age=31536000, immutable"


def cache_rule(path: str) -> str:
    """How long a path may be kept: files under a build id for good, all else is asked for each time."""
    return _FOR_GOOD if path.startswith("app/") else "no-cache"


def write_headers(site: Path) -> str:
    """Write the three host recipes into the site; returns the policy they hold."""
    rule = policy(inline_hashes(site))
    hosts = site / "hosts"
    hosts.mkdir(exist_ok=True)
    endings: dict[str, list[str]] = {}
    for ending, kind in TYPES.items():
        endings.setdefault(kind.split(";")[0], []).append(ending)
    nginx = "\n".join(f"    {kind} {' '.join(e[1:] for e in of)};" for kind, of in endings.items())
    apache = "\n".join(f"AddType {kind} {' '.join(of)}" for kind, of in endings.items())
    for path, recipe, types in (
        (site / "_headers", _NETLIFY, ""),
        (hosts / "nginx.conf.txt", _NGINX, nginx),
        (hosts / "apache.htaccess.txt", _APACHE, apache),
    ):
        path.write_text(recipe.format(policy=rule, for_good=_FOR_GOOD, types=types), encoding="utf-8")
    return rule


_NETLIFY = """\
# Read by hosts that know a file of this name.
/*
  Content-Security-Policy: {policy}
  X-Content-Type-Options: nosniff
  Referrer-Policy: no-referrer
  Cache-Control: no-cache
/app/*
  ! Cache-Control
  Cache-Control: {for_good}
"""

_NGINX = """\
# For a server block of nginx; put the site's own path in place of / where it is served from a folder.
types {{
{types}
}}
location / {{
    add_header Content-Security-Policy "{policy}";
    add_header X-Content-Type-Options nosniff;
    add_header Referrer-Policy no-referrer;
    add_header Cache-Control no-cache;
}}
location /app/ {{
    add_header Content-Security-Policy "{policy}";
    add_header X-Content-Type-Options nosniff;
    add_header Referrer-Policy no-referrer;
    add_header Cache-Control "{for_good}";
}}
"""

_APACHE = """\
# Put this into the site's folder as .htaccess; mod_headers must be loaded.
{types}
<IfModule mod_headers.c>
    Header set Content-Security-Policy "{policy}"
    Header set X-Content-Type-Options nosniff
    Header set Referrer-Policy no-referrer
    Header set Cache-Control no-cache
    <If "%{{REQUEST_URI}} =~ m#/app/#">
        Header set Cache-Control "{for_good}"
    </If>
</IfModule>
"""
