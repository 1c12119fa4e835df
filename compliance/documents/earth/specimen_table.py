"""The table of one set of specimens: as measured, what follows from it, what the lab added, and the mean."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.set_plots import aside_of
from compliance.facts.specimens.sample import summary
from compliance.facts.specimens.specimen_results import age_in_days, density, measured, slenderness
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.record import record, replace
from compliance.report.value_words import NOTHING, counted
from compliance.units import KINDS, SPELLINGS, Writer, parse_number, unit

_RESULT = "Result"
_SAME = 1e-6
_FITS = 1e-9
_MOST_BESIDE = 20
"""Characters of the lab's own columns that still fit beside ours."""


@record
class _Field:
    """A column: its title, and what it says of a specimen (None: nothing). `entered` is the lab's own column of the
    same measure, `kind` the measure: its unit stands in the title."""

    title: str
    says: Callable[[Specimen, Writer], str | None]
    entered: str = ""
    kind: str = ""
    right: bool = True


def _measure(title: str, name: str, kind: str) -> _Field:
    def says(specimen: Specimen, writer: Writer) -> str | None:
        value = getattr(specimen, name)
        return None if value is None else _figure(value, kind, writer)

    return _Field(title, says, name, kind)


def _figure(value: float, kind: str, writer: Writer) -> str:
    """The number alone."""
    return writer.write(value, kind).partition(" ")[0]


def _result(specimen: Specimen, writer: Writer) -> str | None:
    value = measured(specimen).value
    return None if value is None else _figure(value, _kind_of_result(specimen.kind), writer)


def _kind_of_result(kind: SpecimenKind) -> str:
    return "share" if kind == "shrinkage" else "stress"


def _computed(kind: str, value: Callable[[Specimen], float | int | None]) -> Callable[[Specimen, Writer], str | None]:
    def says(specimen: Specimen, writer: Writer) -> str | None:
        found = value(specimen)
        return None if found is None else _figure(float(found), kind, writer)

    return says


_KEPT_WHOLE = 8
"""A set of as few specimens stands on one page."""
_FIELDS = (
    _Field("Cast", lambda s, w: s.cast.isoformat() if s.cast else None, right=False),
    _Field("Tested", lambda s, w: s.tested.isoformat() if s.tested else None, right=False),
    _Field("Age, days", _computed("count", age_in_days)),
    _Field("Dried", lambda s, w: s.dried, right=False),
    _Field("Shape", lambda s, w: s.shape, right=False),
    _measure("Width", "width", "thickness"),
    _measure("Depth", "depth", "thickness"),
    _measure("Height", "height", "thickness"),
    _measure("Span", "span", "thickness"),
    _measure("Form", "form_length", "thickness"),
    _measure("Dried bar", "dried_length", "thickness"),
    _measure("Mass", "mass", "mass"),
    _measure("Peak load", "peak_load", "force"),
    _Field("h/b", _computed("ratio", lambda s: None if s.kind == "shrinkage" else slenderness(s))),
    _Field("Density", _computed("density", density), kind="density"),
    _measure("Lab's result", "strength", "stress"),
    _Field(_RESULT, _result),
)


def specimen_sheet(
    checked: Checked, mark: str, kind: SpecimenKind, specimens: Sequence[Specimen], writer: Writer, lead: list[Row]
) -> Sheet:
    """The table of a set; a line in its place where the set has no rows."""
    if not specimens:
        none = full_row(Words("The lab tables have no row of this set.", theme.BODY_BOLD, after=4.0))
        return Sheet((Column(share=1),), (), lead=[*lead, none])
    fields = [field for field in _FIELDS if any(field.says(one, writer) is not None for one in specimens)]
    beside = _beside(specimens)
    fields += [_Field(name, lambda s, w, name=name: s.extra.get(name), right=False) for name in beside]  # type: ignore[misc]
    aside = _set_aside(checked, mark)
    rows = [row for one in specimens for row in _rows(one, fields, beside, aside.get(one.mark, []), writer)]
    rows.append(Row((Cell(tuple(_summary(kind, specimens, bool(aside), writer)), span=len(fields) + 1),), joined=True))
    if len(specimens) <= _KEPT_WHOLE:
        rows = [rows[0], *(replace(row, joined=True) for row in rows[1:])]
    right = [index for index, field in enumerate(fields, start=1) if field.right]
    head = head_row("Specimen", *(_title(field, kind, writer) for field in fields), right=right)
    columns = [Column(natural=True)] * (1 + len(fields))
    return Sheet(columns, rows, head=[head], lead=lead, below=14)


