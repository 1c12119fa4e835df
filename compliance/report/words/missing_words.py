"""What is lacking, and why the outcome is what it is, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from compliance.findings import Finding, Lack, Missing
from compliance.judging.reasons import Lacks, NotDue
from compliance.record import record, replace
from compliance.report.mark_runs import in_runs
from compliance.report.words.reason_words import in_brackets, reason_words
from compliance.units import Writer

_OWN = "*"
"""Stands for the marks of the subject itself, where lacks of several subjects are compared."""


def _field(*parts: str | int) -> str:
    return ".".join(map(str, parts))


def _test_set(kind: str | int, mix: str | int) -> str:
    return f"a {kind} set of mix {mix} under test_sets" if kind else f"a set of mix {mix} under test_sets"


_NAMES: Mapping[Lack, Callable[..., str]] = {
    Lack.FIELD: _field,
    Lack.TEST_SET: _test_set,
    Lack.PASSING_SET: lambda mix: f"a set of mix {mix} that passes under test_sets",
    Lack.ROWS: lambda *sets: f"rows of set {' or '.join(map(str, sets))}",
    Lack.CELLS: lambda columns, mark: f"{columns} of every specimen of {mark}",
    Lack.CELL: lambda columns, specimen, mark: f"{columns} of {specimen} in set {mark}",
    Lack.ANSWER: lambda rule, subject: f"rule {rule} about {subject} under attestations",
}


_UNDER = (Lack.TEST_SET, Lack.PASSING_SET, Lack.ANSWER)
"""What is written under a section of its own, which ends the name with a colon."""


def missing_name(missing: Missing, more_follow: bool = False) -> str:
    """Without its file: "walls.W3.mix"; `more_follow` in a list."""
    colon = ":" if missing.kind in _UNDER and not more_follow else ""
    return f"{_NAMES[missing.kind](*missing.parts)}{colon}"


def missing_text(missing: Missing) -> str:
    """With its file: "walls.W3.mix in walls.yaml"."""
    return f"{missing_name(missing)} in {missing.file}"


def missing_texts(finding: Finding) -> tuple[str, ...]:
    """Everything that a finding lacks, each with its file."""
    return tuple(map(missing_text, finding.missing))


def reason_text(finding: Finding, writer: Writer) -> str:
    """One sentence: why the outcome is what it is, in the units of `writer`."""
    return "; ".join((_main_reason(finding, writer), *(reason_words(one, writer) for one in finding.beside)))


def _main_reason(finding: Finding, writer: Writer) -> str:
    reason = finding.reason
    if isinstance(reason, NotDue) and isinstance(reason.held, Lacks) and finding.missing:
        held = _main_reason(replace(finding, reason=reason.held), writer)
        return f"due at stage {finding.stage.words}: {held}"
    if isinstance(reason, Lacks) and finding.missing:
        return f"the project lacks {', '.join(missing_texts(finding))}{in_brackets(reason.because)}"
    return reason_words(reason, writer)


def names_what_lacks(findings: Sequence[Finding]) -> bool:
    """Whether the reason of findings that say the same is no more than what they lack."""
    return isinstance(findings[0].reason, Lacks) and bool(findings[0].missing)


def without_own_marks(finding: Finding) -> tuple[Missing, ...]:
    """What is lacking, the marks of the subject itself left out, for comparing with other subjects."""
    marks = finding.marks

    def form(part: str | int) -> str | int:
        return _OWN if part in marks else part

    return tuple(replace(one, parts=tuple(map(form, one.parts))) for one in finding.missing)


@record
class _Form:
    kind: Lack
    parts: tuple[str | int, ...]


def to_add(findings: Iterable[Finding]) -> str:
    """The lacking fields, each file named once: "walls.W1.mix, walls.W2.mix in walls.yaml". What is lacking about
    several subjects alike stands once: "rule raft about W1 to W5 under attestations: in project.yaml"."""
    files: dict[str, dict[_Form, dict[str, None]]] = {}
    for finding in findings:
        for one in finding.missing:
            own = one.kind is not Lack.FIELD  # each field is written by itself
            parts = tuple(_OWN if own and part == finding.subject else part for part in one.parts)
            form = _Form(one.kind, parts)
            files.setdefault(one.file, {}).setdefault(form, {})[finding.subject] = None
    return "; ".join(f"{_listed(forms)} in {file}" for file, forms in files.items())


def _listed(forms: Mapping[_Form, Iterable[str]]) -> str:
    """Fields of several subjects are named one by one, for each is to be written; records alike are gathered."""
    names: list[str] = []
    for form, marks in forms.items():
        runs = ", ".join(in_runs(list(marks)))
        parts = tuple(runs if part == _OWN else part for part in form.parts)
        names.append(missing_name(Missing(form.kind, parts, ""), more_follow=len(names) < len(forms) - 1))
    return ", ".join(names)
