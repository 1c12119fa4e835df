"""From the text of a limit or table to its value in SI."""

from __future__ import annotations

from collections.abc import Callable

from compliance.facts.catalogue import FACTS, WORD
from compliance.findings import Standing
from compliance.problems import Place, Problem
from compliance.rules.formulas.types import ListType, TextType, Type, YesNoType, number_of_kind
from compliance.rules.rule_set import Limit
from compliance.rules.schema import OPEN, LimitText, LimitValue, RuleText, TableAxis, TableText
from compliance.rules.tables import Axis, Entry, Table
from compliance.units import KINDS, Kind, MeasureError, kind_of_text, parse_measure

Placed = Callable[[tuple[str | int, ...]], Place]


class RefusedLimitError(Exception):
    """Why a limit cannot be used; `where` is the path below the limit."""

    def __init__(self, code: str, wrong: str, instead: str, where: tuple[str | int, ...] = ("value",)) -> None:
        self.code, self.wrong, self.instead, self.where = code, wrong, instead, where
        super().__init__(wrong)

    def problem(self, placed: Placed, path: tuple[str | int, ...]) -> Problem:
        return Problem(placed((*path, *self.where)), self.code, self.wrong, self.instead)


def read_limit(name: str, text: LimitText, place: Place) -> Limit:
    """Raises RefusedLimitError."""
    value, kind = (None, _stated_kind(text.kind)) if text.value == OPEN else plain_value(text.value, text.kind)
    return Limit(
        name,
        value=value,
        kind=kind,
        written=as_written(text.value),
        standing=text.known_as,
        source=source_of(text),
        clause=text.clause or "",
        place=place,
        read_in=text.read_in or "",
        note=text.note or "",
        lenders=tuple(text.borrowed_from),
        severest=text.severest or "",
    )


def source_of(text: LimitText | TableText | RuleText) -> str:
    """Where it was read, and by whom on which day where that is said."""
    read = f"read by {text.by} on {text.on.isoformat()}" if text.by and text.on else ""
    return "; ".join(part for part in (text.source, read) if part)


def as_written(value: LimitValue) -> str:
    """The text of a value; several words with commas between them."""
    return ", ".join(value) if isinstance(value, list) else str(value)


def _stated_kind(kind: str | None) -> str:
    if kind not in KINDS and kind not in ("word", "words", "yes-no"):
        raise RefusedLimitError(
            "limit-kind", f"{kind!r} is no kind of measure", f"write one of {', '.join(KINDS)}", ("kind",)
        )
    return kind


def plain_value(value: LimitValue, kind_name: str | None) -> tuple[float | str | bool | frozenset[str], str]:
    """A limit's value in SI (or as a word, yes/no, set of words) and the name of its kind: `kind_name`, or what the
    value itself says where that is None. Raises RefusedLimitError."""
    if isinstance(value, list):
        return frozenset(value), _of_kind(value, "words", kind_name)
    if isinstance(value, bool):
        return value, _of_kind(value, "yes-no", kind_name)
    if value in ("yes", "no") and kind_name in (None, "yes-no"):
        return value == "yes", "yes-no"
    if isinstance(value, (int, float)):
        kind = _measure_kind(kind_name or "ratio", value)
        if kind.si and value:
            raise RefusedLimitError("measure-no-unit", f"{value} has no unit", f"write for example {kind.example}")
        return _measured("0", kind) if kind.si else float(value), kind.name
    found = kind_name or kind_of_text(value)
    if found is None and value[:1].isdigit():
        return _measured(value, KINDS["length"]), "length"  # raises: it begins like a measure but is none
    if found is None or found == WORD:
        return value, WORD
    return _measured(value, _measure_kind(found, value)), found


def _of_kind(value: LimitValue, own: str, wanted: str | None) -> str:
    if wanted not in (None, own):
        advice = "write a value of that kind, or correct kind:"
        raise RefusedLimitError("limit-kind", f"{as_written(value)!r} is no {wanted}", advice)
    return own


