"""The measured figures of specimens as printed: enough decimals that they give the printed results again."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from compliance.facts.specimens.specimen_results import density, measured, slenderness
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import FIELDS, Specimen
from compliance.record import replace
from compliance.units import KINDS, SPELLINGS, Writer, parse_number, unit

_SAME = 1e-6
_FITS = 1e-9
_MOST_DECIMALS = 9
_COARSEST = 1e-3
"""Share of a figure that rounding may take at most, whatever follows from it."""


def kind_of_result(kind: SpecimenKind) -> str:
    return "share" if kind == "shrinkage" else "stress"


def measured_columns(kind: SpecimenKind) -> list[LabColumn]:
    return [column for column in COLUMNS[kind].values() if column.kind is not None]


def same_unit(column: LabColumn, one: Specimen, writer: Writer) -> bool:
    """Whether the lab worked in the unit that the paper prints."""
    number, value = parse_number(one.texts.get(column.name, "")), one.measure(column.name)
    if number is None or value is None:
        return False
    return math.isclose(number, writer.number(value, column.what), rel_tol=_SAME)


def lab_unit(number: float, value: float, kind: str) -> str:
    """The unit in which `number` is the SI `value`: rows keep the figure a lab wrote and the value it stands for.
    Empty for zero, which is the same in every unit, and where no unit fits."""
    dimension = KINDS[kind].dimension
    known = (unit(symbol) for symbol in SPELLINGS) if number else ()
    fitting = (one for one in known if one.dimension == dimension)
    return next((one.symbol for one in fitting if math.isclose(one.to_si(number), value, rel_tol=_FITS)), "")


def choose_decimals(kind: SpecimenKind, specimens: Sequence[Specimen], writer: Writer) -> dict[str, int]:
    """Decimals of the converted figures in each measured column, by name.

    At least those of the column, and as many that strength or shrinkage, density and slenderness worked out from the
    printed figures of any specimen differ from the printed ones by no more than one unit of the last digit.
    """
    columns = {column.name: column for column in measured_columns(kind)}
    decimals = {name: column.decimals_in(writer) for name, column in columns.items()}
    for one in specimens:
        converted = {
            name: column
            for name, column in columns.items()
            if one.measure(name) is not None and not same_unit(column, one, writer)
        }
        for name, column in converted.items():
            _keep_share(decimals, name, writer.number(one.measure(name) or 0.0, column.what))
        inputs = {name: column for name, column in converted.items() if name in FIELDS}
        for compute, result in _results(kind):
            _keep_result(one, inputs=inputs, decimals=decimals, result=(compute, result), writer=writer)
    return decimals


_Compute = Callable[[Specimen], float | None]


def _results(kind: SpecimenKind) -> tuple[tuple[_Compute, str], ...]:
    result: tuple[_Compute, str] = (lambda one: measured(one).value, kind_of_result(kind))
    return (result,) if kind == "shrinkage" else (result, (density, "density"), (slenderness, "ratio"))


def _keep_share(decimals: dict[str, int], name: str, number: float) -> None:
    """Raise the decimals until rounding takes little of the figure."""
    while decimals[name] < _MOST_DECIMALS and abs(round(number, decimals[name]) - number) > _COARSEST * abs(number):
        decimals[name] += 1


def _keep_result(
    one: Specimen,
    inputs: Mapping[str, LabColumn],
    decimals: dict[str, int],
    result: tuple[_Compute, str],
    writer: Writer,
) -> None:
    """Raise the decimals of whichever input matters most until the rounded inputs give the printed result."""
    compute, kind = result
    exact = compute(one)
    if exact is None or not inputs:
        return
    places = KINDS[kind].us_decimals if writer.system == "us" else KINDS[kind].si_decimals
    last_digit, printed = 10.0**-places, round(writer.number(exact, kind), places)

    def off(names: Sequence[str]) -> float:
        rounded = {name: _rounded(one, inputs[name], decimals[name], writer) for name in names}
        found = compute(replace(one, **rounded))
        return math.inf if found is None else abs(writer.number(found, kind) - printed)

    while off(list(inputs)) > last_digit * (1 + _FITS):
        finer = [name for name in inputs if decimals[name] < _MOST_DECIMALS]
        if not finer:
            return
        decimals[max(finer, key=lambda name: off([name]))] += 1


def _rounded(one: Specimen, column: LabColumn, decimals: int, writer: Writer) -> float:
    """The SI value of the figure as printed."""
    value = one.measure(column.name)
    assert value is not None
    kind = KINDS[column.what]
    symbol = writer.unit_symbol(column.what)
    number = round(writer.number(value, column.what), decimals)
    return unit(symbol).to_si(number) if kind.si else number
