"""A check as tables in the terminal."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from engine.document import FIGURES, figures_document
from engine.rule import Verdict
from engine.sheets.view import Scene
from engine.units import money, show

STYLE: dict[Verdict, tuple[str, str]] = {
    "fails": ("✗ fails", "bold red"),
    "unknown": ("? not known", "bold magenta"),
    "tight": ("! tight", "yellow"),
    "note": ("· note", "cyan"),
    "ok": ("✓ ok", "green"),
}


WITHOUT_VALUE = {"off_grid_d": "no end", "held_degc": "no heater"}
"""What a figure without a number means; for all others that the thing is not aboard."""


def print_check(scene: Scene, every: bool) -> None:
    """Print the figures, then the findings, the serious ones first; those that are fine only when asked for."""
    console = Console()
    shop = scene.catalogue.workshop
    figures = Table(title=f"{shop.name}: {scene.build.vehicle.name}", title_justify="left", show_header=False)
    figures.add_column(justify="left")
    figures.add_column(justify="right")
    for key, figure in figures_document(scene.figures).items():
        unit, meaning = FIGURES[key]
        value = figure["value"]
        if value is None:
            text = WITHOUT_VALUE.get(key, "none")
        elif unit == "money":
            text = money(scene.figures.money.total, shop.currency)
        else:
            text = show(value, unit, shop.units)
        figures.add_row(meaning.split(";")[0], text)
    console.print(figures)
    findings = Table(title="Findings", title_justify="left", show_lines=False, expand=True)
    findings.add_column("verdict", no_wrap=True)
    findings.add_column("rule", no_wrap=True)
    findings.add_column("what we found, and what helps", ratio=1)
    order = list(STYLE)
    shown = [f for f in scene.findings if every or f.verdict != "ok"]
    for f in sorted(shown, key=lambda f: order.index(f.verdict)):
        word, style = STYLE[f.verdict]
        says = Text(f.cause)
        if f.remedy:
            says.append(" " + f.remedy, style="italic")
        findings.add_row(Text(word, style=style), f.rule, says)
    if shown:
        console.print(findings)
    counts = {v: sum(f.verdict == v for f in scene.findings) for v in order}
    console.print(", ".join(f"{n} {STYLE[v][0][2:]}" for v, n in counts.items() if n))
    console.print(
        "Ratings, gas, mains and battery wiring are law and danger: check with your authority and licensed people."
    )
