"""A check as tables in the terminal."""

from rich.console import Console
from rich.table import Table
from rich.text import Text

from engine.document import FIGURES
from engine.rule import Verdict
from engine.sheets.bar import whole
from engine.sheets.figure_text import figure_texts
from engine.sheets.view import Scene

STYLE: dict[Verdict, tuple[str, str]] = {
    "fails": ("✗ fails", "bold red"),
    "unknown": ("? not known", "bold magenta"),
    "tight": ("! tight", "yellow"),
    "note": ("· note", "cyan"),
    "ok": ("✓ ok", "green"),
}


def print_check(scene: Scene, every: bool) -> None:
    """Print the figures, then the findings, the serious ones first; those that are fine only when asked for."""
    console = Console()
    shop = scene.catalogue.workshop
    figures = Table(title=f"{shop.name}: {scene.build.vehicle.name}", title_justify="left", show_header=False)
    figures.add_column(justify="left")
    figures.add_column(justify="right")
    for key, text in figure_texts(scene).items():
        figures.add_row(FIGURES[key][1].split(";")[0], text)
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
    console.print(whole(scene.findings, ()).sentence)
    console.print(
        "Ratings, gas, mains and battery wiring are law and danger: check with your authority and licensed people."
    )
