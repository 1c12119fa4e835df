"""Days of specimens that cannot be, or that contradict the day of the project."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.doubts.plausible import Plausible
from compliance.model.specimens import Specimen


def doubtful_days(specimen: Specimen, project: date, ranges: Plausible) -> Iterator[Doubt]:
    """Cast or tested after the day of the project, tested the day it was cast, or years after it."""
    for what, day in (("cast", specimen.cast), ("tested", specimen.tested)):
        if day is not None and day > project:
            says = f"{specimen.mark} is said to be {what} on {day}, after the project's own day {project}"
            yield _day(specimen, says, "correct the day, or the date of the project", what)
    if specimen.cast is None or specimen.tested is None:
        return
    if specimen.tested == specimen.cast:
        says = f"{specimen.mark} was tested on {specimen.tested}, the day it was cast"
        yield _day(specimen, says, "earth is tested dry: correct one of the two days", "tested")
    elif (specimen.tested - specimen.cast).days > ranges.oldest_specimen:
        years = (specimen.tested - specimen.cast).days // 365
        says = f"{specimen.mark} was cast on {specimen.cast} and tested on {specimen.tested}, {years} years later"
        yield _day(specimen, says, "correct the year", "cast")


def _day(specimen: Specimen, says: str, cure: str, column: str) -> Doubt:
    return Doubt(DoubtKind.DAY, set=specimen.set, specimen=specimen.mark, says=(says,), cure=cure, column=column)
