"""Lines of keys in a TOML text. tomllib reads values but keeps no places; tree-sitter keeps the places."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tree_sitter import Node, Parser

Path = tuple[str | int, ...]
"""Keys and list indexes from the top of the file, as ("option", 2, "facets", 0, "capacity")."""


class Positions:
    """Where every key of one TOML text stands."""

    def __init__(self, text: str) -> None:
        self._lines: dict[Path, int] = {}
        self._counts: dict[Path, int] = {}
        self._walk(_parser().parse(text.encode()).root_node, ())

    def line(self, path: Path) -> int:
        """The line of a key, or of the nearest table round it when the key is not in the file."""
        while path and path not in self._lines:
            path = path[:-1]
        return self._lines.get(path, 1)

    def _walk(self, node: Node, base: Path) -> None:
        for child in node.named_children:
            if child.type == "pair":
                self._pair(child, base)
            elif child.type == "table":
                self._walk(child, self._resolve(_key(child.named_children[0]), child))
            elif child.type == "table_array_element":
                keys = _key(child.named_children[0])
                listed = (*self._resolve(keys[:-1], child), keys[-1])
                self._counts[listed] = self._counts.get(listed, 0) + 1
                self._lines.setdefault(listed, _line(child))
                here = (*listed, self._counts[listed] - 1)
                self._lines[here] = _line(child)
                self._walk(child, here)

    def _resolve(self, keys: list[str], node: Node) -> Path:
        """The path of a table header: inside a list of tables, the last one so far is meant."""
        path: Path = ()
        for key in keys:
            path = (*path, key)
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
            self._lines.setdefault(path, _line(node))
        return path

    def _pair(self, node: Node, base: Path) -> None:
        named = [n for n in node.named_children if n.type != "comment"]
        path = base
        for key in _key(named[0]):
            path = (*path, key)
            self._lines.setdefault(path, _line(node))
        self._value(named[-1], path)

    def _value(self, node: Node, path: Path) -> None:
        if node.type == "inline_table":
            self._walk(node, path)
        elif node.type == "array":
            for index, item in enumerate(n for n in node.named_children if n.type != "comment"):
                self._lines[(*path, index)] = _line(item)
                self._value(item, (*path, index))


def _line(node: Node) -> int:
    return node.start_point.row + 1


def _key(node: Node) -> list[str]:
    """The parts of a key as tomllib names them."""
    text = (node.text or b"").decode()
    if node.type == "bare_key":
        return [text]
    if node.type == "quoted_key":
        return list(tomllib.loads(f"{text} = 0"))
    return [part for child in node.named_children for part in _key(child)]


@lru_cache(maxsize=1)
def _parser() -> Parser:
    import tree_sitter
    import tree_sitter_toml

    return tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language()))
