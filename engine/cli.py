"""The terminal: check a build, print its sheet, keep a shop, build and serve the site."""

from __future__ import annotations

import gc
import json
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from engine.cli_out import Terminal, stop, write_whole
from engine.cli_shop import shop

if TYPE_CHECKING:
    from engine.catalogue.workshop import Catalogue
    from engine.enquiry import Enquiry
    from engine.sheets.view import Scene

DEMO = Path(__file__).parent / "demo"
DEFAULT_SHOP = DEMO / "quillback"

SHOP_OPTION = click.option(
    "--shop", "shop_dir", type=click.Path(path_type=Path), default=DEFAULT_SHOP, help="Shop folder; default: the demo."
)


@click.group(cls=Terminal, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="loadstead")
def main() -> None:
    """Check whether a camper somebody wishes for can be built."""


main.add_command(shop)


def load_catalogue(shop_dir: Path) -> Catalogue:
    """The public catalogue of a shop folder; leaves with status 2 and every problem when it cannot be read."""
    from engine.build.mass_readings import published
    from engine.catalogue.problems import ShopProblems
    from engine.catalogue.reading import read_shop
    from engine.cli_shop import climate_ids

    try:
        return published(read_shop(shop_dir, climate_ids()), dated=date.today().isoformat())
    except ShopProblems as problems:
        stop(*str(problems).splitlines(), f"Run `loadstead shop check {shop_dir}` for the whole list.")


def load_enquiry(path: Path) -> Enquiry:
    """A build file; leaves with status 2 and every problem when it cannot be read."""
    from engine.enquiry.door import MOST_BYTES, EnquiryProblems, read_enquiry

    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except OSError as error:
        stop(f"{path}: cannot be read ({error.strerror}).")
    try:
        # Of a file that is too large a part was read, which may end within a character.
        return read_enquiry(raw.decode("utf-8", "strict" if len(raw) <= MOST_BYTES else "replace"))
    except UnicodeDecodeError as error:
        stop(f"{path}: byte {error.start} is not UTF-8 text. Save the file as UTF-8.")
    except EnquiryProblems as problems:
        stop(*(f"{path}: {problem}" for problem in problems.problems))


def load_scene(build_file: Path, shop_dir: Path) -> Scene:
    """Everything about a build file against a shop."""
    from engine.build import Resolver, UnknownChoiceError
    from engine.desk import set_scene
    from engine.enquiry.climate import load_places
    from engine.enquiry.door import EnquiryProblems, check_workshop

    enquiry = load_enquiry(build_file)
    try:
        catalogue = load_catalogue(shop_dir)
        check_workshop(enquiry, catalogue.workshop.id)
        resolver = Resolver(catalogue, load_places())
        # A catalogue stays to the end, and a check leaves next to nothing to the collector.
        gc.freeze()
        gc.disable()
        return set_scene(resolver, enquiry)
    except EnquiryProblems as problems:
        stop(*(f"{build_file}: {problem} Name its folder with --shop." for problem in problems.problems))
    except UnknownChoiceError as error:
        stop(f"{build_file}: {error}")
    finally:
        gc.enable()


@main.command()
@click.argument("build_file", type=click.Path(path_type=Path))
@SHOP_OPTION
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document instead of tables.")
@click.option("--all", "every", is_flag=True, help="List what is fine too.")
def check(build_file: Path, shop_dir: Path, as_json: bool, every: bool) -> None:
    """Check BUILD_FILE against a shop's catalogue.

    Exit status 0 when nothing fails, 1 when a finding fails, 2 when the input cannot be used.
    """
    from engine.document import check_document

    scene = load_scene(build_file, shop_dir)
    if as_json:
        # Plain ASCII, so that it is JSON in every terminal's encoding.
        click.echo(json.dumps(check_document(scene.figures, scene.findings), indent=2))
    else:
        from engine.cli_print import print_check

        print_check(scene, every)
    sys.exit(1 if any(f.verdict == "fails" for f in scene.findings) else 0)


@main.command()
@click.argument("build_file", type=click.Path(path_type=Path))
@SHOP_OPTION
@click.option("-o", "out", type=click.Path(path_type=Path), required=True, help="HTML file to write.")
def sheet(build_file: Path, shop_dir: Path, out: Path) -> None:
    """Write BUILD_FILE's sheet as one HTML file that opens and prints anywhere."""
    from engine.sheets.page import report_html
    from site_build.paths import SHEET_CSS

    scene = load_scene(build_file, shop_dir)
    write_whole(out, report_html(scene, SHEET_CSS.read_text(encoding="utf-8")))
    click.echo(str(out))


@main.command()
@click.option("-o", "out", type=click.Path(path_type=Path), help="File to write; default: print.")
def schema(out: Path | None) -> None:
    """Print the JSON Schema of what `check --json` prints."""
    from engine.document import document_schema

    text = json.dumps(document_schema(), indent=2)
    if out is None:
        click.echo(text)
        return
    write_whole(out, text + "\n")


@main.group()
def site() -> None:
    """Build or serve the static site of a shop."""


OUT_OPTION = click.option(
    "-o", "out", type=click.Path(path_type=Path), default=Path("site"), help="Folder of the site; default: site."
)


@site.command()
@SHOP_OPTION
@OUT_OPTION
def build(shop_dir: Path, out: Path) -> None:
    """Build the static site of a shop into a folder that any web host can serve."""
    from site_build.command import SiteProblem
    from site_build.command import build as build_site

    try:
        build_site(shop_dir, out)
    except SiteProblem as problem:
        stop(str(problem))


@site.command()
@SHOP_OPTION
@OUT_OPTION
@click.option("--port", type=click.IntRange(0, 65535), default=8400, show_default=True)
def serve(shop_dir: Path, out: Path, port: int) -> None:
    """Build the site and serve it on this machine, with the right MIME types."""
    from site_build.command import SiteProblem
    from site_build.command import serve as serve_site

    try:
        serve_site(shop_dir, out, port)
    except SiteProblem as problem:
        stop(str(problem))


if __name__ == "__main__":
    main(prog_name="loadstead")
