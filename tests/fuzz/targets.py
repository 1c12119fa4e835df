"""What is fuzzed. A target takes any bytes and returns True where they were read as sound, False where they were
refused as documented. Any other exception, an undocumented answer or a value that no rule may see is a failure.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from compliance.documents.attachments.pdf_inspection import read_letter
from compliance.documents.attachments.pictures import read_picture
from compliance.model.lab_columns import COLUMNS
from compliance.problems import Problem, ProblemsFound
from compliance.reading.tables.csv_table import parse_csv_table
from compliance.reading.tables.xlsx_table import xlsx_cells
from compliance.reading.yaml.placed import place_of
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import MOST_PROBLEMS, RefusedError
from compliance.rules.formulas.formula import FormulaError, FormulaUndefined, parse
from compliance.rules.formulas.types import ListType, NumberType, TextType, Type, YesNoType
from compliance.rules.vocabulary import facts_for
from compliance.units import KINDS, MeasureError, kind_of_text, parse_measure
from tests.fuzz.packing import packed
from tests.fuzz.whole_project import whole_project
from tests.fuzz.whole_rules import amendments, rule_set

Target = Callable[[bytes], bool]

LONGEST_MESSAGE = 2_000


class NotAsPromisedError(AssertionError):
    """A target's own finding: something was answered, but not as promised."""


def measures(data: bytes) -> bool:
    """A text is a finite measure of a kind, or a MeasureError that says what to write instead."""
    text = data.decode("utf-8", "replace")
    sound = False
    for kind in KINDS.values():
        try:
            found = parse_measure(text, kind)
        except MeasureError as error:
            _told(error.code, error.wrong, error.instead)
            continue
        sound = True
        if not math.isfinite(found.si) or (found.si < 0 and not kind.negative):
            raise NotAsPromisedError(f"{text!r} was read as {found.si} of kind {kind.name}")
        if parse_measure(found.text, kind) != found:
            raise NotAsPromisedError(f"{found.text!r} is not read back as itself")
    guessed = kind_of_text(text)
    if guessed is not None and guessed not in KINDS:
        raise NotAsPromisedError(f"{text!r} is said to be of kind {guessed}")
    return sound


def yaml(data: bytes) -> bool:
    """A text is one mapping, or problems each with a place in the text."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        tree = parse_yaml(text, "fuzz.yaml")
    except ProblemsFound as found:
        _placed(found.problems, text)
        return False
    place = place_of(tree, ("no such key",))
    if place.file != "fuzz.yaml" or place.line < 1:
        raise NotAsPromisedError(f"a missing key has the place {place}")
    return True


FORMULA_TYPES: dict[str, Type] = {
    **{name: found for about in ("wall", "opening", "pier", "set") for name, found in facts_for(about).items()},
    "least": NumberType(KINDS["length"].dimension, "length"),
    "most": NumberType(KINDS["ratio"].dimension, "ratio"),
    "allowed": ListType(TextType(("cob", "adobe"))),
}
_SAMPLES = (0.0, -1.0, 1e-300, 0.3048, 1e300, math.inf, math.nan)


def formulas(data: bytes) -> bool:
    """A text is a formula whose every value is finite, or a FormulaError at a character of it."""
    text = data.decode("utf-8", "surrogateescape")
    try:
        formula = parse(text)
        formula.check(FORMULA_TYPES)
    except FormulaError as error:
        _told(error.code, error.wrong, error.instead or "nothing")
        if not 0 <= error.offset <= len(text):
            raise NotAsPromisedError(f"the place {error.offset} lies outside {text!r}") from error
        return False
    value_of = formula.compile()
    for turn in range(len(_SAMPLES)):
        values = {name: _sample(FORMULA_TYPES[name], turn + at) for at, name in enumerate(sorted(formula.names))}
        try:
            found = value_of(values)
            formula.explain(values, {}, _kinds(formula.names))
        except FormulaUndefined:
            continue
        if isinstance(found, float) and not math.isfinite(found):
            raise NotAsPromisedError(f"{text!r} gives {found}")
    return True


def _kinds(names: Iterable[str]) -> dict[str, str]:
    kinds = {}
    for name in names:
        found = FORMULA_TYPES[name]
        if isinstance(found, NumberType):
            kinds[name] = found.kind or "ratio"
    return kinds


def _sample(kind: Type, turn: int) -> float | str | bool | frozenset[str] | None:
    if turn % 5 == 4:
        return None
    match kind:
        case NumberType():
            return _SAMPLES[turn % len(_SAMPLES)]
        case YesNoType():
            return turn % 2 == 0
        case ListType():
            return frozenset({"cob"})
        case TextType(choices=choices):
            return choices[turn % len(choices)] if choices else "word"


def tables(data: bytes) -> bool:
    """A lab table is rows of finite values, or problems each with a place in the text."""
    text = data.decode("utf-8", "surrogateescape")
    sound = False
    for columns in COLUMNS.values():
        try:
            rows = parse_csv_table(text, "fuzz.csv", columns)
        except ProblemsFound as found:
            _placed(found.problems, text)
            continue
        sound = True
        for row in rows:
            row.place_of("width")
    return sound


def workbooks(data: bytes) -> bool:
    """A workbook, or the parts that one is packed of, is cells of text, or problems."""
    try:
        found = xlsx_cells(
            data if data.startswith(b"PK") else packed(data), shown="fuzz.xlsx", sheet=None, first=None, last=None
        )
    except ProblemsFound as refused:
        _placed(refused.problems, None)
        return False
    except RefusedError as error:
        raise NotAsPromisedError("a refusal without a place") from error
    _placed(found.found, None)
    return not found.found


def attachments(data: bytes) -> bool:
    """A PDF or a picture is looked over and taken, or refused."""
    try:
        (read_letter if data[:1] == b"%" else read_picture)(data)
    except RefusedError as error:
        _told(error.code, error.wrong, error.instead)
        return False
    return True


def _placed(problems: Iterable[Problem], text: str | None) -> None:
    listed = list(problems)
    if len(listed) > MOST_PROBLEMS + 1:
        raise NotAsPromisedError(f"{len(listed)} problems at once")
    for problem in listed:
        _told(problem.code, problem.wrong, problem.instead or "nothing")
        lines = None if text is None else text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        if lines is not None and not 0 <= problem.place.line <= lines:
            raise NotAsPromisedError(f"{problem.place} lies outside a text of {lines} lines")


def _told(code: str, wrong: str, instead: str) -> None:
    """A problem has a code, and words of a length that a person reads."""
    if not code or not wrong or not instead or len(wrong) + len(instead) > LONGEST_MESSAGE:
        raise NotAsPromisedError(f"{code}: {len(wrong)} and {len(instead)} characters are said")


TARGETS: dict[str, Target] = {
    "measures": measures,
    "yaml": yaml,
    "formulas": formulas,
    "tables": tables,
    "workbooks": workbooks,
    "attachments": attachments,
    "rules": rule_set,
    "amendments": amendments,
    "project": whole_project,
}
