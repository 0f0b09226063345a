"""The finished site, read from end to end: complete, self-contained, and with nothing private in it."""

import json
import re
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

import site_build.command
from engine.rule import in_region
from engine.rules import all_rules
from site_build.audit import every_content, holding, loaded_from_elsewhere, missing_targets
from site_build.command import build, serve
from site_build.headers import TYPES, inline_hashes, policy
from site_build.progress import SiteProblem, silent
from site_build.replace import MARK
from tests.shops import DEMO, catalogue
from tests.site_build.conftest import COST, SUPPLIER

SHOPS = ("quillback", "hallamoor")


@pytest.mark.parametrize("shop", SHOPS)
def test_no_byte_of_the_site_tells_what_is_private(shop: str, built: Callable[[str], Path]) -> None:
    site = built(shop)
    cost = f"{COST:.2f}".encode()
    assert holding(site, [SUPPLIER.encode(), cost, b"731357", b"731,357"]) == []
    # The guide for workshops names the private keys; nothing that the application carries does.
    assert not [name for name in holding(site, [b"cost_price", b'"supplier"']) if name.startswith("app/")]
    names = [name for name, _ in every_content(site)]
    # The search looked inside: at the catalogue, the wheel's members and the pages.
    assert any("catalogue.json.pack unpacked" in name for name in names)
    assert any(name.endswith("engine/desk.pyc") for name in names)
    assert not [name for name in names if "engine/demo" in name or "engine/cli" in name]


def test_the_search_for_private_marks_finds_them(built: Callable[[str], Path], tmp_path: Path) -> None:
    """The same search does find words that are in the site: in a page, in the catalogue and inside the wheel."""
    site = built("quillback")
    assert any(name.endswith(".html") for name in holding(site, [b"Quillback Coachworks"]))
    assert any("catalogue.json.pack" in name for name in holding(site, [b'"Quillback Coachworks"']))
    assert any("›" in name for name in holding(site, [b"gross-mass"]))


@pytest.mark.parametrize("shop", SHOPS)
def test_every_rule_option_vehicle_and_ready_build_has_its_page(shop: str, built: Callable[[str], Path]) -> None:
    site = built(shop)
    shown = catalogue(shop)
    region = shown.workshop.region
    for rule in (r for r in all_rules() if in_region(r.regions, region)):
        page = (site / "handbook" / rule.code / "index.html").read_text(encoding="utf-8")
        assert page.count("Given:") >= 1 or not rule.examples()[0].inputs
        for source in rule.sources_in(region):
            assert source.title.split(",")[0].split("(")[0].strip()[:20] in page.replace("&amp;", "&")
    for section in shown.sections:
        page = (site / "catalogue" / section.id / "index.html").read_text(encoding="utf-8")
        for option in section.options:
            assert f'id="{option.id}"' in page
    for ready in shown.ready:
        page = (site / "ready" / ready.id / "index.html").read_text(encoding="utf-8")
        assert "configurator/#1" in page


