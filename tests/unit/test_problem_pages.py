"""Every problem has a page, and the wrong example of a page makes just that problem, the right one none."""

from __future__ import annotations

import ast
import io
import re
import subprocess
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from compliance.checking import check_folder
from compliance.commands.common.attachment_binding import read_attachments
from compliance.editing.assignments import edit_of, read_assignments
from compliance.files.safe_paths import inside
from compliance.linting.lint_rule_set import lint_file
from compliance.output.terminal.problem_text import marked, problems_text
from compliance.problem_pages.pages import Page, all_pages, page_text
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.issued_records import read_issued
from compliance.reading.rule_files.rule_library import read_rule_set
from compliance.reading.source_lines import read_source_lines
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import RefusedError
from compliance.rules.formulas.formula import parse
from compliance.rules.formulas.nodes import FormulaError
from compliance.rules.formulas.types import YesNoType, number_of_kind
from compliance.rules.vocabulary import facts_for
from compliance.start.interview.trial_reading import new_project
from compliance.start.interview.unattended import answers_of
from compliance.start.shapes.wall_table import read_wall_table
from compliance.units import MeasureError, measure
from tests.conftest import ROOT, RULE_SET
from tests.package_sources import tree_of
from tests.running import run_tool

PAGES = all_pages()
EXAMPLES = [page for page in PAGES.values() if page.of]

SECTIONS = {
    "project": "project: {name: Trial, date: 2026-12-30}\n",
    "jurisdiction": "jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}\n",
    "soils": "soils: {S1: {name: clay}}\n",
    "mixes": "mixes: {M1: {name: mix, parts: {S1: 1}}}\n",
    "test_sets": "test_sets:\n  T1: {kind: compression, mix: M1}\n  T2: {kind: rupture, mix: M1}\n"
    "  T3: {kind: shrinkage, mix: M1}\n",
    "walls": "walls:\n  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1}\n",
}
RULES = (
    RULE_SET
    + """\
  - {id: thick-enough, title: Thickness, clause: T1, about: wall, say: Thick enough.,
     check: wall.least_thickness >= least, limits: {least: {value: 10 in, standing: read, source: trial}}}
  - {id: of-stone, title: Stem wall, clause: T2, about: stem, say: Of stone., check: stem.material in allowed,
     limits: {allowed: {value: [stone], standing: read, source: trial}}}
"""
)
FILES = {
    "rules.yaml": RULES,
    "like.yaml": RULES.replace("rule_set: trial", "rule_set: cob-practice"),
    "more.yaml": "stems: {ST9: {material: stone}}\n",
    "lab/theirs.csv": "Group,No.,L1\nT3,a,24\n",
    "lab/letter.csv": "The laboratory,\nGroup,No.\nT3,a1\n",
    "lab/bars.csv": "Group,No.\nT3,a1\nT3,a2\nmean,\n",
}  # fmt: skip
ANSWERS = """\
name: Trial
place: Nowhere
rule_sets: cob-practice
length: 24 ft
width: 16 ft
height: 8 ft
thickness: 16 in
"""


def folder_with(folder: Path, text: str = "", files: dict[str, str] | None = None) -> Path:
    """A sound project with the sections of `text` in place of its own."""
    named = re.findall(r"^(\w+):", text, re.MULTILINE)
    whole = "".join(held for name, held in SECTIONS.items() if name not in named) + text
    for name, content in {"project.yaml": whole, **FILES, **(files or {})}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(content, encoding="utf-8")
    return folder


def _project(folder: Path, text: str, what: str) -> None:
    check_folder(folder_with(folder, text))


def _csv(folder: Path, text: str, what: str) -> None:
    check_folder(folder_with(folder, files={f"lab/{what}.csv": text}))


def _doubt(folder: Path, text: str, what: str) -> None:
    """What is only warned of in a table of the laboratory."""
    warnings = check_folder(folder_with(folder, files={f"lab/{what}.csv": text})).warnings
    if found := [one for one in warnings if one.code.startswith("lab-")]:
        raise ProblemsFound(found)


