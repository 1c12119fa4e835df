"""Where the cases of a rule lie against its limits: exactly at them, just inside, just outside, and in which units."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cache

from compliance.facts.catalogue import FACTS
from compliance.files.shipped import shipped
from compliance.judging.examples import filled_in
from compliance.reading.rule_files.rule_cases import cases_beside, read_cases
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.record import record
from compliance.rules.case_schema import CasesText, CaseText
from compliance.rules.formulas.comparisons import value_left
from compliance.rules.formulas.nodes import Compare, Name, Node, Value, walk
from compliance.rules.formulas.numbers import number
from compliance.rules.limit_values import plain_value
from compliance.rules.rule_checks import COVER_COUNTS, RESULT_KINDS
from compliance.rules.rule_set import Rule
from compliance.rules.tables import Table, weights
from compliance.units import KINDS

JUST = 0.01
SAME = 1e-9
US_UNITS = ("in", "ft", "ft2", "ft3", "psi", "psf", "pcf", "plf", "lbf", "lbf*ft", "mph", "perms", "psi/min", "lbf/min",
            "Btu/(ft2*F)", "ft2*h*F/Btu", "Btu/(h*ft2*F)")  # fmt: skip
SI_UNITS = (
    "kN*m",
    "mm",
    "cm",
    "m",
    "m2",
    "m2*K/W",
    "kJ/(m2*K)",
    "W/(m2*K)",
    "m3",
    "MPa",
    "kPa",
    "kg/m3",
    "kN/m",
    "kN",
    "N/mm2",
    "m/s",
    "ng/(Pa*s*m2)",
    "MPa/min",
    "N/min",
)

Cell = tuple[int, int]


@cache
def case_file(name: str) -> CasesText:
    path = cases_beside(shipped("rulesets") / f"{name}.yaml")
    return read_cases(path, f"rulesets/cases/{path.name}")[0]


@cache
def cases_of(rule_set: str) -> dict[str, list[CaseText]]:
    """The cases of a shipped rule set by rule."""
    found: dict[str, list[CaseText]] = {}
    for case in case_file(rule_set).cases:
        found.setdefault(case.rule, []).append(case)
    return found


@cache
def rules_of(rule_set: str) -> dict[str, Rule]:
    return {rule.id: rule for rule in read_shipped(rule_set).rules}


@record
class Position:
    """Where one case lies against one comparison. `side` is "at", "inside" or "outside", empty where it is further
    off; `cell` is that of the table in the comparison that counts here."""

    side: str
    systems: frozenset[str]
    cell: Cell | None


def kind_of(rule: Rule, name: str) -> str:
    if name in FACTS:
        return FACTS[name].kind
    if rule.test and name == "result":
        return RESULT_KINDS[rule.test.of]
    if name in ("specimens", *COVER_COUNTS):
        return "count"
    return rule.limits[name].kind if name in rule.limits else rule.tables[name].kind


def names(node: Node) -> list[str]:
    return [part.name for part in walk(node) if isinstance(part, Name)]


def comparisons(rule: Rule) -> Iterator[Compare]:
    """Every comparison of numbers in the rule, the value left and what it is held against right."""
    for formula in (rule.when, rule.check):
        for node in walk(formula.root) if formula else ():
            if isinstance(node, Compare) and all(kind_of(rule, name) in KINDS for name in names(node)):
                yield value_left(node)


def in_two_systems(rule: Rule, node: Compare) -> bool:
    """True where a fact of the comparison is written in other units in the two systems."""
    kinds = [KINDS[kind_of(rule, name)] for name in names(node) if _is_fact(rule, name)]
    return any(kind.us and kind.us != kind.si for kind in kinds)


def _is_fact(rule: Rule, name: str) -> bool:
    return name not in rule.limits and name not in rule.tables


def position(rule: Rule, case: CaseText, node: Compare) -> Position | None:
    """None where the case does not say a fact of the comparison."""
    filled = filled_in(rule, case)
    values: dict[str, Value] = {name: limit.value for name, limit in filled.limits.items()}
    for name, given in case.given.items():
        if name != "answer" and given is not None and kind_of(rule, name) in KINDS:
            values[name] = plain_value(given, kind_of(rule, name))[0]
    cell = None
    for name in names(node):
        if name in filled.tables:
            cell = _cell(filled.tables[name], case, values)
            values[name] = filled.tables[name].cells[cell[0]][cell[1]] if cell else None
    value, limit = number(node.left)(values), number(node.right)(values)
    if value is None or limit is None:
        return None
    texts = [str(case.given[name]) for name in names(node) if name in case.given]
    counted = all(kind_of(rule, name) == "count" for name in names(node.left))
    return Position(_side(value, limit, node.relation, 1 if counted else JUST * abs(limit)), _systems(texts), cell)


def _side(value: float, limit: float, relation: str, reach: float) -> str:
    if math.isclose(value, limit, rel_tol=SAME):
        return "at"
    if abs(value - limit) > reach:
        return ""
    inside = value < limit if relation in ("<=", "<") else value > limit
    return "inside" if inside and relation not in ("==", "!=") else "outside"


def _systems(texts: Sequence[str]) -> frozenset[str]:
    units = {text.rpartition(" ")[2] for text in texts if " " in text}
    unknown = units - {*US_UNITS, *SI_UNITS, "%", "deg", "h", "min", "days", "m/s2"}
    assert not unknown, f"say of {unknown} which system they belong to"
    found = [name for name, known in (("us", US_UNITS), ("si", SI_UNITS)) if units & set(known)]
    return frozenset(found)


def _cell(table: Table, case: CaseText, values: dict[str, Value]) -> Cell | None:
    """The cell that stands for the facts of the case; None beyond the table or where a fact is lacking."""
    found = []
    for axis in (table.rows, table.columns):
        if axis is None:
            found.append(0)
            continue
        entry = values.get(axis.fact) if axis.numeric else str(case.given.get(axis.fact))
        picked = weights(axis, entry, linear=False) if isinstance(entry, (float, str)) else None
        if picked is None:
            return None
        found.append(picked[0][0])
    return found[0], found[1]


def known_cells(rule: Rule, node: Compare) -> list[Cell | None]:
    """The cells whose values the comparison uses; one None where it uses no table, or one that is all open."""
    for name in names(node):
        if name in rule.tables and not rule.tables[name].wholly_open:
            cells = rule.tables[name].cells
            return [(i, j) for i, line in enumerate(cells) for j, cell in enumerate(line) if cell is not None]
    return [None]