@pytest.mark.parametrize("shop", SHOPS)
def test_nothing_is_loaded_from_elsewhere_and_nothing_is_missing(shop: str, built: Callable[[str], Path]) -> None:
    assert loaded_from_elsewhere(built(shop)) == []
    assert missing_targets(built(shop)) == []


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.html", '<script src="https://cdn.example/x.js"></script>'),
        ("b.html", '<link rel="stylesheet" href="//fonts.example/css?family=X">'),
        ("c.html", '<link rel="preconnect" href="https://fonts.example">'),
        ("d.html", '<img srcset="x.png 1x, http://img.example/y.png 2x">'),
        ("e.html", '<p style="background: url(https://img.example/z.png)">x</p>'),
        ("f.html", "<style>@import 'https://css.example/a.css';</style>"),
        ("g.css", "a { background: url('https://img.example/z.png') }"),
        ("h.js", 'import("https://cdn.example/m.js")'),
        ("i.html", '<svg><use href="https://img.example/s.svg#a"></use></svg>'),
    ],
)
def test_the_audit_sees_what_would_be_fetched_from_elsewhere(name: str, content: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text(content)
    assert len(loaded_from_elsewhere(tmp_path)) == 1


def test_the_audit_lets_links_in_prose_be(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(
        '<a href="https://toml.example">TOML</a> <link rel="canonical" href="https://x.example/">'
    )
    assert loaded_from_elsewhere(tmp_path) == []


def test_the_policy_names_every_inline_script_and_allows_no_other(built: Callable[[str], Path]) -> None:
    site = built("quillback")
    hashes = inline_hashes(site)
    rule = policy(hashes)
    assert hashes and all(h in rule for h in hashes)
    assert "'unsafe-eval'" not in rule and "unsafe-inline" not in rule.split("style-src")[0]
    assert "http" not in rule
    for recipe in ("_headers", "hosts/nginx.conf.txt", "hosts/apache.htaccess.txt"):
        assert rule in (site / recipe).read_text(encoding="utf-8")


def test_each_recipe_tells_the_type_of_every_file(built: Callable[[str], Path]) -> None:
    site = built("quillback")
    endings = {p.suffix for p in site.rglob("*") if p.is_file() and p.suffix and not p.name.startswith((".", "_"))}
    assert {".html", ".js", ".pack", ".svg"} <= endings <= set(TYPES)
    nginx = (site / "hosts" / "nginx.conf.txt").read_text(encoding="utf-8")
    apache = (site / "hosts" / "apache.htaccess.txt").read_text(encoding="utf-8")
    for ending, kind in TYPES.items():
        kind = re.escape(kind.partition(";")[0])
        assert re.search(rf"^    {kind} [^;]*\b{ending[1:]}\b.*;$", nginx, re.MULTILINE), ending
        assert re.search(rf"^AddType {kind} .*{re.escape(ending)}\b", apache, re.MULTILINE), ending


def test_the_service_worker_keeps_every_page_and_every_part_of_the_application(built: Callable[[str], Path]) -> None:
    site = built("quillback")
    kept = json.loads(re.search(r"const KEPT = (\[.*?\]);", (site / "sw.js").read_text(), re.DOTALL)[1])  # type: ignore[index]
    assert all((site / path).is_file() for path in kept)
    pages = {p.relative_to(site).as_posix() for p in site.rglob("index.html")}
    parts = {p.relative_to(site).as_posix() for p in (site / "app").rglob("*") if p.is_file()}
    assert pages | parts <= set(kept)
    assert "sw.js" not in kept


def test_the_configurators_page_holds_the_engines_own_html(built: Callable[[str], Path]) -> None:
    page = (built("quillback") / "configurator" / "index.html").read_text(encoding="utf-8")
    for part in ('id="configurator"', 'id="bar"', 'id="draw-roof"', 'id="price"'):
        assert page.count(part) == 1
    assert "&lt;div" not in page


def test_equal_input_gives_an_equal_build_id_and_prices_leave_python_alone(
    built: Callable[[str], Path], tmp_path: Path
) -> None:
    first = built("quillback")
    build(first.parent / "shop", tmp_path / "again", silent)
    assert (tmp_path / "again" / MARK).read_text() == (first / MARK).read_text()
    workshop = first.parent / "shop" / "workshop.toml"
    before = workshop.read_text(encoding="utf-8")
    workshop.write_text(re.sub(r"labour_rate = \S+", "labour_rate = 77.00", before), encoding="utf-8")
    try:
        build(first.parent / "shop", tmp_path / "dearer", silent)
    finally:
        workshop.write_text(before, encoding="utf-8")
    assert (tmp_path / "dearer" / MARK).read_text() != (first / MARK).read_text()
    python = [sorted(p.name for p in (s / "app").glob("python-*")) for s in (first, tmp_path / "dearer")]
    assert python[0] == python[1] and len(python[0]) == 1


def test_a_folder_of_somebody_elses_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letters.txt").write_text("mine")
    with pytest.raises(SiteProblem, match="left alone"):
        build(DEMO / "quillback", tmp_path, silent)
    assert (tmp_path / "letters.txt").read_text() == "mine"


def test_what_cannot_be_served_or_written_is_told_before_the_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(site_build.command, "application", lambda *_: pytest.fail("worked before it told"))
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(SiteProblem, match=rf"Port {port} cannot be used .+ --port"):
            serve(DEMO / "hallamoor", tmp_path / "site", port)
    (tmp_path / "file").write_text("mine")
    with pytest.raises(OSError):
        build(DEMO / "hallamoor", tmp_path / "file" / "site", silent)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["file"]


def test_a_shop_that_cannot_be_read_leaves_the_old_site_as_it_was(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / MARK).write_text("earlier\n")
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "workshop.toml").write_text("name = ")
    with pytest.raises(SiteProblem, match=r"workshop\.toml"):
        build(tmp_path / "shop", out, silent)
    assert (out / MARK).read_text() == "earlier\n"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["shop", "site"]


def test_an_address_from_the_hosts_root_is_told(tmp_path: Path) -> None:
    (tmp_path / "assets").mkdir()
    (tmp_path / "assets" / "a.css").write_text("", encoding="utf-8")
    (tmp_path / "404.html").write_text('<link rel="stylesheet" href="/assets/a.css">', encoding="utf-8")
    (tmp_path / "index.html").write_text('<link rel="stylesheet" href="assets/a.css">', encoding="utf-8")
    assert missing_targets(tmp_path) == ["404.html loads /assets/a.css from the host's root, not from the site's"]


@pytest.mark.parametrize("shop", SHOPS)
def test_no_page_shows_an_escape_that_nothing_took_back(shop: str, built: Callable[[str], Path]) -> None:
    shown = 0
    for path in built(shop).rglob("*.html"):
        page = re.sub(r"<(script|style|code|pre)\b.*?</\1>|<[^>]*>", "", path.read_text(encoding="utf-8"), flags=re.S)
        shown += len(page)
        assert not re.search(r"\\[^\w\s]", page), path
    assert shown > 10_000
