"""What a project describes, thing by thing, and what of it is not as it was in a revision that was issued."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from pydantic import BaseModel

from compliance.facts.evidence.set_differences import set_differences
from compliance.model.issued import IssuedHead, TestSetText
from compliance.model.project import Project
from compliance.record import record
from compliance.units import KINDS, MeasureError, parse_measure

_SECTIONS = {
    "wall": "walls",
    "stem": "stems",
    "footing": "footings",
    "beam": "beams",
    "mix": "mixes",
    "set": "test_sets",
}
_OF_THE_WORK = frozenset({"placed_from", "shown_to_official", "report", "made_by", "tested_by"})
_OF_NO_ACCOUNT = frozenset({"note", "name", "title", "version", "photos", "type"})
_MOST_SHOWN = 60


@record
class ChangedSince:
    """How a thing differs from what it was in a revision that was issued: `says` names the first difference, and is
    empty where that revision did not describe it."""

    revision: str
    on: date
    says: str


Thing = tuple[str, str]
"""What it is, and its mark: "wall" and "W1", "opening" and "W1.D1"."""
ChangedThings = Mapping[Thing, tuple[ChangedSince, ...]]
"""The latest revision first; things as they always were are left out."""
Things = dict[str, dict[str, dict[str, str]]]
"""By what they are and by mark, the fields of things."""


def described_things(project: Project) -> Things:
    """The fields as they were written, by their path. What follows from the work and words that change nothing are
    left out."""
    things: Things = {"opening": {}}
    for about, section in _SECTIONS.items():
        things[about] = {}
        for mark, one in getattr(project, section).items():
            fields = dict(_fields(one))
            things[about][mark] = {path: text for path, text in fields.items() if not _is_of_opening(path)}
            if about == "wall":
                things["opening"] |= _openings(mark, fields)
    return things


def _openings(wall: str, fields: Mapping[str, str]) -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for path, text in fields.items():
        if _is_of_opening(path):
            _, mark, *rest = path.split(".")
            found.setdefault(f"{wall}.{mark}", {})[".".join(rest)] = text
    return found


def _is_of_opening(path: str) -> bool:
    return path.startswith("openings.")


def _fields(one: BaseModel) -> Iterator[tuple[str, str]]:
    left_out = set(_OF_THE_WORK | _OF_NO_ACCOUNT)
    yield from _flat("", one.model_dump(mode="json", exclude_none=True, exclude=left_out))


def _flat(path: str, value: object) -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for name, inner in value.items():
            if name not in _OF_NO_ACCOUNT:
                yield from _flat(f"{path}.{name}" if path else str(name), inner)
    elif isinstance(value, list):
        for number, inner in enumerate(value, 1):
            yield from _flat(f"{path}.{number}", inner)
    elif isinstance(value, bool):
        yield path, "yes" if value else "no"
    else:
        yield path, str(value)


def changed_things(
    issued: Sequence[IssuedHead], project: Project, test_sets: Sequence[TestSetText]
) -> dict[Thing, tuple[ChangedSince, ...]]:
    """What is not as it was in some revision that was issued. A field that was blank then and is filled in now is no
    change."""
    now = described_things(project) if issued else {}
    found: dict[Thing, list[ChangedSince]] = {}
    for one in sorted(issued, key=lambda head: (head.project.date, head.issue), reverse=True):
        if one.described is None:
            continue
        on = date.fromisoformat(one.project.date)
        differences = reversed(set_differences(one.described.test_sets, test_sets))
        tests = {("set", difference.set): difference.words for difference in differences}
        for about, things in now.items():
            for mark, fields in things.items():
                then = one.described.things.get(about, {}).get(mark)
                says = "" if then is None else _difference(then, fields) or tests.get((about, mark), "")
                if then is None or says:
                    found.setdefault((about, mark), []).append(ChangedSince(one.project.revision, on, says))
    return {thing: tuple(changes) for thing, changes in found.items()}


def _difference(then: Mapping[str, str], now: Mapping[str, str]) -> str:
    """The first field that was written otherwise; empty where none was."""
    for path, text in then.items():
        other = now.get(path)
        if other is None or not _is_same(text, other):
            name = path.replace("_", " ").replace(".", " ")
            return f"{name} was {_short(text)} and is {_short(other) if other is not None else 'not stated'}"
    return ""


def _short(text: str) -> str:
    return text if len(text) <= _MOST_SHOWN else f"{text[:_MOST_SHOWN]}..."


def _is_same(one: str, other: str) -> bool:
    """The same text, or the same measure in other units."""
    return one == other or any(_is_same_measure(one, other, kind) for kind in KINDS)


def _is_same_measure(one: str, other: str, kind: str) -> bool:
    try:
        here, there = (parse_measure(text, KINDS[kind]).si for text in (one, other))
    except MeasureError:
        return False
    return abs(here - there) <= 1e-9 * max(abs(here), abs(there))
