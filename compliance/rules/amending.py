"""Amendments laid over rule sets: each change checked, recorded, and never silently loosening anything."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.findings import Amended, Standing
from compliance.problems import Place, Problem
from compliance.record import record, replace
from compliance.rules.limit_values import Placed, RefusedLimitError, as_written, plain_value
from compliance.rules.rule_set import Limit, Rule, RuleSet
from compliance.rules.schema import AmendmentText, ChangeText, DropText, RuleSetText
from compliance.rules.tables import Table
from compliance.steps import Given

_SAME = 1e-9
_STRICTER = {"<": -1, "<=": -1, ">": 1, ">=": 1}  # which way a limit that stands alone gets stricter


@record
class AmendmentRecord:
    """One change for the register. `what` is "change", "drop" or "add"."""

    what: str
    rule_set: str
    rule: str
    title: str
    limit: str
    amended: Amended
    place: Place


class _RefusedChangeError(Exception):
    def __init__(self, code: str, wrong: str, instead: str, field: str) -> None:
        self.code, self.wrong, self.instead, self.field = code, wrong, instead, field
        super().__init__(wrong)


def amend(
    rule_sets: Sequence[RuleSet], text: AmendmentText | RuleSetText, placed: Placed, problems: list[Problem]
) -> tuple[tuple[RuleSet, ...], list[AmendmentRecord]]:
    """The rule sets with the changes and drops of one file applied, and a record of each.

    What is wrong goes into `problems`; a change that is refused is not applied. Added rules are compiled by
    the reader as a rule set of their own.
    """
    sets = {one.id: one for one in rule_sets}
    records: list[AmendmentRecord] = []
    entries: list[tuple[tuple[str, int], ChangeText | DropText]] = []
    entries += [(("changes", index), change) for index, change in enumerate(text.changes)]
    entries += [(("drops", index), drop) for index, drop in enumerate(text.drops)]
    for path, one in entries:
        try:
            rule = _find(sets, one)
            place = placed(path)
            changed, record = _changed(rule, one, place) if isinstance(one, ChangeText) else _dropped(rule, one, place)
        except _RefusedChangeError as refused:
            problems.append(Problem(placed((*path, refused.field)), refused.code, refused.wrong, refused.instead))
            continue
        rules = [changed if other is rule else other for other in sets[one.rule_set].rules]
        sets[one.rule_set] = replace(sets[one.rule_set], rules=tuple(other for other in rules if other))
        records.append(record)
    return tuple(sets[one.id] for one in rule_sets), records


def _find(sets: dict[str, RuleSet], one: ChangeText | DropText) -> Rule:
    if one.rule_set not in sets:
        known = ", ".join(sets)
        raise _RefusedChangeError(
            "amendment-rule-set", f"the project does not adopt {one.rule_set!r}", f"adopted: {known}", "rule_set"
        )
    for rule in sets[one.rule_set].rules:
        if rule.id == one.rule:
            return rule
    raise _RefusedChangeError(
        "amendment-rule", f"{one.rule_set} has no rule {one.rule!r}, or no longer has it",
        "see earthwall rules show, and correct or remove the amendment", "rule",
    )  # fmt: skip


def _dropped(rule: Rule, text: DropText, place: Place) -> tuple[None, AmendmentRecord]:
    amended = Amended(None, text.by, text.on.isoformat(), text.authority, text.reason)
    return None, AmendmentRecord("drop", rule.rule_set, rule.id, rule.title, "", amended, place)


def _changed(rule: Rule, text: ChangeText, place: Place) -> tuple[Rule, AmendmentRecord]:
    if text.limit in rule.tables:
        return _changed_cell(rule, rule.tables[text.limit], text, place)
    limit = rule.limits.get(text.limit)
    if limit is None:
        known = ", ".join((*rule.limits, *rule.tables)) or "none"
        raise _RefusedChangeError(
            "amendment-limit", f"{rule.id} has no limit {text.limit!r}", f"its limits: {known}", "limit"
        )
    if text.row is not None:
        raise _RefusedChangeError("amendment-cell", f"{text.limit} is no table", "remove row: and column:", "row")
    value = _value(text, limit.kind)
    _needs_reason(rule, limit, value, text)
    amended = _amended(limit.given, text)
    new = replace(
        limit,
        value=value,
        written=as_written(text.value),
        standing=Standing(text.standing),
        source=text.where,
        place=place,
    )
    new = replace(new, amended=amended.now(new.given))
    limits = {name: new if name == text.limit else old for name, old in rule.limits.items()}
    record = AmendmentRecord("change", rule.rule_set, rule.id, rule.title, text.limit, amended.now(new.given), place)
    return replace(rule, limits=limits), record


def _amended(before: Given | None, text: ChangeText) -> Amended:
    return Amended(before, text.by, text.on.isoformat(), text.authority or "", text.reason or "")


def _value(text: ChangeText, kind: str) -> float | str | bool | frozenset[str]:
    words = kind in ("word", "words", "yes-no")
    try:
        value, found = plain_value(text.value, None if words else kind)
    except RefusedLimitError as refused:
        code = "amendment-kind" if refused.code == "limit-kind" else refused.code
        raise _RefusedChangeError(code, refused.wrong, refused.instead, "value") from None
    if words and found != kind:
        raise _RefusedChangeError(
            "amendment-kind", f"{text.value!r} is no {kind}", "write the same kind of value", "value"
        )
    return value


def _needs_reason(rule: Rule, limit: Limit, value: object, text: ChangeText) -> None:
    """Only filling an open limit, confirming the same value and a change that can only tighten need none."""
    if limit.value is None or text.reason or _same(limit.value, value) or _tightens(rule, limit, value):
        return
    raise _RefusedChangeError(
        "amendment-reason",
        f"{text.limit} of {rule.id} would go from {limit.written} to {as_written(text.value)}, perhaps looser, "
        "without a reason", "add reason: and the authority for it", "value",
    )  # fmt: skip


def _same(old: object, new: object) -> bool:
    if isinstance(old, float) and isinstance(new, float):
        return abs(old - new) <= _SAME * max(abs(old), abs(new))
    return old == new


def _tightens(rule: Rule, limit: Limit, value: object) -> bool:
    """True where every comparison that uses the limit has it alone as the limit, and the new one is stricter. Of
    a value asked for exactly, none is."""
    if not isinstance(limit.value, float) or not isinstance(value, float) or rule.check is None or rule.test:
        return False
    if limit.name in (rule.when.names if rule.when else ()):
        return False
    comparisons = rule.check.comparisons()
    uses = [one for one in comparisons if limit.name in one.limit_text or limit.name in one.value_text]
    if not uses or any(one.limit_text.strip() != limit.name for one in uses):
        return False
    direction = 1 if value > limit.value else -1
    return all(_STRICTER.get(one.relation) == direction for one in uses)


def _changed_cell(rule: Rule, table: Table, text: ChangeText, place: Place) -> tuple[Rule, AmendmentRecord]:
    row, column, (line, *_) = text.row, text.column or 1, table.cells
    if row is None or row > len(table.cells) or column > len(line):
        size = f"{len(table.cells)} rows and {len(line)} columns"
        raise _RefusedChangeError(
            "amendment-cell", f"{text.limit} is a table of {size}", "name a row: and column: in it", "limit"
        )
    value = _value(text, table.kind)
    old = table.cells[row - 1][column - 1]
    if not isinstance(value, float):
        raise _RefusedChangeError("amendment-kind", f"{text.value!r} is no {table.kind}", "write a measure", "value")
    if old is not None and not text.reason and not _same(old, value):
        raise _RefusedChangeError(
            "amendment-reason", f"a cell of {text.limit} would change without a reason", "add reason:", "value"
        )
    cells = tuple(
        tuple(value if (i, j) == (row, column) else cell for j, cell in enumerate(line, 1))
        for i, line in enumerate(table.cells, 1)
    )
    standing = (
        Standing(text.standing)
        if table.wholly_open
        else max(table.standing, Standing(text.standing), key=lambda s: s.rank)
    )
    before = None if old is None else Given(text.limit, old, table.kind)
    amended = _amended(before, text)
    cell_name = f"{text.limit}, row {row}, column {column}"
    new = replace(
        table,
        cells=cells,
        standing=standing,
        source=f"{table.source}; {text.where}".strip("; "),
        amended=amended.now(Given(text.limit, f"{cell_name} changed", table.kind)),
    )
    tables = {name: new if name == text.limit else other for name, other in rule.tables.items()}
    now = amended.now(Given(text.limit, value, table.kind))
    return replace(rule, tables=tables), AmendmentRecord(
        "change", rule.rule_set, rule.id, rule.title, cell_name, now, place
    )
