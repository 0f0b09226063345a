"""JSON Schema for each kind of shop file, so that an editor completes and checks while the author writes."""

from __future__ import annotations

from typing import Any

from engine.catalogue.reading import KINDS
from engine.catalogue.unit_words import KINDS as QUANTITY_KINDS
from engine.catalogue.wording import in_unit

FILE_NAMES = {"workshop": "workshop", "vehicle": "vehicle", "section": "section", "ready build": "ready"}

_A_NUMBER_AND_A_UNIT = r"^\s*[-+−]?\.?[0-9].*[A-Za-z%°²³)]\s*$"


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
    """The schema as TOML needs it: no null, money as a number, quantities as text with a unit."""
    if isinstance(node, list):
        return [_for_authors(item) for item in node]
    if not isinstance(node, dict):
        return node
    made = {key: _for_authors(value) for key, value in node.items()}
    if "anyOf" in made:
        made = _one_choice(made)
    if "x-unit" in made:
        made = _quantity(made)
    if "patternProperties" in made:
        made.setdefault("additionalProperties", False)  # a key of another form is a mistake
    if isinstance(made.get("properties"), dict):
        for value in made["properties"].values():
            value.pop("title", None)
    return made


def _one_choice(node: dict[str, Any]) -> dict[str, Any]:
    """Without "null", which TOML lacks, and without the text form of money, which only JSON uses."""
    choices = [c for c in node["anyOf"] if c.get("type") != "null"]
    if any(c.get("type") == "number" for c in choices):
        choices = [c for c in choices if c.get("type") == "number"]
    rest = {k: v for k, v in node.items() if k != "anyOf" and not (k == "default" and v is None)}
    return {**choices[0], **rest} if len(choices) == 1 else {**rest, "anyOf": choices}


def _quantity(node: dict[str, Any]) -> dict[str, Any]:
    """A quantity says what it measures and which units it may have; its default is text as an author writes it."""
    unit, example = node["x-unit"], node["examples"][0]
    kind, choices = QUANTITY_KINDS[unit]
    told = f"{node['description']}; " if "description" in node and "with its unit" not in node["description"] else ""
    made = {k: v for k, v in node.items() if k not in {"title", "minimum", "maximum", "gt", "ge", "lt", "le"}}
    made["pattern"] = _A_NUMBER_AND_A_UNIT
    if "with its unit" not in node.get("description", ""):
        made["description"] = f'{told}{kind} with its unit ({choices}), as "{example}"'
    if isinstance(made.get("default"), (int, float, str)):  # money's default is text in a schema
        made["default"] = in_unit(made["default"], unit)
    elif "default" in made and made["default"] is None:
        del made["default"]
    return made