def _amendment(folder: Path, text: str, what: str) -> None:
    check_folder(folder_with(folder, "amendments: [local.yaml]\n", {"local.yaml": text}))


def _what_if(folder: Path, text: str, what: str) -> None:
    check_folder(folder_with(folder), edit_of(read_assignments([text])))


def _rule_set(folder: Path, text: str, what: str) -> None:
    (folder / "set.yaml").write_text(text, encoding="utf-8")
    read_rule_set(folder / "set.yaml", "set.yaml")


def _rules(folder: Path, text: str, what: str) -> None:
    _rule_set(folder, RULE_SET + "".join(f"  {line}\n" for line in text.splitlines()), what)


def _linted(folder: Path, text: str, what: str) -> None:
    (folder / "set.yaml").write_text(RULE_SET + "".join(f"  {line}\n" for line in text.splitlines()), encoding="utf-8")
    if found := lint_file(folder / "set.yaml"):
        raise ProblemsFound(found)


def _formula(folder: Path, text: str, what: str) -> None:
    types = facts_for(what) | {"most": number_of_kind("length"), "ratio": number_of_kind("ratio")}
    if not isinstance(parse(text).check(types), YesNoType):
        raise FormulaError("formula-type", "", "", 0)


def _wall_table(folder: Path, text: str, what: str) -> None:
    (folder / "walls.csv").write_text(text, encoding="utf-8")
    read_wall_table(folder / "walls.csv")


_UNASKED = {
    "begin: earth": ["place", "rule_sets", "length", "width", "height", "thickness"], "length: round": ["width"],
    "length: lines": ["width"],
}  # fmt: skip
"""Answers that nobody asks for after another."""


def _answers(folder: Path, text: str, what: str) -> None:
    named = re.findall(r"^(\w+):", text, re.MULTILINE)
    named += [key for words, keys in _UNASKED.items() if words in text for key in keys]
    base = "".join(line for line in ANSWERS.splitlines(True) if line.partition(":")[0] not in named)
    answers_of(parse_yaml(base + text, "answers"), new_project(date(2026, 1, 2)))


READ: dict[str, Callable[[Path, str, str], None]] = {
    "yaml": lambda folder, text, what: void(parse_yaml(text, "example.yaml")),
    "measure": lambda folder, text, what: void(measure(text, what)),
    "path": lambda folder, text, what: void(inside(folder, text)),
    "project": _project, "csv": _csv, "doubt": _doubt,
    "amendment": _amendment, "what-if": _what_if, "rule": _rule_set, "rules": _rules,
    "linted": _linted, "formula": _formula, "wall": _wall_table, "answers": _answers,
}  # fmt: skip


def void(value: object) -> None:
    """For readers whose value is of no interest."""


def codes(folder: Path, page: Page, text: str) -> set[str]:
    reader, _, what = page.of.partition(" ")
    try:
        READ[reader](folder, text, what)
    except ProblemsFound as found:
        return {problem.code for problem in found.problems}
    except (RefusedError, MeasureError, FormulaError) as refused:
        return {refused.code}
    return set()


@pytest.mark.parametrize("page", EXAMPLES, ids=lambda page: page.code)
def test_the_wrong_example_makes_just_this_problem(tmp_path: Path, page: Page) -> None:
    assert codes(tmp_path, page, page.wrong) == {page.code}


@pytest.mark.parametrize("page", EXAMPLES, ids=lambda page: page.code)
def test_the_right_example_makes_none(tmp_path: Path, page: Page) -> None:
    assert codes(tmp_path, page, page.right) == set()


RAISERS = {
    "Problem": 1, "RefusedError": 0, "refuse": 0, "_custom": 0, "MeasureError": 0, "FormulaError": 0,
    "RefusedChangeError": 0, "RefusedLimitError": 0, "PydanticCustomError": 0, "_found": 1, "_report": 1, "problem": 1,
    "at_most": 1,
}  # fmt: skip
"""What puts a code into a problem, and which argument is the code."""

