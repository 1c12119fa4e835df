"""Findings of one rule that say the same of several subjects, gathered so that they are printed once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding
from compliance.judging.reasons import Lacks
from compliance.record import record
from compliance.report.calculations.calculation_lines import WorkedLine, worked_line
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import closed, percent, relation, value_and_limit
from compliance.report.words.missing_words import reason_text, to_add, without_own_marks
from compliance.report.words.reason_words import in_brackets, reason_words
from compliance.units import Writer

_COMPARED = "check"


class Figures(NamedTuple):
    """The line of figures of a finding; `verdict` with the standing it rests on."""

    mark: Mark
    value: str
    limit: str
    margin: str
    verdict: str


@record
class Alike:
    """What is printed of findings that say the same. `lines` are the worked lines with their sources."""

    findings: tuple[Finding, ...]
    figures: Figures
    lines: tuple[WorkedLine, ...]

    @property
    def first(self) -> Finding:
        return self.findings[0]


def alike(findings: Iterable[Finding], writer: Writer) -> list[Alike]:
    """Findings with the same figures, words and worked lines together, in the order of their first."""
    found: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (figures(finding, writer), _lines(finding, writer), *words(finding, writer))
        found.setdefault(key, []).append(finding)
    return [Alike(tuple(same), key[0], key[1]) for key, same in found.items()]  # type: ignore[arg-type]


def figures(finding: Finding, writer: Writer) -> Figures:
    value, limit = value_and_limit(finding, writer)
    if finding.value and finding.limit:
        limit = f"{relation(finding)} {limit}".strip()
    return Figures(
        mark_of(finding), value=value, limit=limit, margin=percent(finding.margin),
        verdict=finding.verdict_with_standing,
    )  # fmt: skip


def _lines(finding: Finding, writer: Writer) -> tuple[WorkedLine, ...]:
    """The worked lines. A single comparison is left out where value, limit and margin already stand beside it."""
    steps = finding.steps
    compared = [step for step in steps if step.says == _COMPARED]
    if len(compared) == 1 and steps[-1] is compared[0] and finding.value and finding.limit:
        steps = steps[:-1]
    return tuple(worked_line(step, writer) for step in steps)


def words(finding: Finding, writer: Writer) -> tuple[object, ...]:
    """Reason, remedy and lacks, the subject's own marks left out, for comparing."""
    wording = tuple(reason_words(one, writer) for one in (finding.reason, *finding.beside))
    return wording, finding.remedy, without_own_marks(finding)


def reason_of(findings: Sequence[Finding], writer: Writer) -> str:
    """Why, as a sentence. Where each subject lacks a field of its own, the fields are named together."""
    first = findings[0]
    if isinstance(first.reason, Lacks) and first.missing:
        return f"The project lacks {to_add(findings)}{in_brackets(first.reason.because)}"
    text = reason_text(first, writer)
    return text[:1].upper() + text[1:]


def remedy_of(finding: Finding) -> str:
    """What to do, as a sentence; nothing where the rule names none."""
    return f"Remedy: {closed(finding.remedy)}" if finding.remedy else ""


def subjects(findings: Iterable[Finding]) -> str:
    """The subjects of findings, the kind named once where they are of one kind: "wall W1, W2"."""
    kinds: dict[str, list[str]] = {}
    for finding in findings:
        marks = kinds.setdefault(ABOUT_LABELS.get(finding.about, finding.about), [])
        if finding.subject != finding.about:
            marks.append(finding.subject)
    return "; ".join(f"{kind} {', '.join(in_runs(marks))}".strip() for kind, marks in kinds.items())
