"""Texts of a project that its papers could not print, named where they stand before a paper is asked for."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from compliance.files.printable_characters import first_unprintable
from compliance.problems import Place, Problem
from compliance.reading.plain_file import read_text
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import MOST_BYTES, parse_yaml


def unprintable_texts(tree: PlacedDict, folder: Path) -> Iterator[Problem]:
    """A warning for each text of the project that holds a character without a glyph in the papers' typeface."""
    for text, place in _texts(tree):
        if character := first_unprintable(text):
            yield _warning(character, Place((folder / place.file).as_posix(), place.line, place.column))


def unprintable_rules(files: Iterable[tuple[str, Path]], folder: Path) -> Iterator[Problem]:
    """The same for rule sets and amendments of the project folder."""
    for _, path in files:
        if not path.resolve().is_relative_to(folder.resolve()):
            continue
        shown = path.as_posix()
        text = read_text(path, shown, "yaml", MOST_BYTES)
        if not first_unprintable(text):
            continue
        tree = parse_yaml(text, shown)
        for text, place in _texts(tree):
            if character := first_unprintable(text):
                yield _warning(character, place)


def _warning(character: str, place: Place) -> Problem:
    name = unicodedata.name(character, "a character without a name").lower()
    shown = f"{character!r}" if character.isprintable() else "a character"
    wrong = f"{shown} (U+{ord(character):04X}, {name}) has no glyph in the typeface of the papers, which need it here"
    return Problem(place, "text-glyph", wrong, "write it in other words; a diameter as dia.", warning=True)


def _texts(node: Any) -> Iterator[tuple[str, Place]]:
    """Every text below a mapping or list, keys and values, with its place."""
    if isinstance(node, PlacedDict):
        for name, value in node.items():
            if name in node.key_places:
                yield str(name), Place(node.file, *node.key_places[name])
            if isinstance(value, str):
                yield value, Place(node.file, *node.value_places[name])
            else:
                yield from _texts(value)
    elif isinstance(node, PlacedList):
        for value, spot in zip(node, node.item_places, strict=False):
            if isinstance(value, str):
                yield value, Place(node.file, *spot)
            else:
                yield from _texts(value)
