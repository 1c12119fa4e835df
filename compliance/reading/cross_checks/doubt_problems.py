"""Doubts about test results as warnings, each at its place in the laboratory's file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from compliance.facts.common.fact import FieldPath
from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.model.specimens import Specimen
from compliance.problems import Place, Problem
from compliance.units import Writer


def doubt_problems(
    doubts: Mapping[str, Sequence[Doubt]], specimens: Mapping[str, Sequence[Specimen]],
    where: Callable[[FieldPath], Place], writer: Writer,
) -> Iterator[Problem]:  # fmt: skip
    """A warning for each doubt, in the units of `writer`; at the row of the specimen, else where the set stands."""
    for mark, found in doubts.items():
        rows = {one.mark: one for one in specimens.get(mark, ())}
        for one in found:
            row = rows.get(one.specimen)
            place = row.place_of(one.column) if row else where(("test_sets", mark))
            yield _warning(one, place, one.sentence(writer))


def _warning(one: Doubt, place: Place, says: str) -> Problem:
    match one.kind:
        case DoubtKind.VALUE:
            return Problem(place, "lab-implausible", says, one.cure, warning=True)
        case DoubtKind.SHAPE:
            return Problem(place, "lab-shape", says, one.cure, warning=True)
        case DoubtKind.ALIKE:
            return Problem(place, "lab-alike", says, one.cure, warning=True)
        case DoubtKind.DAY:
            return Problem(place, "lab-day", says, one.cure, warning=True)
        case DoubtKind.STRENGTH:
            return Problem(place, "lab-strength", says, one.cure, warning=True)
        case DoubtKind.BATCH:
            return Problem(place, "lab-batch-straw", says, one.cure, warning=True)
        case DoubtKind.OUTLIER:
            return Problem(place, "lab-outlier", says, one.cure, warning=True)
        case DoubtKind.GAP:
            return Problem(place, "lab-gap", says, one.cure, warning=True)
