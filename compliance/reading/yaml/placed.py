"""Mappings and lists that remember where each of their parts stands in the file they were read from."""

from __future__ import annotations

from typing import Any

from compliance.problems import Place

Spot = tuple[int, int]
"""Line and column, both from 1."""

_PYDANTIC_KEY = "[key]"


class PlacedDict(dict[str, Any]):
    """A mapping with its file, its own place, and the places of its keys and values."""

    __slots__ = ("at", "file", "key_places", "value_places")

    def __init__(self, file: str, at: Spot) -> None:
        super().__init__()
        self.file = file
        self.at = at
        self.key_places: dict[str, Spot] = {}
        self.value_places: dict[str, Spot] = {}


class PlacedList(list[Any]):
    """A list with its file, its own place, and the places of its items."""

    __slots__ = ("at", "file", "item_places")

    def __init__(self, file: str, at: Spot) -> None:
        super().__init__()
        self.file = file
        self.at = at
        self.item_places: list[Spot] = []


def place_of(tree: PlacedDict | PlacedList, loc: tuple[str | int, ...], at_key: bool = False) -> Place:
    """The place of the value that `loc` leads to, or of its key where `at_key` is true.

    Walks as far as the tree goes: where the last elements name what is not there, the place is that of the
    mapping or list they are missing from. Elements in between that are not in the tree (the tags that
    pydantic puts into the path of a tagged union) are passed over. The `[key]` with which pydantic ends the
    path of a bad key asks for the key.
    """
    node: Any = tree
    file, value_at, key_at = tree.file, tree.at, tree.at
    for element in loc:
        if isinstance(node, PlacedDict) and element in node.value_places:
            value_at, key_at = node.value_places[str(element)], node.key_places[str(element)]
        elif isinstance(node, PlacedList) and isinstance(element, int) and 0 <= element < len(node.item_places):
            value_at = key_at = node.item_places[element]
        else:
            continue
        node = node[element]
        if isinstance(node, PlacedDict | PlacedList):
            file = node.file
    wants_key = at_key or (bool(loc) and loc[-1] == _PYDANTIC_KEY)
    return Place(file, *(key_at if wants_key else value_at))
