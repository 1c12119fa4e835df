"""What to fill in, for a page that has the form beside it: by names of things, without the file they stand in."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding
from compliance.report.answer.to_decide import Item
from compliance.report.words.answer_words import item_words, needed_words, subject_words
from compliance.report.words.missing_words import missing_name
from compliance.units import Writer

_ONE_OF = {
    "attachments": "photo or paper", "batches": "batch", "beams": "bond beam", "buttresses": "buttress",
    "footings": "footing", "lab": "lab table", "loads": "point load", "mixes": "mix", "openings": "opening",
    "rooms": "room", "roofs": "roof", "soils": "soil", "stems": "stem wall", "test_sets": "set of specimens",
    "trials": "trial brick", "wall_types": "walls of type", "walls": "wall",
}  # fmt: skip


def holder_words(holder: FieldPath) -> str:
    """What a field belongs to: "walls of type outer", "roof R1, bears on 1"."""
    parts: list[str] = []
    rest = list(holder)
    while rest:
        name = str(rest.pop(0))
        if name in _ONE_OF and rest:
            parts.append(f"{_ONE_OF[name]} {rest.pop(0)}")
        elif rest and isinstance(rest[0], int):
            parts.append(f"{_plain(name)} {int(rest.pop(0)) + 1}")
        else:
            parts.append(_plain(name))
    return ", ".join(parts)


def field_words(path: FieldPath) -> str:
    """A field with what it belongs to: "site: wind speed"."""
    *holder, name = path
    return f"{holder_words(tuple(holder))}: {_plain(name)}" if holder else _plain(name)


def item_on_page(item: Item, writer: Writer) -> str:
    """One thing to decide."""
    match item.kind:
        case "field":
            return f"{_fields(item)} {needed_words(item)}"
        case "record":
            return f"{'; '.join(missing_name(one, more_follow=True) for one in item.lacks)} {needed_words(item)}"
        case "answer" | "inspection":
            titles: dict[str, list[Finding]] = {}
            for one in item.findings:
                titles.setdefault(one.title, []).append(one)
            named = (f"{title} ({subject_words(some)})" for title, some in titles.items())
            return f"{'answer' if item.kind == 'answer' else 'record'}: {'; '.join(named)}"
    return item_words(item, writer)


def _fields(item: Item) -> str:
    if not item.holders:
        return "; ".join(map(field_words, item.paths))
    names = ", ".join(map(_plain, item.names))
    return f"{_holders(item.holders)}: {names}"


def _holders(holders: Sequence[FieldPath]) -> str:
    """Those alike by their marks behind one name: "opening W1.N1, W2.N1, lintel"."""
    first = holders[0]
    if len(first) < 2 or any(_frame(one) != _frame(first) for one in holders):
        return "; ".join(map(holder_words, holders))
    at = [index for index in range(1, len(first), 2) if str(first[index - 1]) in _ONE_OF]
    if not at:
        return "; ".join(map(holder_words, holders))
    marks = ", ".join(".".join(str(one[index]) for index in at) for one in holders)
    rest = holder_words(first[at[-1] + 1 :])
    return f"{_ONE_OF[str(first[at[-1] - 1])]} {marks}{f', {rest}' if rest else ''}"


def _frame(holder: FieldPath) -> FieldPath:
    """What stands between its marks."""
    return tuple("*" if index and str(holder[index - 1]) in _ONE_OF else one for index, one in enumerate(holder))


def _plain(name: str | int) -> str:
    return str(name).replace("_", " ")
