"""Findings are data: every kind of reason and change has its words in report, and no output takes a text apart."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import compliance.judging.set_reasons  # every kind of reason is defined in it or in what it imports
from compliance.checking import check_folder
from compliance.facts.common.coefficients import CoefficientStep
from compliance.findings import Reason
from compliance.remedies.changes import Change
from compliance.report.words import reason_words, remedy_words
from compliance.steps import Named, Source
from tests.conftest import EXAMPLE

PACKAGE = Path(__file__).parents[2] / "compliance"
ROOMS = ("output", "documents", "report", "drawings", "commands")

TAKES_APART = {
    "partition", "rpartition", "split", "rsplit", "splitlines", "removeprefix", "removesuffix", "startswith",
    "endswith", "find", "rfind",
}  # fmt: skip
"""Methods that take a text apart or look how it begins or ends."""

TEXTS = {"say", "says", "reason", "remedy", "because", "source", "clause", "title", "how", "why", "ask", "verdict"}
"""Attributes of findings, of what they hold and of worked lines that are texts."""

MAKES_TEXTS = {
    "reason_text", "reason_words", "reason_of", "missing_text", "missing_name", "to_add", "change_words", "remedy_of",
    "format_result", "written", "write", "line",
}  # fmt: skip
"""Functions that make such texts."""

ALLOWED = {
    "output/checklist/workbook": "what a spreadsheet would run as a formula, characters XML refuses, lines of a cell",
    "output/files/new_rules": "the first line of a template",
    "output/files/write_targets": "names of files, and the first bytes of files that stand there",
    "documents/attachments/attachment_pages": "the lines of a text file that is attached",
    "documents/attachments/pdf_inspection": "the message of the library that reads PDF",
    "documents/attachments/pictures": "the mode of a picture",
    "documents/lone_drawings/svg_canvas": "operators of a page, names of typefaces",
    "documents/page/column_widths": "breaks lines",
    "documents/page/line_breaking": "breaks lines",
    "documents/plots/triangle_drawing": "breaks lines",
    "drawings/common/lettering": "breaks lines",
    "report/mark_runs": "counts marks: W1 to W5",
    "report/revisions/findings_data": "what a spreadsheet would run as a formula",
    "report/revisions/older_words": "ids in sentences of records, of which earlier versions kept no data",
    "report/value_words": "sets the stop that a text lacks, and hyphens of a project's words",
    "report/words/plain_missing": "the label of a fact, whose last words may be its subject",
    "commands/common/rule_source": "whether a name is that of a file",
    "commands/common/shell_completion": "what is typed, and files that may be half written",
    "commands/confirm": "a cell of a table as it is typed: ROW,COLUMN",
}
"""Modules that work on letters, not on what they say; each with what it works on."""


def taken_apart(tree: ast.AST) -> Iterator[str]:
    """Where a module takes a text apart: one of the methods, a regular expression, or a look for words within a text of
    a finding. Bytes are no text; `split(width, height)` is that of a part of a page."""
    for node in ast.walk(tree):
        match node:
            case ast.Import() if any(name.name == "re" for name in node.names):
                yield "regular expressions"
            case ast.ImportFrom(module="re"):
                yield "regular expressions"
            case ast.Call(func=ast.Attribute(attr=name), args=args) if name in TAKES_APART:
                is_bytes = args and all(isinstance(one, ast.Constant) and isinstance(one.value, bytes) for one in args)
                is_layout = name == "split" and len(args) == 2
                if not is_bytes and not is_layout:
                    yield f"line {node.lineno}: {ast.unparse(node)}"
            case ast.Compare(ops=[ast.In() | ast.NotIn()], comparators=[searched]) if is_text(searched):
                yield f"line {node.lineno}: {ast.unparse(node)}"


def is_text(node: ast.expr) -> bool:
    match node:
        case ast.Attribute(attr=name):
            return name in TEXTS
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)):
            return name in MAKES_TEXTS
    return False


@cache
def places() -> dict[str, list[str]]:
    """By module, where it takes a text apart."""
    found = {}
    for room in ROOMS:
        for path in sorted((PACKAGE / room).rglob("*.py")):
            if here := list(taken_apart(ast.parse(path.read_text(encoding="utf-8")))):
                found[path.relative_to(PACKAGE).with_suffix("").as_posix()] = here
    return found


def test_no_output_takes_a_sentence_apart() -> None:
    assert {module: where for module, where in places().items() if module not in ALLOWED} == {}


def test_nothing_is_allowed_that_does_not_happen() -> None:
    assert ALLOWED.keys() - places().keys() == set()


@pytest.mark.parametrize(
    "text",
    [
        'name = finding.say.split(". ")[0]',
        "import re",
        "from re import sub",
        'if step.says.startswith("Coefficient, "): pass',
        'taken = "not stated" in step.says',
        "said = say not in format_result(finding, writer)",
        'doubtful = any(word in step.source for word in ("recalled",))',
    ],
)
def test_taking_apart_is_seen(text: str) -> None:
    assert list(taken_apart(ast.parse(text)))


@pytest.mark.parametrize(
    "text", ['data.startswith(b"%PDF")', "sheet.split(width, height)", "finding.rule in rules", "mark in finding.marks"]
)
def test_other_work_is_left_alone(text: str) -> None:
    assert not list(taken_apart(ast.parse(text)))


def kinds(of: type[Reason]) -> Iterator[type[Reason]]:
    for kind in of.__subclasses__():
        yield kind
        yield from kinds(kind)


def test_every_reason_has_its_words_and_a_code_of_its_own() -> None:
    found = {kind for kind in kinds(Reason) if kind.__module__.startswith("compliance.")}
    assert found == set(reason_words.WORDS) and compliance.judging.set_reasons.NoRows in found
    codes = [kind.code for kind in found]
    assert all(codes) and len(set(codes)) == len(codes)


def test_every_change_has_its_words() -> None:
    assert set(Change.__args__) == set(remedy_words.WORDS)


def test_a_source_that_calls_itself_doubtful_is_doubtful_as_data() -> None:
    """Whether a source is to be doubted is handed on; its own words only check here that none gets lost."""
    steps = {step for finding in check_folder(EXAMPLE).findings if finding.kind != "attest" for step in finding.steps}
    doubtful = [step for step in steps if isinstance(step.source, Source) and step.source.is_doubtful]
    words = ("recalled", "reported", "common practice", "no source")
    lost = {step.source for step in steps if any(word in step.source for word in words)} - {
        step.source for step in doubtful
    }
    assert lost == set() and len(doubtful) > 100
    assert all(step.standing and step.name for step in steps if isinstance(step, CoefficientStep))


def test_texts_keep_the_marks_they_name() -> None:
    said = Named("{} lifts the top of {}", "R1", "W2")
    assert said == "R1 lifts the top of W2" and said.marks == ("R1", "W2")
    assert said.without(frozenset({"W2"}), "…") == "R1 lifts the top of …"
    with pytest.raises(ValueError, match=r"shorter|longer"):
        Named("Length of {}")
