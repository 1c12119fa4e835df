"""What is lacking, in the words of a reader who never sees the project's files."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from compliance.facts.catalogue import FACTS
from compliance.findings import Finding, Lack, Missing
from compliance.judging.reasons import Lacks
from compliance.report.words.reason_words import in_brackets

_SECTIONS = {
    "walls": "wall", "roofs": "roof", "footings": "footing", "stems": "stem", "beams": "beam", "mixes": "mix",
    "soils": "soil", "test_sets": "test set", "openings": "opening", "loads": "concentrated load", "trials": "trial",
    "batches": "batch", "buttresses": "buttress", "wall_types": "wall type", "attachments": "attachment",
}  # fmt: skip
"""Sections of a project whose parts have marks."""
_FIELDS = {
    "shown_to_official": "date shown to the building official",
    "inspections": "record of inspection",
    "lab": "laboratory table",
    "capped": "capping of the specimens",
    "run": "line in the plan",
    "arc": "curve in the plan",
}
"""Fields whose names are not their words."""


def _field(*parts: str | int) -> str:
    """"eccentricity of concentrated load PL1, wall W5"."""
    owners: list[str] = []
    rest: list[str] = []
    section = ""
    for part in map(str, parts):
        if section:
            owners.append(f"{_SECTIONS[section]} {part}")
            section = ""
        elif part in _SECTIONS:
            section = part
        elif part not in ("project", "site", "people", "jurisdiction"):
            rest.append(part)
    name = _worded(owners, rest) if rest else _SECTIONS.get(section, section) or "description"
    of = ", ".join(reversed(owners))
    return f"{name} of {of}" if of else name


def _worded(owners: list[str], rest: list[str]) -> str:
    about = owners[-1].rsplit(" ", 1)[0] if owners else ""
    for fact in (f"{about}.{rest[-1]}", f"site.{rest[-1]}", f"project.{rest[-1]}"):
        if fact in FACTS:
            return FACTS[fact].label
    return " ".join(_FIELDS.get(one, one.replace("_", " ")) for one in rest)


def _test_set(kind: str | int, mix: str | int) -> str:
    return f"a {kind} test of mix {mix}" if kind else f"a test of mix {mix}"


_WORDS: Mapping[Lack, Callable[..., str]] = {
    Lack.FIELD: _field,
    Lack.TEST_SET: _test_set,
    Lack.PASSING_SET: lambda mix: f"a passing test of mix {mix}" if mix else "a passing test",
    Lack.ROWS: lambda *sets: f"results of test set {' or '.join(map(str, sets))}",
    Lack.CELLS: lambda columns, mark: f"{columns} of every specimen of test set {mark}",
    Lack.CELL: lambda columns, specimen, mark: f"{columns} of specimen {specimen}, test set {mark}",
    Lack.ANSWER: lambda rule, subject: f"an answer about {subject}",
}


def plain_missing(missing: Missing) -> str:
    """One thing that lacks, without a field's name or a file."""
    return _WORDS[missing.kind](*missing.parts)


def plain_list(findings: Iterable[Finding]) -> tuple[str, ...]:
    """All that findings lack, each once."""
    return tuple(dict.fromkeys(plain_missing(one) for finding in findings for one in finding.missing))


def plain_reason(finding: Finding) -> str:
    """Why a finding that lacks something is missing; empty for a finding whose reason is another."""
    if isinstance(finding.reason, Lacks) and finding.missing:
        return f"not given: {', '.join(plain_list([finding]))}{in_brackets(finding.reason.because)}"
    return ""
