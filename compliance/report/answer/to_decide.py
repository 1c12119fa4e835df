"""What is missing now, each thing once with where to write it, what most checks need first.

A field that every wall of a type lacks is written at the type. Fields of one holder that as many checks need are one
line. What is wrong in a record, and not only absent, has a line of its own with the reason.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal

from compliance.checked import Checked
from compliance.findings import Finding, Lack, Missing, Outcome
from compliance.judging.conditions.due import is_plainly_absent
from compliance.judging.reasons import NotRecorded
from compliance.model.walls import WallBuild
from compliance.record import record

ItemKind = Literal["field", "record", "answer", "inspection", "doubt"]
_OWN = "*"


@record
class Item:
    """One thing to write. `names` are the fields, or the lacks of other kinds; `holders` where fields go: parts of a
    path, one for each subject alike. `needed_by` is how many findings need it, `findings` those."""

    kind: ItemKind
    names: tuple[str, ...]
    holders: tuple[tuple[str | int, ...], ...]
    file: str
    findings: tuple[Finding, ...]
    lacks: tuple[Missing, ...] = ()

    @property
    def needed_by(self) -> int:
        return len({one.key for one in self.findings})

    @property
    def paths(self) -> tuple[tuple[str | int, ...], ...]:
        """Of the fields that it asks for; none where it asks for something else."""
        if self.kind != "field":
            return ()
        return tuple((*holder, name) for holder in self.holders for name in self.names)

    @property
    def key(self) -> str:
        """What stands for it in `cause`."""
        if self.kind == "record":
            return ".".join(map(str, (self.lacks[0].kind.value, *self.lacks[0].parts)))
        if self.kind == "field":
            return ".".join(map(str, (*next(iter(self.holders), ()), self.names[0])))
        return f"{self.findings[0].rule_set}/{self.names[0]}"


@record
class _Place:
    """Where one lack is written: the kind, what it is called, the holder and the file."""

    kind: ItemKind
    name: str
    holder: tuple[str | int, ...]
    file: str
    lack: Missing | None = None


def to_decide(checked: Checked) -> tuple[Item, ...]:
    """What to write for everything that is missing now."""
    missing = [one for one in checked.findings if one.outcome is Outcome.MISSING]
    places: dict[_Place, list[Finding]] = {}
    types = _types(checked)
    for one in missing:
        for place in _places(one, checked, types):
            places.setdefault(place, []).append(one)
    items = list(_merged(places))
    return tuple(sorted(_loose_together(items), key=lambda one: (_ORDER[one.kind], -one.needed_by)))


def _loose_together(items: Sequence[Item]) -> Iterator[Item]:
    """Fields of one file that few checks need, by their whole paths on one line."""
    loose: dict[str, list[Item]] = {}
    for one in items:
        if one.kind == "field" and one.needed_by <= _FEW and len(one.names) * len(one.holders) <= _FEW:
            loose.setdefault(one.file, []).append(one)
        else:
            yield one
    for file, some in loose.items():
        if len(some) == 1:
            yield some[0]
            continue
        paths = [(*holder, name) for one in some for holder in one.holders for name in one.names]
        counts = [one.needed_by for one in some]
        yield JoinedItem(
            "field", tuple(".".join(map(str, path)) for path in paths), holders=(), file=file,
            findings=_once(one for each in some for one in each.findings), most=max(counts), fewest=min(counts),
            own_paths=tuple(paths),
        )  # fmt: skip


_FEW = 2
_ORDER: Mapping[ItemKind, int] = {"doubt": 0, "field": 1, "record": 1, "inspection": 2, "answer": 3}


def _places(finding: Finding, checked: Checked, types: Mapping[str, str]) -> Iterator[_Place]:
    """Where to write what a finding lacks."""
    if isinstance(finding.reason, NotRecorded):
        yield _Place("inspection", finding.rule, (finding.rule_set,), finding.missing[0].file)
    elif not is_plainly_absent(finding):
        file = finding.missing[0].file if finding.missing else finding.place.file
        yield _Place("doubt", finding.rule, (finding.rule_set,), file)
    elif finding.kind == "attest" and any(one.kind is Lack.ANSWER for one in finding.missing):
        yield _Place("answer", str(finding.missing[0].parts[0]), (finding.rule_set,), finding.missing[0].file)
    else:
        for one in finding.missing:
            yield _place_of(one, checked, types)


def _place_of(one: Missing, checked: Checked, types: Mapping[str, str]) -> _Place:
    if one.kind is not Lack.FIELD:
        return _Place("record", name="", holder=(), file=one.file, lack=one)
    *holder, name = one.parts
    if len(holder) == 2 and holder[0] == "walls" and name in WallBuild.model_fields:
        kind = types.get(str(holder[1]))
        if kind is not None:
            return _Place("field", str(name), ("wall_types", kind), checked.type_files.get(kind, one.file))
    return _Place("field", str(name), tuple(holder), one.file)


def _types(checked: Checked) -> dict[str, str]:
    """The wall type of each wall that has one."""
    return {mark: wall.type for mark, wall in checked.project.walls.items() if wall.type}


def _merged(places: Mapping[_Place, list[Finding]]) -> Iterator[Item]:
    """Places alike in one item: a field that subjects of a section lack, then the fields of the same holders that as
    many findings need; an answer or an inspection of several subjects; the rest by itself."""
    sections: dict[tuple[object, ...], list[tuple[_Place, list[Finding]]]] = {}
    for place, findings in places.items():
        form = tuple(_OWN if index == 1 else part for index, part in enumerate(place.holder))
        own = place.lack if place.kind == "record" else None
        sections.setdefault((place.kind, place.name, form, place.file, own), []).append((place, findings))
    fields: dict[tuple[object, ...], list[Item]] = {}
    for alike in sections.values():
        first = alike[0][0]
        holders = tuple(dict.fromkeys(place.holder for place, _ in alike))
        found = _once(one for _, findings in alike for one in findings)
        lacks = (first.lack,) if first.lack else ()
        named = (first.name,) if first.name else ()
        item = Item(first.kind, named, holders=holders, file=first.file, findings=found, lacks=lacks)
        fields.setdefault(_line_of(item), []).append(item)
    for items in fields.values():
        first_item = items[0]
        if len(items) == 1 and first_item.kind != "field":
            yield first_item
            continue
        names = tuple(name for one in items for name in one.names)
        found = _once(one for each in items for one in each.findings)
        yield JoinedItem(
            first_item.kind, names, holders=first_item.holders, file=first_item.file, findings=found,
            most=max(one.needed_by for one in items), fewest=min(one.needed_by for one in items),
            lacks=tuple(lack for one in items for lack in one.lacks),
        )  # fmt: skip


def _line_of(item: Item) -> tuple[object, ...]:
    """What is alike of items on one line: fields of one holder that as many findings need, answers, inspections or
    records of one file, what is wrong for the same reason."""
    match item.kind:
        case "field":
            return ("field", item.holders, item.file, item.needed_by)
        case "answer" | "inspection":
            return (item.kind, item.file)
        case "doubt":
            return ("doubt", item.findings[0].reason)
    return ("record", item.file)


@record
class JoinedItem(Item):
    """Several on one line; each is needed by so many findings at `most` and at `fewest`.

    `own_paths` are those of fields that share no holder."""

    most: int = 0
    fewest: int = 0
    own_paths: tuple[tuple[str | int, ...], ...] = ()

    @property
    def needed_by(self) -> int:
        return self.most

    @property
    def paths(self) -> tuple[tuple[str | int, ...], ...]:
        return self.own_paths or super().paths


def _once(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple({one.key: one for one in findings}.values())
