"""What one set of specimens says whatever rule is laid on it: results, ages, shapes, and what stands apart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.specimens.dixon import dixon
from compliance.facts.specimens.measured import Measured
from compliance.facts.specimens.outliers import OutlierRemark, grubbs
from compliance.facts.specimens.sample import Summary, summary
from compliance.facts.specimens.specimen_results import age_in_days, density, measured, slenderness
from compliance.model.specimens import Specimen
from compliance.record import record


@record
class SpecimenRecord:
    """`age` in days, `density` in kg/m³, `aspect` height over the lesser side; None where the row does not say."""

    mark: str
    result: Measured
    age: int | None
    density: float | None
    aspect: float | None
    batch: str
    dried: str | None


@record
class SetRecord:
    """`kind` is that of the results, "stress" or "share". `suspects` are tests for one value that stands apart, with
    the mark of the suspect: remarks only, no value is ever left out for them."""

    kind: str
    specimens: tuple[SpecimenRecord, ...]
    summary: Summary | None
    suspects: tuple[tuple[str, OutlierRemark], ...]
    remarks: tuple[str, ...]

    @property
    def results(self) -> list[float]:
        return [one.result.value for one in self.specimens if one.result.value is not None]


def set_record(kind: str, specimens: Sequence[Specimen], practice: MaterialPractice) -> SetRecord:
    """`kind` is compression, rupture or shrinkage."""
    of = "share" if kind == "shrinkage" else "stress"
    rows = tuple(
        SpecimenRecord(
            one.mark,
            result=measured(one),
            age=age_in_days(one),
            density=density(one),
            aspect=slenderness(one),
            batch=one.batch,
            dried=one.dried,
        )
        for one in specimens
    )
    with_result = [(one.mark, one.result.value) for one in rows if one.result.value is not None]
    values = [value for _, value in with_result]
    level, side = practice.lab.outlier_level, practice.lab.outlier_side
    tests = (
        (grubbs(values, of, level, side), dixon(values, kind=of, level=level, side=side, table=practice.dixon))
        if values
        else ()
    )
    suspects = tuple((with_result[one.suspect][0], one) for one in tests if one.suspect is not None)
    return SetRecord(
        of,
        specimens=rows,
        summary=summary(values),
        suspects=suspects,
        remarks=tuple(_says(mark, one) for mark, one in suspects if one.beyond),
    )


def _says(mark: str, found: OutlierRemark) -> str:
    assert found.statistic is not None and found.critical is not None
    chance = f"{100 * found.level:g} times in 100"
    return (
        f"{mark} stands apart by {found.test}: {found.statistic:.3f}, where a sound set exceeds {found.critical:.3f} "
        f"only {chance}. It counts all the same: look at how it was made, dried, capped and crushed."
    )


def known_values(values: Iterable[float | None]) -> list[float] | None:
    """All the values; None where one is not known or there is none."""
    found = list(values)
    whole = [value for value in found if value is not None]
    return whole if found and len(whole) == len(found) else None
