"""Findings of one rule that say the same of several subjects, gathered so that they are printed once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding
from compliance.record import record
from compliance.report.calculations.calculation_lines import WorkedLine, worked_line
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import percent, relation, value_and_limit
from compliance.units import Writer

_OWN = "…"
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
        key = (figures(finding, writer), _lines(finding, writer), *words(finding))
        found.setdefault(key, []).append(finding)
    return [Alike(tuple(same), key[0], key[1]) for key, same in found.items()]  # type: ignore[arg-type]


def figures(finding: Finding, writer: Writer) -> Figures:
    value, limit = value_and_limit(finding, writer)
    if finding.value and finding.limit:
        limit = f"{relation(finding)} {limit}".strip()
    verdict = f"{finding.verdict} ({finding.standing.value})" if finding.standing else finding.verdict
    return Figures(mark_of(finding), value, limit, percent(finding.margin), verdict)


def _lines(finding: Finding, writer: Writer) -> tuple[WorkedLine, ...]:
    """The worked lines. A single comparison is left out where value, limit and margin already stand beside it."""
    steps = finding.steps
    compared = [step for step in steps if step.says == _COMPARED]
    if len(compared) == 1 and steps[-1] is compared[0] and finding.value and finding.limit:
        steps = steps[:-1]
    return tuple(worked_line(step, writer) for step in steps)


def words(finding: Finding) -> tuple[str, ...]:
    """Reason, remedy and lacking fields, the subject's own marks left out, for comparing."""
    reason = finding.reason
    for field in finding.missing:
        reason = reason.replace(field, _without_marks(field, finding))
    return reason, finding.remedy, *(_without_marks(field, finding) for field in finding.missing)


def _without_marks(field: str, finding: Finding) -> str:
    marks = {finding.wall, *finding.subject.split(".")}
    return " ".join(".".join(_OWN if part in marks else part for part in word.split(".")) for word in field.split(" "))


def reason_of(findings: Sequence[Finding]) -> str:
    """Why, as a sentence. Where each subject lacks a field of its own, the fields are named together."""
    first = findings[0]
    plain = first.reason == f"the project lacks {', '.join(first.missing)}"
    if plain or (len(findings) > 1 and any(field in first.reason for field in first.missing)):
        return f"The project lacks {to_add(findings)}"
    return first.reason[:1].upper() + first.reason[1:]


def remedy_of(finding: Finding) -> str:
    """What to do, as a sentence; nothing where the rule names none."""
    said = finding.remedy
    return f"Remedy: {said}" + ("" if said.endswith((".", "?", "!")) else ".") if said else ""


def to_add(findings: Iterable[Finding]) -> str:
    """The lacking fields, each file named once: "walls.W1.mix, walls.W2.mix in walls.yaml". What is lacking about
    several subjects alike stands once: "rule raft about W1 to W5 under attestations: in project.yaml"."""
    files: dict[str, dict[str, dict[str, None]]] = {}
    for finding in findings:
        for field in finding.missing:
            name, _, file = field.rpartition(" in ")
            form = " ".join(_OWN if word == finding.subject else word for word in name.split(" "))
            files.setdefault(file, {}).setdefault(form, {})[finding.subject] = None
    return "; ".join(f"{_listed(forms)} in {file}" for file, forms in files.items())


def _listed(forms: Mapping[str, Iterable[str]]) -> str:
    names = [form.replace(_OWN, ", ".join(in_runs(list(marks)))) for form, marks in forms.items()]
    *inner, last = names
    return ", ".join([*(name.removesuffix(":") for name in inner), last])


def subjects(findings: Iterable[Finding]) -> str:
    """The subjects of findings, the kind named once where they are of one kind: "wall W1, W2"."""
    kinds: dict[str, list[str]] = {}
    for finding in findings:
        marks = kinds.setdefault(ABOUT_LABELS.get(finding.about, finding.about), [])
        if finding.subject != finding.about:
            marks.append(finding.subject)
    return "; ".join(f"{kind} {', '.join(in_runs(marks))}".strip() for kind, marks in kinds.items())
