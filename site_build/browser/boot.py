"""First Python that runs in the worker: finds the binary half of pydantic, opens the shop, answers from then on.

The packages are imported straight from their archives; only the one binary module has to lie in the file system,
because that is where the dynamic loader reads it.
"""

import gc
import importlib.util
import sys
from importlib.machinery import ModuleSpec

BINARY = {"pydantic_core._pydantic_core": "/lib/pydantic_core.so"}


class BinaryFinder:
    """Finds binary modules of packages that live in a zip."""

    @staticmethod
    def find_spec(name: str, _path: object = None, _target: object = None) -> ModuleSpec | None:
        """Where a binary module of ours lies."""
        place = BINARY.get(name)
        return importlib.util.spec_from_file_location(name, place) if place else None


sys.meta_path.insert(0, BinaryFinder)

# What is made up to the first answer stays: modules, models, the catalogue, templates. The collector need not walk it.
gc.disable()


def open_shop(catalogue_json: str) -> str:
    """The engine's own door of the same name, imported only now so that progress can be told before."""
    from engine import desk

    return desk.open_shop(catalogue_json)


def answer(request_json: str) -> str:
    """The engine's own door of the same name."""
    from engine import desk

    reply = desk.answer(request_json)
    if not gc.isenabled():
        gc.freeze()
        gc.enable()
    return reply
