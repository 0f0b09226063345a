"""JSON Schema for each kind of shop file, so that an editor completes and checks while the author writes."""

from __future__ import annotations

from typing import Any

from engine.catalogue.explain import in_unit
from engine.catalogue.reading import KINDS
from engine.catalogue.unit_words import KINDS as QUANTITY_KINDS

FILE_NAMES = {"workshop": "workshop", "vehicle": "vehicle", "section": "section", "ready build": "ready"}


def file_schemas() -> dict[str, dict[str, Any]]:
    """Schema documents (JSON Schema 2020-12) by name: workshop, vehicle, section, ready."""
    documents = {}
    for kind, model in KINDS.items():
        document = _for_authors(model.model_json_schema(by_alias=True, mode="validation"))
        documents[FILE_NAMES[kind]] = {
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            **document,
            "title": f"Loadstead {kind} file",
        }
    return documents


def _for_authors(node: Any) -> Any:
    """Quantities say what they are and show an example; their default is text as the author would write it."""
    if isinstance(node, list):
        return [_for_authors(item) for item in node]
    if not isinstance(node, dict):
        return node
    made = {key: _for_authors(value) for key, value in node.items()}
    unit, examples = _unit_in(made)
    if unit:
        kind, choices = QUANTITY_KINDS[unit]
        told = made.get("description")
        made["description"] = (
            f"{told + '; ' if told else ''}{kind} with its unit ({choices}), as {examples[0]!r}".replace("'", '"')
        )
        made.pop("title", None)
        if isinstance(made.get("default"), (int, float)):
            made["default"] = in_unit(made["default"], unit)
    return made


def _unit_in(node: dict[str, Any]) -> tuple[str, list[str]]:
    """The unit of a quantity or of a quantity that may be absent; ("", []) for all else."""
    for part in (node, *(node.get("anyOf") or ())):
        if isinstance(part, dict) and "x-unit" in part:
            return part["x-unit"], part["examples"]
    return "", []
