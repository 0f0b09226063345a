"""The workshop's own commands: check a shop folder, write the schemas an editor completes from."""

from __future__ import annotations

import json
import sys
from collections.abc import Collection
from contextlib import AbstractContextManager, nullcontext
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from engine.cli_out import console, stop, write_whole

if TYPE_CHECKING:
    from engine.catalogue.problems import ShopProblems
    from engine.catalogue.shop import Shop
    from engine.catalogue.workshop import ReadyBuild
    from engine.rule import Finding


@click.group()
def shop() -> None:
    """Keep a workshop's folder of vehicles, sections and ready builds."""


@shop.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document instead.")
def check(folder: Path, as_json: bool) -> None:
    """Read a shop FOLDER and tell everything that needs putting right.

    Finished vehicles are checked too, each on its own trip. What fails there is told: its page says the same to
    buyers. Exit status 0 when the folder can be published, 2 when not.
    """
    from engine.catalogue.problems import ShopProblems
    from engine.catalogue.reading import read_shop

    try:
        read = read_shop(folder, climate_ids())
    except ShopProblems as problems:
        if as_json:
            click.echo(_json(False, {}, [asdict(p) | {"place": p.place} for p in problems.problems], []))
        else:
            _print_problems(folder, problems)
        sys.exit(2)
    # A machine that reads the document may pass for a terminal.
    waiting: AbstractContextManager[object] = (
        nullcontext() if as_json else console().status("Checking finished vehicles", spinner="line")
    )
    with waiting:
        finished = _finished(read)
    if as_json:
        ready: list[dict[str, object]] = [
            {"id": vehicle.id, "fails": [{"rule": f.rule, "cause": f.cause} for f in found if f.verdict == "fails"]}
            for vehicle, found in finished
        ]
        click.echo(_json(True, read.counts(), [], ready))
    else:
        _print_summary(read)
        _print_finished(finished)


@shop.command()
@click.option("-o", "out", type=click.Path(path_type=Path), required=True, help="Folder to write to; made if needed.")
def schema(out: Path) -> None:
    """Write JSON Schema for each kind of shop file, for editors that complete and check TOML."""
    from engine.catalogue.schema import file_schemas

    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        stop(f"{out}: cannot be written ({error.strerror}).")
    for name, document in file_schemas().items():
        path = out / f"{name}.schema.json"
        write_whole(path, json.dumps(document, indent=2, ensure_ascii=False) + "\n")
        click.echo(str(path))


def climate_ids() -> Collection[str]:
    """The places a trip can name."""
    from engine.enquiry.climate import load_places

    return tuple(load_places())


def _finished(read: Shop) -> list[tuple[ReadyBuild, tuple[Finding, ...]]]:
    """Finished vehicles with what the rules find in each, as its page has them."""
    from engine.build import Resolver
    from engine.build.mass_readings import published
    from engine.desk import ready_enquiry, set_scene
    from engine.enquiry.climate import load_places

    catalogue = published(read, dated=date.today().isoformat())
    resolver = Resolver(catalogue, load_places())
    return [(r, set_scene(resolver, ready_enquiry(catalogue, r)).findings) for r in catalogue.ready]


def _json(fine: bool, counts: dict[str, int], problems: list[dict[str, object]], ready: list[dict[str, object]]) -> str:
    return json.dumps({"fine": fine, "counts": counts, "problems": problems, "ready": ready}, indent=2)


def _print_problems(folder: Path, problems: ShopProblems) -> None:
    from rich.text import Text

    paper = console()
    for problem in problems.problems:
        first, *rest = str(problem).split("\n")
        paper.print(Text(first, style="bold"), soft_wrap=True)
        for line in rest:
            paper.print(Text(line), soft_wrap=True)
        paper.print()
    paper.print(Text(f"{_many(len(problems.problems), 'problem')} in {folder}."), soft_wrap=True)


def _print_summary(read: Shop) -> None:
    from rich.table import Table
    from rich.text import Text

    paper = console()
    paper.print(Text(f"{read.workshop.name}: nothing to put right in its files", style="bold"), soft_wrap=True)
    table = Table()
    table.add_column("section")
    table.add_column("options", justify="right")
    table.add_column("facets", justify="right")
    for section in read.sections:
        table.add_row(Text(section.title), str(len(section.options)), str(sum(len(o.facets) for o in section.options)))
    table.add_section()
    counts = read.counts()
    table.add_row(
        f"{counts['sections']} sections", str(counts["options"]), str(sum(read.facet_counts().values())), style="bold"
    )
    paper.print(table)
    paper.print(f"{_many(counts['vehicles'], 'vehicle')}, {_many(counts['ready builds'], 'ready build')}.")


def _print_finished(finished: list[tuple[ReadyBuild, tuple[Finding, ...]]]) -> None:
    from rich.text import Text

    from engine.sheets.bar import counted

    paper = console()
    for vehicle, found in finished:
        paper.print()
        paper.print(Text(vehicle.name, style="bold"), soft_wrap=True)
        paper.print(Text(f"{', '.join(counted(found, 'fails', 'unknown', 'tight', 'ok').values())}."))
        for f in found:
            if f.verdict == "fails":
                paper.print(Text.assemble("✗ ", (f.rule, "bold red"), ": ", f.cause))


def _many(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
