"""The ranges that results of tests of earth lie in, and what of a specimen lies outside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.specimens.specimen_results import density, measured, slenderness
from compliance.model.materials import Mix
from compliance.model.specimens import Specimen
from compliance.record import record
from compliance.steps import Given
from compliance.units import MeasureError, measure

_KINDS = {
    "side": "specimen_length", "length": "specimen_length", "form": "specimen_length", "load": "test_load",
    "mass": "specimen_mass", "compression": "stress", "rupture": "stress", "density": "density", "shrinkage": "share",
    "slenderness": "ratio",
}  # fmt: skip
_CALLED = {
    "compression": "compressive strength", "rupture": "modulus of rupture", "shrinkage": "shrinkage",
    "slenderness": "height to width",
}  # fmt: skip
_SAME = 1e-9

Range = tuple[float, float]


@record
class Plausible:
    """Ranges in SI by what they are of: `sizes` of every specimen, `earths` by form of the earth. Tolerances are
    shares, ages days."""

    sizes: Mapping[str, Range]
    earths: Mapping[str, Mapping[str, Range]]
    cube_tolerance: float
    nominal_tolerance: float
    batch_tolerance: float
    stated_density: float
    oldest_specimen: float
    oldest_paper: float

    @classmethod
    def from_values(cls, values: object) -> Plausible:
        """Raises ReferenceValueError."""
        root = Part(values)
        earths = root.part("earths")
        return cls(
            sizes=_ranges(root.part("sizes")),
            earths={form: _ranges(earths.part(form)) for form in earths},
            cube_tolerance=root.measure("cube_tolerance", "share"),
            nominal_tolerance=root.measure("nominal_tolerance", "share"),
            batch_tolerance=root.measure("batch_tolerance", "share"),
            stated_density=root.measure("stated_density", "share"),
            oldest_specimen=root.measure("oldest_specimen", "age") / 86400.0,
            oldest_paper=root.measure("oldest_paper", "age") / 86400.0,
        )

    def of_mix(self, mix: Mix) -> tuple[str, Mapping[str, Range]]:
        """The name of the kind of earth, and its ranges."""
        form = "stabilised" if mix.stabilised else mix.form or "unstated"
        if form == "stabilised" and mix.form == "fired-adobe":
            form = mix.form
        called = {"unstated": "earth", "stabilised": "stabilized earth"}.get(form, form.replace("-", " "))
        return called, self.earths[form]


def _ranges(part: Part) -> dict[str, Range]:
    return {name: _range(part, name) for name in part}


def _range(part: Part, name: str) -> Range:
    items = part.items(name)
    if len(items) != 2 or name not in _KINDS:
        part.refuse(name, "must be the least and the most of one of " + ", ".join(_KINDS))
    least, most = (_number(part, name, item) for item in items)
    if not least < most:
        part.refuse(name, "must rise")
    return least, most


def _number(part: Part, name: str, item: object) -> float:
    kind = _KINDS[name]
    if kind == "ratio" and isinstance(item, int | float):
        return float(item)
    try:
        return measure(str(item), kind).si
    except MeasureError as error:
        part.refuse(name, str(error))


def implausible_values(specimen: Specimen, mix: Mix, ranges: Plausible) -> Iterator[Doubt]:
    """A doubt for each size, load and mass, and for each result, that lies outside what is plausible."""
    for name, column, value in _sizes(specimen):
        if value is not None and _outside(value, ranges.sizes[name]):
            yield _doubt(
                specimen,
                name=name,
                column=column,
                value=value,
                bounds=ranges.sizes[name],
                called=column.replace("_", " "),
                of="a specimen",
            )
    earth, own = ranges.of_mix(mix)
    for name, column, value in _results(specimen):
        if value is not None and _outside(value, own[name]):
            yield _doubt(
                specimen,
                name=name,
                column=column,
                value=value,
                bounds=own[name],
                called=_CALLED.get(name, name),
                of=earth,
            )


def _sizes(specimen: Specimen) -> tuple[tuple[str, str, float | None], ...]:
    sides = ("width", "depth", "height") if specimen.kind == "compression" else ("width", "height")
    lengths = ("depth", "span") if specimen.kind == "rupture" else ()
    forms = ("form_length", "dried_length") if specimen.kind == "shrinkage" else ()
    named = [("side", one) for one in sides] + [("length", one) for one in lengths] + [("form", one) for one in forms]
    return tuple(
        (name, column, specimen.measure(column)) for name, column in [*named, ("load", "peak_load"), ("mass", "mass")]
    )


def _results(specimen: Specimen) -> tuple[tuple[str, str, float | None], ...]:
    columns = {"compression": "peak_load", "rupture": "peak_load", "shrinkage": "dried_length"}
    column = columns[specimen.kind]
    if specimen.kind != "shrinkage" and specimen.peak_load is None:
        column = "strength"
    results = [(specimen.kind, column, measured(specimen).value), ("density", "mass", density(specimen))]
    if specimen.kind == "compression":
        results.append(("slenderness", "height", slenderness(specimen)))
    return tuple(results)


def _outside(value: float, bounds: Range) -> bool:
    least, most = bounds
    return value < least * (1 - _SAME) or value > most * (1 + _SAME)


def _doubt(
    specimen: Specimen, name: str, column: str, value: float, bounds: Range, called: str, of: str
) -> Doubt:  # fmt: skip
    kind = _KINDS[name]
    least, most = (Given("", bound, kind) for bound in bounds)
    flat = "; a slab this flat is no compression specimen" if name == "slenderness" and value < bounds[0] else ""
    says = (
        f"the {called} of {specimen.mark}, ", Given("", value, kind), ", is implausible (", least, " to ", most,
        f" for {of}{flat})",
    )  # fmt: skip
    return Doubt(
        DoubtKind.VALUE,
        set=specimen.set,
        specimen=specimen.mark,
        says=says,
        cure="check the unit and the digits",
        column=column,
    )
