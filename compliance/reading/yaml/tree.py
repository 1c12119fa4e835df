"""Building the tree of mappings and lists from the events of a YAML parser, without recursion."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import yaml

from compliance.files.characters import HIDDEN, hidden_character_problem
from compliance.problems import Place, Problem
from compliance.reading.yaml.placed import PlacedDict, PlacedList, Spot
from compliance.reading.yaml.scalars import Scalar, plain_scalar
from compliance.refused import MOST_PROBLEMS, RefusedError, shortened

DEEPEST = 40
MOST_NODES = 400_000

# Stands for a key that was refused, until its value has gone by. The tree is thrown away then.
_REFUSED_KEY = ""


class StopReadingError(Exception):
    """Reading cannot usefully go on; the reason is among the problems."""


class YamlTree:
    """The tree so far and the problems so far.

    `mapping` is the mapping being filled, None while a list is; `items` is the list being filled while
    `mapping` is None. `key` is the key whose value comes next, None while a key is awaited.
    """

    def __init__(self, shown: str) -> None:
        self.shown = shown
        self.problems: list[Problem] = []
        self.document = PlacedList(shown, (1, 1))
        self.mapping: PlacedDict | None = None
        self.items = self.document
        self.key: str | None = None
        self.outer: list[tuple[PlacedDict | None, PlacedList, str | None]] = []
        self.nodes = 0
        self.documents = 0

    def read(self, parser: Any) -> None:
        """Take every event of `parser`. Raises yaml.YAMLError where it is not YAML, StopReadingError at a limit."""
        handlers: dict[type, Callable[[Any], None]] = {
            yaml.ScalarEvent: self._scalar,
            yaml.MappingStartEvent: self._mapping_start,
            yaml.SequenceStartEvent: self._sequence_start,
            yaml.MappingEndEvent: self._collection_end,
            yaml.SequenceEndEvent: self._collection_end,
            yaml.AliasEvent: self._alias,
            yaml.DocumentStartEvent: self._document_start,
        }
        next_event, end = parser.get_event, yaml.StreamEndEvent
        event = next_event()
        while event.__class__ is not end:
            handle = handlers.get(event.__class__)
            if handle is not None:
                handle(event)
            event = next_event()

    def _place(self, mark: Any) -> Place:
        return Place(self.shown, mark.line + 1, mark.column + 1)

    def _report(self, mark: Any, code: str, wrong: str, instead: str) -> None:
        self.problems.append(Problem(self._place(mark), code, wrong, instead))
        if len(self.problems) > MOST_PROBLEMS:
            raise StopReadingError

    def _document_start(self, event: Any) -> None:
        self.documents += 1
        if self.documents > 1:
            advice = "keep one document to a file: leave this line out, or move what follows to another file"
            self._report(event.start_mark, "yaml-multiple-documents", "a second document begins here", advice)
            raise StopReadingError

    def _scalar(self, event: Any) -> None:
        if self.mapping is not None and self.key is None:
            self._take_key(event, self.mapping)
        else:
            self._put(self._value_of(event), event.start_mark)

    def _value_of(self, event: Any) -> Scalar:
        if event.tag is not None or event.anchor is not None:
            self._refuse_properties(event)
        text: str = event.value
        if event.style:
            if event.style == '"':
                self._check_escapes(text, event.start_mark)
            return text
        try:
            return plain_scalar(text)
        except RefusedError as refused:
            self._report(event.start_mark, refused.code, refused.wrong, refused.instead)
            return None

    def _check_escapes(self, text: str, mark: Any) -> None:
        """Escapes in double quotes can spell what may not stand in the file itself."""
        hidden = HIDDEN.search(text)
        if hidden:
            found = hidden_character_problem(hidden[0], self._place(mark), "yaml")
            self._report(mark, found.code, f"by an escape in this text, {found.wrong}", "leave the escape out")

    def _refuse_properties(self, event: Any) -> None:
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            advice = "leave out the word that begins with !; put a text that begins with ! in quotes"
            self._report(event.start_mark, "yaml-tag", f"the tag {tag} is not read", advice)
        if event.anchor is not None:
            advice = "leave out the word that begins with &; put a text that begins with & in quotes"
            self._report(event.start_mark, "yaml-anchor", f"the anchor &{event.anchor} is not read", advice)

    def _alias(self, event: Any) -> None:
        advice = "write the value itself here; put a text that begins with * in quotes"
        self._report(event.start_mark, "yaml-alias", f"the alias *{event.anchor} is not read", advice)
        if self.mapping is not None and self.key is None:
            self.key = _REFUSED_KEY
        else:
            self._put(None, event.start_mark)

    def _take_key(self, event: Any, mapping: PlacedDict) -> None:
        if event.value == "<<" and not event.style:
            self._report(event.start_mark, "yaml-merge-key", "the merge key << is not read", "write its keys out here")
            self.key = _REFUSED_KEY
            return
        known = len(self.problems)
        key = self._value_of(event)
        if isinstance(key, str) and key:
            self._name(key, event.start_mark, mapping.key_places)
            return
        self.key = _REFUSED_KEY
        if len(self.problems) > known:
            return
        if event.value:
            advice = f'put it in quotes: "{event.value}"'
            self._report(event.start_mark, "yaml-key", f"the key {event.value} is not text", advice)
        else:
            self._report(event.start_mark, "yaml-key", "a key is empty", "write a key before the colon")

    def _name(self, key: str, mark: Any, places: dict[str, Spot]) -> None:
        """Make `key` the one whose value comes next; `places` are those of the keys before it."""
        if key in places:
            wrong = f"the key {shortened(key)} stands here again; it stood first on line {places[key][0]}"
            self._report(mark, "yaml-duplicate-key", wrong, "keep one of the two")
        else:
            places[key] = (mark.line + 1, mark.column + 1)
        self.key = key

    def _put(self, value: Any, mark: Any) -> None:
        """Put `value` where the reading stands: under the waiting key, or at the end of the list."""
        self.nodes += 1
        if self.nodes > MOST_NODES:
            self._report(mark, "yaml-nodes", f"the file has more than {MOST_NODES:,} parts", "divide it into several")
            raise StopReadingError
        spot = (mark.line + 1, mark.column + 1)
        if self.mapping is None:
            self.items.append(value)
            self.items.item_places.append(spot)
        elif self.key is not None:
            self.mapping[self.key] = value
            self.mapping.value_places[self.key] = spot
            self.key = None

    def _mapping_start(self, event: Any) -> None:
        inner = PlacedDict(self.shown, (event.start_mark.line + 1, event.start_mark.column + 1))
        self._enter(event, inner)
        self.mapping = inner

    def _sequence_start(self, event: Any) -> None:
        inner = PlacedList(self.shown, (event.start_mark.line + 1, event.start_mark.column + 1))
        self._enter(event, inner)
        self.mapping, self.items = None, inner

    def _enter(self, event: Any, inner: PlacedDict | PlacedList) -> None:
        mark = event.start_mark
        if event.tag is not None or event.anchor is not None:
            self._refuse_properties(event)
        if len(self.outer) >= DEEPEST:
            self._report(mark, "yaml-depth", f"this is nested more than {DEEPEST} deep", "nest it less deeply")
            raise StopReadingError
        if self.mapping is not None and self.key is None:
            self._report(mark, "yaml-key", "a list or a mapping cannot be a key", "write a text as the key")
            self.key = _REFUSED_KEY
        else:
            self._put(inner, mark)
        self.outer.append((self.mapping, self.items, self.key))
        self.key = None

    def _collection_end(self, event: Any) -> None:
        self.mapping, self.items, self.key = self.outer.pop()
