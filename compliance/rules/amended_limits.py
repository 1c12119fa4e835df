"""One change of a limit or of a cell of a table: what it must hold to be taken, and the rule it makes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from compliance.findings import Amended, Standing, same_value
from compliance.problems import Place
from compliance.record import replace
from compliance.rules.file_schema import ChangeText
from compliance.rules.limit_values import RefusedLimitError, as_written, plain_value
from compliance.rules.rule_checks import refusals
from compliance.rules.rule_set import Limit, Plain, Rule, RuleSet
from compliance.rules.tables import Table
from compliance.rules.usual_values import doubt_about
from compliance.steps import Given

_STRICTER = {"<": -1, "<=": -1, ">": 1, ">=": 1}  # which way a limit that stands alone gets stricter
# A year as an edition has it: no part of a date, of a section or of a longer number.
_WORD = re.compile(r"\w+")
_YEAR = re.compile(r"(?<![0-9.-])(?:19|20)[0-9]{2}(?![0-9]|\.[0-9]|-[0-9]{2}\b)")


class RefusedChangeError(Exception):
    """Why a change is not taken; `field` is the field of the entry that is wrong."""

    def __init__(self, code: str, wrong: str, instead: str, field: str) -> None:
        self.code, self.wrong, self.instead, self.field = code, wrong, instead, field
        super().__init__(wrong)


def change_limit(rule_set: RuleSet, rule: Rule, text: ChangeText, place: Place) -> tuple[Rule, Amended]:
    """The rule with one limit or cell changed, and what was done. Raises RefusedChangeError: then the rule that would
    come of it could not be judged, the value is absurd, another edition was read, or a reason is lacking."""
    _refuse_other_edition(rule_set, text)
    changed, amended = _cell(rule, text) if text.limit in rule.tables else _limit(rule, text, place)
    for refused in refusals(changed):
        raise RefusedChangeError(refused.code, refused.wrong, refused.instead, "value")
    return changed, amended


def _limit(rule: Rule, text: ChangeText, place: Place) -> tuple[Rule, Amended]:
    limit = rule.limits.get(text.limit)
    if limit is None:
        known = ", ".join((*rule.limits, *rule.tables)) or "none"
        raise RefusedChangeError(
            "amendment-limit", f"{rule.id} has no limit {text.limit!r}", f"its limits: {known}", "limit"
        )
    if text.row is not None:
        raise RefusedChangeError("amendment-cell", f"{text.limit} is no table", "remove row: and column:", "row")
    value = _value(text, limit.kind)
    free = limit.value is None or same_value(limit.value, value) or _tightens(rule, limit, value)
    _refuse_doubtful(rule, old=limit.value, value=value, text=text, kind=limit.kind, written=limit.written, free=free)
    new = replace(
        limit, value=value, written=as_written(text.value), standing=Standing(text.standing), source=text.where,
        place=place,
    )  # fmt: skip
    amended = _amended(text, limit.given, new.given)
    new = replace(new, history=(*limit.history, amended))
    return replace(rule, limits={**rule.limits, text.limit: new}), amended


def _cell(rule: Rule, text: ChangeText) -> tuple[Rule, Amended]:
    table = rule.tables[text.limit]
    row, column, (line, *_) = text.row, text.column or 1, table.cells
    if row is None or row > len(table.cells) or column > len(line):
        size = f"{len(table.cells)} rows and {len(line)} columns"
        raise RefusedChangeError(
            "amendment-cell", f"{text.limit} is a table of {size}", "name a row: and column: in it", "limit"
        )
    value = _value(text, table.kind)
    if not isinstance(value, float):
        raise RefusedChangeError("amendment-kind", f"{text.value!r} is no {table.kind}", "write a measure", "value")
    old = table.cells[row - 1][column - 1]
    before = None if old is None else Given(text.limit, old, table.kind)
    was = cell_name(row - 1, column - 1)
    _refuse_doubtful(
        rule, old=old, value=value, text=text, kind=table.kind, written=was, free=old is None or same_value(old, value)
    )
    amended = _amended(text, before, Given(text.limit, value, table.kind), was)
    return replace(
        rule,
        tables={
            **rule.tables,
            text.limit: _with_cell(table, row=row - 1, column=column - 1, value=value, amended=amended),
        },
    ), amended


def cell_name(row: int, column: int) -> str:
    """What a change calls a cell of a table, by its indices."""
    return f"row {row + 1}, column {column + 1}"


def _with_cell(table: Table, row: int, column: int, value: float, amended: Amended) -> Table:
    """The table with one cell as read, each cell known as well as it was read itself."""
    cells = tuple(
        tuple(value if (i, j) == (row, column) else cell for j, cell in enumerate(line))
        for i, line in enumerate(table.cells)
    )
    new = replace(
        table,
        cells=cells,
        read_cells={**table.read_cells, (row, column): Standing(amended.standing)},
        shipped_standing=table.shipped_standing or table.standing,
        history=(*table.history, amended),
    )
    with_value = [(i, j) for i, line in enumerate(cells) for j, cell in enumerate(line) if cell is not None]
    return replace(new, standing=new.standing_of(with_value))


def _amended(text: ChangeText, before: Given | None, after: Given | None, cell: str = "") -> Amended:
    return Amended(
        before,
        by=text.by,
        on=text.on.isoformat(),
        authority=text.authority or "",
        reason=text.reason or "",
        after=after,
        where=text.where,
        standing=text.standing,
        cell=cell,
    )


def _value(text: ChangeText, kind: str) -> Plain:
    words = kind in ("word", "words", "yes-no")
    try:
        value, found = plain_value(text.value, None if words else kind)
    except RefusedLimitError as refused:
        code = "amendment-kind" if refused.code == "limit-kind" else refused.code
        raise RefusedChangeError(code, refused.wrong, refused.instead, "value") from None
    if words and found != kind:
        raise RefusedChangeError(
            "amendment-kind", f"{text.value!r} is no {kind}", "write the same kind of value", "value"
        )
    return value


def _refuse_doubtful(
    rule: Rule, old: Plain | None, value: Plain, text: ChangeText, kind: str, written: str, free: bool
) -> None:
    """`free`: the change fills an open limit, confirms the value or can only tighten it, which needs no reason."""
    if old is not None and same_value(old, value):
        return
    doubt = doubt_about(rule, text.limit, kind, value)
    named = f"{text.limit} of {rule.id}"
    if doubt is not None and doubt.is_absurd:
        raise RefusedChangeError(
            "amendment-absurd", f"{named}: {doubt.why}", "check the digits and the unit against the copy", "value"
        )
    reasoned = text.reason and text.authority
    if doubt is not None and not reasoned:
        instead = "check it; if it stands so in the copy, add reason: and authority:"
        raise RefusedChangeError("amendment-unusual", f"{named}: {doubt.why}", instead, "value")
    if not free and not reasoned:
        was = f"a cell of {text.limit} ({written}) would change" if text.row else (
            f"{named} would go from {written} to {as_written(text.value)}, perhaps looser,"
        )  # fmt: skip
        lacks = " and ".join(name for name in ("reason", "authority") if not getattr(text, name))
        raise RefusedChangeError(
            "amendment-reason", f"{was} without {'a' if lacks.startswith('r') else 'an'} {lacks}",
            "add reason: and authority:, whose decision it is", "value",
        )  # fmt: skip


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
    sign = 1 if value > limit.value else -1
    return all(_STRICTER.get(one.relation) == sign for one in uses)


def _refuse_other_edition(rule_set: RuleSet, text: ChangeText) -> None:
    """What was read must be of the edition that the rule set follows. An `edition` that is named must be that one;
    where none is named, a year in `where` must not be another."""
    adopted = set(_years(f"{rule_set.edition} {rule_set.title}"))
    if text.edition:
        if not _is_edition(text.edition, rule_set, adopted):
            raise _other_edition(text.edition, rule_set, "edition")
        return
    read = set(_years(text.where))
    if adopted and read and not adopted & read:
        raise _other_edition(text.where, rule_set, "where")


def _is_edition(named: str, rule_set: RuleSet, adopted: set[str]) -> bool:
    """By the year where the rule set has one, else by the words."""
    if adopted:
        return bool(adopted & set(_years(named)))
    one, other = (" ".join(_WORD.findall(text.casefold())) for text in (named, rule_set.edition))
    return bool(one and other) and (one in other or other in one)


def _other_edition(read: str, rule_set: RuleSet, field: str) -> RefusedChangeError:
    instead = "read it in the adopted edition, or adopt the rule set of the edition you read"
    if field == "where":
        instead += "; or name the edition under edition: where the year is of something else"
    wrong = f"{read!r} is not of the edition that {rule_set.id} follows: {rule_set.edition}"
    return RefusedChangeError("amendment-edition", wrong, instead, field)


def _years(text: str) -> Iterator[str]:
    return (found[0] for found in _YEAR.finditer(text))
