"""Strengths that the laboratory states, beside what load and sides give."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.specimens.specimen_results import Difference, stated_beside_measured
from compliance.model.specimens import Specimen
from compliance.steps import Given


def doubtful_strengths(specimens: Sequence[Specimen], share: float, gravity: float) -> Iterator[Doubt]:
    """A stated strength further from load over measured sides than `share` and than its own last digit; and one that
    stands without a load beside rows that have one, which is only named."""
    with_load = sum(one.peak_load is not None for one in specimens)
    for one in specimens:
        yield from _stated_shrinkage(one)
        found = stated_beside_measured(one, gravity)
        if found is not None and not _agrees(found, one.rounded_to, share):
            stated, gives = Given("", found.stated, "stress"), Given("", found.found, "stress")
            says = (f"{one.mark} states a strength of ", stated, ", but its load and sides give ", gives)
            cure = "find the slip in load, sides or strength; where the lab divides by another area, leave it empty"
            yield Doubt(DoubtKind.STRENGTH, set=one.set, specimen=one.mark, says=says, cure=cure, column="strength")
        elif one.strength is not None and one.peak_load is None and with_load:
            alone = (
                f"{one.mark} has a strength of ",
                Given("", one.strength, "stress"),
                " and no load; others have one",
            )
            yield Doubt(
                DoubtKind.STRENGTH,
                set=one.set,
                specimen=one.mark,
                says=alone,
                cure="enter its load",
                column="strength",
                grave=False,
            )


_PRINTED = 0.001
"""A shrinkage is printed to a tenth of a percent, and its lengths to a sixteenth of an inch."""


def _stated_shrinkage(one: Specimen) -> Iterator[Doubt]:
    if one.shrinkage is None or not one.form_length or one.dried_length is None:
        return
    found = (one.form_length - one.dried_length) / one.form_length
    if abs(found - one.shrinkage) > _PRINTED * (1 + 1e-9):
        stated, gives = Given("", one.shrinkage, "share"), Given("", found, "share")
        says = (f"{one.mark} states a shrinkage of ", stated, ", but its lengths give ", gives)
        yield Doubt(
            DoubtKind.STRENGTH,
            set=one.set,
            specimen=one.mark,
            says=says,
            cure="find the slip in the lengths",
            column="shrinkage",
        )


def _agrees(found: Difference, rounded_to: float, share: float) -> bool:
    """A printed strength may be half its last digit off before it disagrees."""
    apart = abs(found.stated - found.found)
    return found.share <= share * (1 + 1e-9) or (apart <= rounded_to / 2 * (1 + 1e-9) and math.isfinite(found.share))
