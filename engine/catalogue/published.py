"""The published catalogue as JSON in SI: written when the site is built, read by the engine wherever it runs.

This file is on the browser's path: nothing but pydantic and the standard library.
"""

import json

from engine.catalogue.section import Option, Section
from engine.catalogue.workshop import Catalogue, ReadyBuild


def catalogue_json(catalogue: Catalogue) -> str:
    """One line of JSON with sorted keys: the same catalogue always gives the same bytes. Money stands as text.

    Values the author left to their defaults are left out, so that a reader still knows them from stated ones.
    Raises TypeError when anything other than the public classes stands in it.
    """
    for section in catalogue.sections:
        if type(section) is not Section or any(type(o) is not Option for o in section.options):
            raise TypeError(f"section {section.id} is not the public view; publish Shop.public(...)")
    if any(type(r) is not ReadyBuild for r in catalogue.ready):
        raise TypeError("a ready build is not the public view; publish Shop.public(...)")
    stated = catalogue.model_dump(mode="json", by_alias=False, exclude_unset=True)
    return json.dumps(stated, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


def read_catalogue_json(text: str) -> Catalogue:
    """The catalogue in a published JSON text. Raises pydantic.ValidationError when it is none."""
    return Catalogue.model_validate_json(text, by_name=True, by_alias=False)