def _measure_kind(kind: str, value: LimitValue | None = None) -> Kind:
    """A kind of measure, for a value that can be of no other. Raises RefusedLimitError."""
    if _stated_kind(kind) not in KINDS:
        wrong = f"{as_written(value)!r} is no {kind}" if value is not None else f"a {kind} is no measure"
        where = ("value",) if value is not None else ("kind",)
        raise RefusedLimitError("limit-kind", wrong, "write a value of that kind, or correct kind:", where)
    return KINDS[kind]


def _measured(text: str, kind: Kind) -> float:
    try:
        return parse_measure(text, kind, pitch=True).si
    except MeasureError as error:
        raise RefusedLimitError(error.code, error.wrong, error.instead) from None


def type_of_limit(limit: Limit) -> Type:
    """The type of a limit in a formula."""
    if limit.kind == "words":
        return ListType(TextType(tuple(sorted(limit.value)) if isinstance(limit.value, frozenset) else None))
    if limit.kind == "word":
        return TextType((limit.value,) if isinstance(limit.value, str) else None)
    return YesNoType() if limit.kind == "yes-no" else number_of_kind(limit.kind)


def read_table(name: str, text: TableText, place: Place) -> Table:
    """Raises RefusedLimitError."""
    kind = _measure_kind(text.kind)
    cells = tuple(
        tuple(_cell(cell, kind, (row, column)) for column, cell in enumerate(line))
        for row, line in enumerate(text.cells)
    )
    table = Table(
        name,
        rows=_axis(text.rows, "rows"),
        columns=_axis(text.columns, "columns") if text.columns else None,
        cells=cells,
        kind=text.kind,
        between=text.between,
        standing=Standing(text.standing),
        source=source_of(text),
        clause=text.clause or "",
        place=place,
        read_in=text.read_in or "",
        note=text.note or "",
    )
    if table.wholly_open != (table.standing is Standing.OPEN):
        raise RefusedLimitError("limit-open", "the table's standing and its open cells contradict each other",
                      "a table is open when every cell is", ("standing",))  # fmt: skip
    return table


def _cell(cell: str | float, kind: Kind, where: tuple[int, int]) -> float | None:
    if cell == OPEN:
        return None
    try:
        value, _ = plain_value(cell, kind.name)
    except RefusedLimitError as refusal:
        raise RefusedLimitError(refusal.code, refusal.wrong, refusal.instead, ("cells", *where)) from None
    assert isinstance(value, float)
    return value


def _axis(text: TableAxis, side: str) -> Axis:
    """Entries in SI by the kind of the axis's fact; numbers must differ and need `worse`."""
    spec = FACTS.get(text.fact)
    if spec is None:
        raise RefusedLimitError(
            "formula-name", f"there is no fact {text.fact!r}", "see earthwall rules facts", (side, "fact")
        )
    numeric = spec.kind in KINDS
    entries: list[Entry] = []
    for index, entry in enumerate(text.at):
        try:
            entries.append(plain_value(entry, spec.kind)[0] if numeric else str(entry))  # type: ignore[arg-type]
        except RefusedLimitError as refusal:
            raise RefusedLimitError(refusal.code, refusal.wrong, refusal.instead, (side, "at", index)) from None
        if entries[-1] in entries[:-1]:
            raise RefusedLimitError(
                "table-order", f"{entry} stands twice in the table", "give each entry once", (side, "at", index)
            )
    if numeric and not text.worse:
        raise RefusedLimitError(
            "table-worse", f"the {side} do not say which way is worse", "add worse: smaller or larger", (side,)
        )
    if numeric and entries not in (sorted(entries), sorted(entries, reverse=True)):
        raise RefusedLimitError(
            "table-order", f"the {side} are out of order", "put the entries in rising order", (side, "at")
        )
    return Axis(text.fact, tuple(entries), (text.worse or "") if numeric else "")
