"""What is plotted of a set: every result, and the lines of its mean, of the values that govern, and of the limits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from compliance.checked import Checked
from compliance.facts.specimens.set_record import SetRecord
from compliance.findings import Finding
from compliance.record import record
from compliance.report.by_rule import SetFindings
from compliance.steps import Scalar

_RESULT = "result"


@record
class Dot:
    """One specimen by its number along the plot, from 0. `aside`: some rule does not count it; `apart`: a test for
    outliers says that it stands apart. `value` in SI."""

    mark: str
    value: float
    aside: bool
    apart: bool


@record
class Rung:
    """A level line with its value in SI. `side` of a limit is the side that is outside: -1 below, 1 above."""

    name: str
    value: float
    side: int = 0


@record
class Plot:
    """The set `mark`; `kind` is that of the values. `lacking` are specimens without a result; `corrected`: governing
    values come from strengths corrected for shape, which the dots are not."""

    mark: str
    kind: str
    dots: tuple[Dot, ...]
    mean: float | None
    governing: tuple[Rung, ...]
    limits: tuple[Rung, ...]
    lacking: tuple[str, ...]
    corrected: bool


def judged_of(checked: Checked, sets: Sequence[SetFindings], mark: str) -> list[tuple[str, Finding]]:
    """The findings of test rules about the set, each with the code of its rule."""
    return [
        (group.code, one)
        for of_set in sets
        for group in of_set.rules
        for one in group.judged
        if one.kind == "test" and one.about == "set" and one.subject == mark
    ]


def plot_of(mark: str, checked: Checked, judged: Sequence[tuple[str, Finding]]) -> Plot | None:
    """None where no specimen of the set has a result."""
    found = checked.evidence.sets.get(mark)
    if found is None or found.summary is None:
        return None
    aside = {name for _, one in judged for name in aside_of(one)}
    apart = {name for name, test in found.suspects if test.beyond}
    dots = tuple(
        Dot(one.mark, one.result.value, one.mark in aside, one.mark in apart)
        for one in found.specimens
        if one.result.value is not None
    )
    drawn = [(code, one) for code, one in judged if _shown(one, found.kind)]
    return Plot(
        mark,
        kind=found.kind,
        dots=dots,
        mean=found.summary.mean,
        governing=_rungs((code, one.value.value, 0) for code, one in drawn if one.value),
        limits=_rungs(
            (code, one.limit.value, -1 if one.relation in (">=", ">") else 1) for code, one in drawn if one.limit
        ),
        lacking=tuple(one.mark for one in found.specimens if one.result.value is None),
        corrected=any(one.corrected for _, one in judged),
    )


def aside_of(finding: Finding) -> Mapping[str, str]:
    """Specimens that do not count under the rule of the finding, with the reason."""
    return {one.mark: one.why for one in finding.aside}


def _shown(finding: Finding, kind: str) -> bool:
    """Only what can stand on the scale of the results: not a number of specimens, not an open limit."""
    value, limit = finding.value, finding.limit
    plain = value is not None and value.symbol == _RESULT and not isinstance(value.value, (str, bool))
    return plain and (limit is None or (limit.kind == kind and not isinstance(limit.value, (str, bool))))


def _rungs(found: Iterable[tuple[str, Scalar, int]]) -> tuple[Rung, ...]:
    """One rung for each value and way, named after all rules that draw it."""
    codes: dict[tuple[float, int], list[str]] = {}
    for code, value, side in found:
        codes.setdefault((float(value), side), []).append(code)
    return tuple(Rung(", ".join(names), value, side) for (value, side), names in codes.items())


def remarks_of(found: SetRecord) -> list[str]:
    """What the tests for one value that stands apart found; they leave nothing out."""
    wording = list(found.remarks)
    for mark, test in found.suspects:
        if not test.beyond and test.statistic is not None and test.critical is not None:
            wording.append(
                f"{mark} does not stand apart by {test.test}: {test.statistic:.3f}, where a sound set exceeds "
                f"{test.critical:.3f} only {100 * test.level:g} times in 100."
            )
    return wording