PREFIXES = ("yaml", "csv", "xlsx", "attachment")
CODE = re.compile(r"[a-z]+(-[a-z]+)*")
FROM_PYDANTIC = {
    "greater-than", "greater-than-equal", "less-than-equal", "too-short", "too-long", "string-too-short",
    "string-too-long", "bool-type",
}  # fmt: skip
"""Kinds of errors that the constraints of the models can give and that are passed on under their own name."""


def codes_in(tree: ast.AST) -> set[str]:
    """Every code that a module can put into a problem, so far as it stands in the source."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
            at = RAISERS.get(name)
            if at is not None and len(node.args) > at:
                found |= _spelled(node.args[at])
        elif isinstance(node, ast.Assign):
            names = {target.id for target in node.targets if isinstance(target, ast.Name)}
            if names & {"code", "_SYNTAX"}:
                found |= _spelled(node.value)
            if "_OTHER_CODES" in names and isinstance(node.value, ast.Tuple):
                found |= {
                    code for row in node.value.elts if isinstance(row, ast.Tuple) for code in _spelled(row.elts[1])
                }
        elif isinstance(node, ast.AnnAssign) and getattr(node.target, "id", "") == "_OTHER_CODES":
            rows = node.value.elts if isinstance(node.value, ast.Tuple) else []
            found |= {code for row in rows if isinstance(row, ast.Tuple) for code in _spelled(row.elts[1])}
    return found


def _spelled(node: ast.expr) -> set[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.fullmatch(node.value):
        return {node.value}
    if isinstance(node, ast.JoinedStr) and len(node.values) == 2 and isinstance(node.values[1], ast.Constant):
        return {f"{prefix}{node.values[1].value}" for prefix in PREFIXES}
    if isinstance(node, ast.IfExp):
        return _spelled(node.body) | _spelled(node.orelse)
    return set()


NO_PROBLEM = {"side", "xlsx-encoding"}
"""A word by which errors of shipped reference tables name their part: our own slip, not a user's. A workbook is never
decoded as one text."""


def test_every_problem_has_a_page() -> None:
    used: set[str] = set(FROM_PYDANTIC)
    for path in (ROOT / "compliance").rglob("*.py"):
        if path.is_relative_to(ROOT / "compliance" / "facts"):  # these raise nothing that a user sees
            continue
        if path.name in ("reasons.py", "set_reasons.py"):  # codes of reasons, which are no problems
            continue
        used |= codes_in(tree_of(path))
    assert len(used) > 150
    assert sorted(used - PAGES.keys() - NO_PROBLEM) == [], "these codes have no page in compliance/problem_pages/"
    assert sorted(PAGES.keys() - used) == [], "these pages explain codes that no longer exist"


IN_WORDS = [code for code, page in PAGES.items() if not page.of]
"""What no short text can show: large, damaged, hidden or linked files, and what only several files make."""


def test_what_is_shown_in_words_is_made_by_a_test() -> None:
    """Some test of this folder or of the hostile ones names the code as what it gets."""
    texts = [
        path.read_text(encoding="utf-8", errors="replace")
        for path in sorted((ROOT / "tests").rglob("*"))
        if path.suffix in (".py", ".csv") and path != Path(__file__)
    ]
    whole = "\n".join(texts) + "\n".join(MADE)
    missing = [code for code in IN_WORDS if not re.search(rf"(?<![a-z-]){re.escape(code)}(?![a-z-])", whole)]
    assert missing == []
    assert len(IN_WORDS) < len(PAGES) / 3


def _issued_record(folder: Path) -> None:
    (folder / "issued").mkdir()
    (folder / "issued" / "A.json").write_text("{}", encoding="utf-8")
    read_issued(folder)


def _rule_set_size(folder: Path) -> None:
    """Nine files, each below the most that one may hold."""
    names = [f"{letter}.yaml" for letter in "abcdefghi"]
    for name in names:
        blank = "#" + "x" * 99 + "\n"
        (folder / name).write_text(RULES.replace("rule_set: trial", f"rule_set: {name[0]}") + blank * 9_000)
    text = f"jurisdiction: {{name: Nowhere, rule_sets: [{', '.join(names)}]}}\n"
    check_folder(folder_with(folder, text))


def _attachment_nul(folder: Path) -> None:
    (folder / "notes.txt").write_bytes(b"soil\0 report\n")
    read = check_folder(folder_with(folder, "attachments: {A1: {file: notes.txt, title: Notes}}\n"))
    read_attachments(folder, read.project)


def _xlsx_nul(folder: Path) -> None:
    """A letter of a cell overwritten inside the packed sheet."""
    book = openpyxl.Workbook()
    for row in (["mark", "from x [ft]"], ["MARK", "1"]):
        book.active.append(row)
    whole, damaged = io.BytesIO(), io.BytesIO()
    book.save(whole)
    with zipfile.ZipFile(whole) as old, zipfile.ZipFile(damaged, "w") as new:
        for name in old.namelist():
            new.writestr(name, old.read(name).replace(b"MARK", b"M\0RK"))
    (folder / "walls.xlsx").write_bytes(damaged.getvalue())
    read_wall_table(folder / "walls.xlsx")


def _bool_type(folder: Path) -> None:
    """Told beside the problem that the value is of no kind at all."""
    text = RULES.replace("{value: 10 in, standing", "{value: {most: 8 ft}, standing")
    _rule_set(folder, text, "")


MADE: dict[str, Callable[[Path], None]] = {
    "issued-record": _issued_record, "rule-set-size": _rule_set_size, "attachment-nul": _attachment_nul,
    "xlsx-nul": _xlsx_nul, "bool-type": _bool_type,
}  # fmt: skip


@pytest.mark.parametrize("code", MADE)
def test_a_problem_that_only_a_file_makes(tmp_path: Path, code: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        MADE[code](tmp_path)
    assert code in {problem.code for problem in found.value.problems}


def test_the_pages_are_whole() -> None:
    for page in PAGES.values():
        assert all((page.title, page.means, page.right)), page.code
        assert page.of.partition(" ")[0] in ("", *READ), page.code
        assert page.code in page_text(page, 80)


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return run_tool(*arguments, COLUMNS="80")


def test_the_command() -> None:
    assert "A measure without its unit [measure-no-unit]" in run("problem", "measure-no-unit").stdout
    assert "yaml-syntax" in run("problem").stdout
    wrong = run("problem", "measure-no-unti")
    assert wrong.returncode == 2 and "did you mean measure-no-unit?" in wrong.stderr


def test_a_problem_shows_its_line_with_a_mark(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, SECTIONS["walls"].replace("16 in", "16"))
    done = run("check", str(folder))
    lines = done.stderr.splitlines()
    assert lines[0].endswith("'16' has no unit [measure-no-unit]")
    at = lines[1].index("16, mix")
    assert lines[2] == " " * at + "^"
    assert lines[3].strip() == "write for example 16 in, or 400 mm"


@pytest.mark.parametrize(
    ("text", "column", "width", "shown", "mark"),
    [
        ("name: x", 7, 40, "name: x", "      ^"),
        ("\tname: x", 2, 40, " name: x", " ^"),
        ("名前: x", 5, 40, "名前: x", "      ^"),
        ("a\u200bb", 3, 40, "a\N{WHITE SQUARE}b", "  ^"),
        ("0123456789" * 10, 51, 20, "0123456789" * 2, " " * 10 + "^"),
        ("short", 99, 40, "short", "     ^"),
    ],
)
def test_the_mark_stands_under_its_column(text: str, column: int, width: int, shown: str, mark: str) -> None:
    assert marked(text, column, width) == (shown, mark)


def test_problems_of_files_that_cannot_be_shown_have_no_line(tmp_path: Path) -> None:
    (tmp_path / "a.bin").write_bytes(b"\xff\xfe\x00")
    problems = [Problem(Place(str(tmp_path / name), 1, 1), "code", "wrong", "instead") for name in ("a.bin", "gone")]
    assert problems_text(problems, 80, read_source_lines).count("\n") == 4
