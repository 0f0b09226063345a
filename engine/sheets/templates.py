"""The one place where templates are loaded.

A site build may translate the templates to Python beforehand, into the package ``engine.sheets.compiled``; then the
browser needs no template compiler at work. Without that package the .jinja files beside this one are read.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

from jinja2 import BaseLoader, Environment, FileSystemLoader, ModuleLoader, StrictUndefined, Template
from markupsafe import Markup

FOLDER = Path(__file__).parent / "templates"


@cache
def environment() -> Environment:
    """The environment all templates share: everything is escaped unless a template made it."""
    loader: BaseLoader
    try:
        compiled = import_module("engine.sheets.compiled")
    except ModuleNotFoundError:
        loader = FileSystemLoader(FOLDER)
    else:
        loader = ModuleLoader(list(compiled.__path__))
    return make_environment(loader)


def make_environment(loader: BaseLoader) -> Environment:
    """An environment with this project's settings; compiled templates must come from the same settings."""
    return Environment(
        loader=loader,
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        cache_size=-1,
    )


def compile_templates(target: Path) -> None:
    """Translate every template to a Python module in ``target``, which becomes a package."""
    target.mkdir(parents=True, exist_ok=True)
    make_environment(FileSystemLoader(FOLDER)).compile_templates(
        target, extensions=["jinja"], zip=None, ignore_errors=False
    )
    (target / "__init__.py").write_text('"""Templates, translated to Python by the site build."""\n', encoding="utf-8")


@cache
def _template(name: str) -> Template:
    return environment().get_template(f"{name}.jinja")


def render(template: str, /, **values: Any) -> Markup:
    """One template filled in. The result counts as safe in other templates."""
    return Markup(_template(template).render(values).strip())


def joined(parts: Iterable[Markup]) -> Markup:
    """Finished pieces on a line each. They are Markup already, so there is nothing to escape."""
    return Markup("\n".join(parts))
