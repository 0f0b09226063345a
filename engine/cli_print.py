"""A check as tables in the terminal."""

from rich.table import Table
from rich.text import Text

from engine.cli_out import console
from engine.document import FIGURES
from engine.rule import Finding, Verdict
from engine.sheets.bar import whole
from engine.sheets.figure_text import figure_texts
from engine.sheets.view import Scene
from engine.spelling import spelled

STYLE: dict[Verdict, tuple[str, str]] = {
    "fails": ("✗ fails", "bold red"),
    "unknown": ("? not known", "bold magenta"),
    "tight": ("! tight", "yellow"),
    "note": ("· note", "cyan"),
    "ok": ("✓ ok", "green"),
}

NARROW = 70
"""Columns below which sentences beside the names of rules would be columns of syllables; they then stand below them."""


def print_check(scene: Scene, every: bool) -> None:
    """Print the figures, then the findings, the serious ones first; those that are fine only when asked for."""
    paper = console()
    shop = scene.catalogue.workshop
    figures = Table(title=f"{shop.name}: {scene.build.vehicle.name}", title_justify="left", show_header=False)
    figures.add_column(justify="left")
    figures.add_column(justify="right")
    for key, text in figure_texts(scene).items():
        figures.add_row(spelled(FIGURES[key][1].split(";")[0], shop.units), text)
    paper.print(figures)
    order = list(STYLE)
    shown = sorted((f for f in scene.findings if every or f.verdict != "ok"), key=lambda f: order.index(f.verdict))
    if paper.width < NARROW:
        for f in shown:
            word, style = STYLE[f.verdict]
            paper.print(Text.assemble((word, style), "  ", f.rule, "\n", _says(f)))
    elif shown:
        findings = Table(title="Findings", title_justify="left", show_lines=False, expand=True)
        findings.add_column("verdict", no_wrap=True)
        findings.add_column("rule", no_wrap=True)
        findings.add_column("what we found, and what helps", ratio=1)
        for f in shown:
            word, style = STYLE[f.verdict]
            findings.add_row(Text(word, style=style), f.rule, _says(f))
        paper.print(findings)
    paper.print(whole(scene.findings, ()).sentence)
    paper.print(
        "Ratings, gas, mains and battery wiring are law and danger: check with your authority and licensed people."
    )


def _says(finding: Finding) -> Text:
    says = Text(finding.cause)
    if finding.remedy:
        says.append(" " + finding.remedy, style="italic")
    return says
