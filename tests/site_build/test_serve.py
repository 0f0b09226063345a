"""The small server: types from its own table, policy and caching as in the recipes, nothing outside its prefix."""

import threading
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from urllib.error import HTTPError

import pytest

from site_build.serve import SiteServer


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    """A tiny site below /deep/er/."""
    (tmp_path / "app" / "b1").mkdir(parents=True)
    (tmp_path / "index.html").write_text("<script>1</script>")
    for name in ("a.js", "a.mjs", "a.wasm", "a.pack", "a.css", "a.strange"):
        (tmp_path / "app" / "b1" / name).write_bytes(b"x")
    (tmp_path.parent / "secret.txt").write_text("secret")
    server = SiteServer(tmp_path, prefix="/deep/er/")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield server.address
    server.shutdown()
    server.server_close()


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("app/b1/a.js", "text/javascript"),
        ("app/b1/a.mjs", "text/javascript"),
        ("app/b1/a.wasm", "application/wasm"),
        ("app/b1/a.pack", "application/octet-stream"),
        ("app/b1/a.css", "text/css"),
        ("app/b1/a.strange", "application/octet-stream"),
        ("", "text/html"),
    ],
)
def test_types_do_not_depend_on_the_machine(
    name: str, kind: str, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    import mimetypes

    monkeypatch.setattr(mimetypes, "guess_type", lambda *_a, **_k: ("text/plain", None))
    with urllib.request.urlopen(address + name) as reply:
        assert reply.headers.get_content_type() == kind
        assert reply.headers["X-Content-Type-Options"] == "nosniff"
        assert "wasm-unsafe-eval" in reply.headers["Content-Security-Policy"]
        assert ("immutable" in reply.headers["Cache-Control"]) == name.startswith("app/")


@pytest.mark.parametrize(
    "path", ["/index.html", "/deep/index.html", "/deep/er/../../../secret.txt", "/deep/er/..%2f..%2fsecret.txt"]
)
def test_nothing_outside_the_prefix_is_served(path: str, address: str) -> None:
    origin = address.removesuffix("/deep/er/")
    with pytest.raises(HTTPError) as caught:
        urllib.request.urlopen(origin + path)
    assert caught.value.code == 404


@pytest.mark.parametrize("path", ["nothing", "a%00b", "%00", "app/", "app"])
def test_what_no_host_would_give_is_not_there(path: str, address: str, capfd: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(HTTPError) as caught:
        urllib.request.urlopen(address + path)
    assert caught.value.code == 404
    assert "Traceback" not in capfd.readouterr().err


def test_the_root_leads_to_the_prefix(address: str) -> None:
    with urllib.request.urlopen(address.removesuffix("deep/er/")) as reply:
        assert reply.url == address


@pytest.mark.parametrize(("fault", "told"), [(ConnectionResetError, False), (BrokenPipeError, False), (OSError, True)])
def test_a_browser_that_goes_away_is_no_fault(
    fault: type[OSError], told: bool, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    server = SiteServer(tmp_path)
    try:
        raise fault("gone")
    except OSError:
        server.handle_error(None, ("127.0.0.1", 1))
    server.server_close()
    assert ("gone" in capsys.readouterr().err) == told
