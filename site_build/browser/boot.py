"""First Python that runs in the worker: finds the binary half of pydantic, opens the shop, answers from then on.

The packages are imported straight from their archives; only the one binary module has to lie in the file system,
because that is where the dynamic loader reads it.
"""

import importlib.util
import sys

BINARY = {"pydantic_core._pydantic_core": "/lib/pydantic_core.so"}


class BinaryFinder:
    """Finds binary modules of packages that live in a zip."""

    @staticmethod
    def find_spec(name, path=None, target=None):
        place = BINARY.get(name)
        return importlib.util.spec_from_file_location(name, place) if place else None


sys.meta_path.insert(0, BinaryFinder)


def open_shop(catalogue_json: str) -> str:
    from engine import desk

    return desk.open_shop(catalogue_json)


def answer(request_json: str) -> str:
    from engine import desk

    return desk.answer(request_json)
