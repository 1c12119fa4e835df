"""The sets of specimens of a project as they are kept with what was issued."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.facts.specimens.set_record import SetRecord
from compliance.model.issued import SpecimenText, TestSetText, ValueRecord
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.steps import Given
from compliance.units import Writer

Aside = Mapping[str, Mapping[str, Sequence[str]]]
"""By set and specimen why adopted rules do not count it."""


def test_set_texts(
    project: Project,
    specimens: Mapping[str, Sequence[Specimen]],
    sets: Mapping[str, SetRecord],
    writer: Writer,
    aside: Aside,
) -> list[TestSetText]:
    """Each set with its mix, and each row with its result and what decides whether it counts."""
    return [
        TestSetText(
            set=mark, mix=test.mix, kind=test.kind,
            specimens=_rows(specimens.get(mark, ()), sets.get(mark), writer, aside.get(mark, {})),
        )
        for mark, test in project.test_sets.items()
    ]  # fmt: skip


def _rows(
    rows: Sequence[Specimen], found: SetRecord | None, writer: Writer, aside: Mapping[str, Sequence[str]]
) -> list[SpecimenText]:
    results = {one.mark: one.result.value for one in found.specimens} if found else {}
    kind = found.kind if found else ""
    return [
        SpecimenText(
            specimen=one.mark, result=_value(results.get(one.mark), kind, writer), shape=one.shape or "",
            dried=one.dried or "", cast=one.cast.isoformat() if one.cast else "",
            tested=one.tested.isoformat() if one.tested else "", aside=list(aside.get(one.mark, ())),
        )
        for one in rows
    ]  # fmt: skip


def _value(result: float | None, kind: str, writer: Writer) -> ValueRecord | None:
    if result is None:
        return None
    text = Given("", result, kind).written(writer)
    return ValueRecord(text=text, number=writer.number(result, kind), unit=writer.unit_symbol(kind))
