"""What is lacking, in the words of a reader who never sees the project's files."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Lacks as Lacking
from compliance.findings import Finding, Lack, Missing
from compliance.judging.reasons import Among, Lacks, NotDue, OpenLimits
from compliance.record import record
from compliance.report.mark_runs import in_runs
from compliance.report.value_words import as_words
from compliance.report.words.missing_words import reason_text
from compliance.report.words.reason_words import in_brackets, reason_words
from compliance.units import Writer

_SECTIONS = {
    "walls": "wall", "roofs": "roof", "footings": "footing", "stems": "stem wall", "beams": "bond beam", "mixes": "mix",
    "soils": "soil", "test_sets": "test set", "openings": "opening", "loads": "concentrated load", "trials": "trial",
    "batches": "batch", "buttresses": "buttress", "wall_types": "wall type", "attachments": "attachment",
}  # fmt: skip
"""Sections of a project whose parts have marks."""
_ABOUT = {"stem wall": "stem", "bond beam": "beam", "test set": "set"}
"""How facts name what a section describes, where it is not the same word."""
_WHOLE = ("project", "site", "people", "jurisdiction")
_FIELDS = {
    "shown_to_official": "date shown to the building official",
    "inspections": "record of inspection",
    "lab": "laboratory table",
    "capped": "capping of the specimens",
    "run": "line in the plan",
    "arc": "curve in the plan",
    "stem": "stem wall",
    "beam": "bond beam",
    "parts": "parts of the mix",
    "outside": "finish on the outside face",
    "inside": "finish on the inside face",
    "thrust_held_by": "what resists the thrust",
    "bears_load": "use for bearing loads",
    "braces": "use for bracing",
}
"""Fields whose names are not their words."""


@record
class PlainLack:
    """Something that lacks: `what` in words, and whose it is ("wall", "W5"); both empty for the project's own."""

    what: str
    kind: str = ""
    mark: str = ""


def _field(*parts: str | int) -> PlainLack:
    kinds: list[str] = []
    marks: list[str] = []
    rest: list[str] = []
    section = ""
    for part in map(str, parts):
        if section:
            kinds.append(section)
            marks.append(part)
            section = ""
        elif part in _SECTIONS:
            section = _SECTIONS[part]
        elif part not in _WHOLE:
            rest.append(part)
    kind = kinds[-1] if kinds else ""
    return PlainLack(_worded(kind, rest) if rest else section or "description", kind, ".".join(marks))


def _worded(kind: str, rest: list[str]) -> str:
    if rest[-1] in _FIELDS:
        return _FIELDS[rest[-1]]
    for about in (_ABOUT.get(kind, kind), "site", "project"):
        fact = f"{about}.{rest[-1]}"
        if fact in FACTS:
            return FACTS[fact].label
    return " ".join(one.replace("_", " ") for one in rest)


def _test_set(kind: str | int, mix: str | int) -> PlainLack:
    return PlainLack(f"a {kind} test" if kind else "a test", "mix", str(mix))


_WORDS: Mapping[Lack, Callable[..., PlainLack]] = {
    Lack.FIELD: _field,
    Lack.TEST_SET: _test_set,
    Lack.PASSING_SET: lambda mix: PlainLack("a passing test", "mix" if mix else "", str(mix)),
    Lack.ROWS: lambda *sets: PlainLack("results", "test set", " or ".join(map(str, sets))),
    Lack.CELLS: lambda columns, mark: PlainLack(f"{columns} of every specimen", "test set", str(mark)),
    Lack.CELL: lambda columns, specimen, mark: PlainLack(f"{columns} of specimen {specimen}", "test set", str(mark)),
    Lack.ANSWER: lambda rule, subject: PlainLack("an answer", "", str(subject)),
}


def plain_missing(missing: Missing) -> PlainLack:
    """One thing that lacks, without a field's name or a file."""
    return _WORDS[missing.kind](*missing.parts)


def plain_list(lacks: Iterable[PlainLack]) -> str:
    """Everything that lacks, what is alike said once: "bond beam of wall W1 to W4"."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for one in lacks:
        found.setdefault((one.what, one.kind), {})[one.mark] = None
    return "; ".join(_of(what, kind, list(marks)) for (what, kind), marks in found.items())


def _of(what: str, kind: str, marks: list[str]) -> str:
    named = f"{kind} {', '.join(in_runs([one for one in marks if one]))}".strip()
    if kind and what.endswith(f" the {kind}"):  # "organic matter in the soil" of soil S1
        return f"{what.removesuffix(f'the {kind}')}{named}"
    what = what.replace(f" of the {kind} ", " ")  # "exposure of the wall to rain" of wall W1
    return f"{what} of {named}" if named else what


def plain_reason(finding: Finding) -> str:
    """Why a finding that lacks something is missing; empty for a finding whose reason is another."""
    if isinstance(finding.reason, Lacks) and finding.missing:
        lacks = plain_list(map(plain_missing, finding.missing))
        return f"not given: {lacks}{in_brackets(finding.reason.because)}"
    return ""


def plain_lacking(lacks: Iterable[Lacking]) -> str:
    """The same of what a fact lacks."""
    return plain_list(plain_missing(one) if isinstance(one, Missing) else _field(*one) for one in lacks)


def plain_lacks(findings: Iterable[Finding]) -> str:
    """Everything that findings lack, for paper."""
    return plain_list(plain_missing(one) for finding in findings for one in finding.missing)


def plain_reasons(findings: Sequence[Finding], writer: Writer) -> str:
    """Why, as a sentence, for findings whose reason is one: without a field's name, a file, or the name that a rule set
    has for a limit."""
    first = findings[0]
    held = first.reason.held if isinstance(first.reason, NotDue) else first.reason
    if isinstance(held, Lacks) and first.missing:
        plain = f"not given: {plain_lacks(findings)}{in_brackets(held.because)}"
    elif isinstance(held, OpenLimits):
        where = "; ".join(dict.fromkeys(limit.read_in for limit in held.limits if limit.read_in))
        plain = f"the limit is not known here: to be read in the adopted copy{f' ({where})' if where else ''}"
    else:
        plain = ""
    if plain:
        due = f"due at stage {first.stage.words}: " if isinstance(first.reason, NotDue) else ""
        text = f"{due}{plain}" + "".join(f"; {reason_words(one, writer)}" for one in first.beside)
    else:
        text = reason_text(first, writer)
        text = as_words(text) if isinstance(held, Among) else text
    return text[:1].upper() + text[1:]