def _rows(
    one: Specimen, fields: Sequence[_Field], beside: Sequence[str], aside: Sequence[str], writer: Writer
) -> list[Row]:
    """The figures, and under them why the specimen is set aside and what the lab added."""
    below: list[Part] = [Words(f"Set aside {reason}", theme.CELL_BOLD) for reason in aside]
    if reason := measured(one).reason:
        below.append(Words(f"No result: {reason}", theme.CELL_BOLD))
    if entered := _entered(one, fields, writer):
        below.append(Words(f"entered {', '.join(entered)}", theme.CELL_SMALL))
    added = [f"{name}: {value}" for name, value in one.extra.items() if value and name not in beside] + (
        [one.note] if one.note else []
    )
    if added:
        below.append(Words("   ·   ".join(added), theme.CELL_SMALL))
    cells = [_cell(field, one, writer) for field in fields]
    rows = [Row((cell(one.mark, theme.CELL_BOLD), *cells), ruled=not below)]
    if below:
        rows.append(Row((Cell(()), Cell(tuple(below), span=len(fields))), joined=True, air=(0.0, 3.0)))
    return rows


def _beside(specimens: Sequence[Specimen]) -> tuple[str, ...]:
    """The lab's own columns that are few and short enough to stand beside the others; the rest go below each row."""
    names = dict.fromkeys(name for one in specimens for name in one.extra)
    longest = [max(len(name), *(len(one.extra.get(name, "")) for one in specimens)) for name in names]
    return tuple(names) if sum(longest) <= _MOST_BESIDE else ()


def _title(field: _Field, kind: SpecimenKind, writer: Writer) -> str:
    measure = field.kind or (_kind_of_result(kind) if field.title == _RESULT else "")
    unit = writer.unit_symbol(measure) if measure else ""
    return f"{field.title}, {unit}" if unit else field.title


def _cell(field: _Field, one: Specimen, writer: Writer) -> Cell:
    """As the lab wrote it where it works in the same unit, otherwise converted."""
    style = theme.NUMBER if field.right else theme.CELL
    as_entered = field.entered and _same_unit(field, one, writer)
    text = one.texts[field.entered] if as_entered else field.says(one, writer)
    return cell(text or NOTHING, style)


def _same_unit(field: _Field, one: Specimen, writer: Writer) -> bool:
    number = parse_number(one.texts.get(field.entered, ""))
    value = getattr(one, field.entered)
    return number is not None and math.isclose(number, writer.number(value, field.kind), rel_tol=_SAME)


def _entered(one: Specimen, fields: Sequence[_Field], writer: Writer) -> list[str]:
    """The lab's own figures with its units, where these are not ours."""
    said = []
    for field in fields:
        text = one.texts.get(field.entered, "") if field.entered else ""
        number = parse_number(text)
        if number is None or _same_unit(field, one, writer):
            continue
        symbol = lab_unit(number, getattr(one, field.entered), field.kind)
        said.append(f"{text} {symbol} ({field.title.lower()})" if symbol else f"{text} ({field.title.lower()})")
    return said


def lab_unit(number: float, value: float, kind: str) -> str:
    """The unit in which `number` is the SI `value`: rows keep the figure a lab wrote and the value it stands for.
    Empty for zero, which is the same in every unit, and where no unit fits."""
    dimension = KINDS[kind].dimension
    known = (unit(symbol) for symbol in SPELLINGS) if number else ()
    fitting = (one for one in known if one.dimension == dimension)
    return next((one.symbol for one in fitting if math.isclose(one.to_si(number), value, rel_tol=_FITS)), "")


def _set_aside(checked: Checked, mark: str) -> dict[str, list[str]]:
    """Why specimens of the set do not count under a rule, by specimen."""
    reasons: dict[str, list[str]] = {}
    for finding in checked.findings:
        if finding.kind != "test" or finding.subject != mark:
            continue
        for specimen, why in aside_of(finding).items():
            reasons.setdefault(specimen, []).append(f"under {finding.clause}: {why}")
    return {specimen: list(dict.fromkeys(found)) for specimen, found in reasons.items()}


def _summary(kind: SpecimenKind, specimens: Sequence[Specimen], any_aside: bool, writer: Writer) -> list[Part]:
    """The basic figures of all results, those set aside among them, and how a result is worked out."""
    found = [measured(one) for one in specimens]
    figures = summary([one.value for one in found if one.value is not None])
    if figures is None:
        return [Words("No specimen has a result.", theme.CELL_BOLD)]
    unit = _kind_of_result(kind)
    words = [f"mean {writer.write(figures.mean, unit)}", f"lowest {writer.write(figures.lowest, unit)}",
             f"highest {writer.write(figures.highest, unit)}"]  # fmt: skip
    if figures.deviation is not None:
        words.append(f"standard deviation {writer.write(figures.deviation, unit)}")
    if figures.variation is not None:
        words.append(f"coefficient of variation {writer.write(figures.variation, 'share')}")
    of = f"{counted(figures.count, 'result')}, set aside or not" if any_aside else counted(figures.count, "result")
    parts: list[Part] = [Words(f"{of}: {', '.join(words)}", theme.CELL_BOLD)]
    formulas = dict.fromkeys(
        f"{one.step.says}: {one.step.result.symbol or 'result'} = {one.step.formula}"
        for one in found
        if one.step and one.step.formula
    )
    return parts + [Words(formula, theme.SMALL_ITALIC) for formula in formulas]
