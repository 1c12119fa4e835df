"""Shapes that their own measures contradict."""

from __future__ import annotations

import re
from collections.abc import Iterator

from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.doubts.plausible import Plausible
from compliance.facts.specimens.specimen_results import slenderness
from compliance.model.specimens import Specimen
from compliance.steps import Given
from compliance.units import MeasureError, measure

_SAME = 1e-9
_NOMINAL = re.compile(r"\s*([0-9./ ]+?)\s*[x×]\s*([0-9./ ]+?)\s*(?:[x×]\s*([0-9./ ]+?)\s*)?(in|mm|cm|ft|m)\s*")


def doubtful_shapes(specimen: Specimen, ranges: Plausible) -> Iterator[Doubt]:
    """A cube with unequal sides, a cylinder with two widths, sides unlike the nominal size of the form."""
    if specimen.kind == "compression" and specimen.shape == "cube":
        yield from _cube(specimen, ranges.cube_tolerance)
    if specimen.kind == "compression" and specimen.shape == "cylinder" and specimen.depth is not None:
        says = f"{specimen.mark} is called a cylinder, whose width is its diameter, and has a depth too"
        cure = "write the length of a cylinder under height and leave its depth empty, or correct the shape"
        yield Doubt(DoubtKind.SHAPE, set=specimen.set, specimen=specimen.mark, says=(says,), cure=cure, column="depth")
    yield from _nominal(specimen, ranges.nominal_tolerance)


def _cube(specimen: Specimen, tolerance: float) -> Iterator[Doubt]:
    sides = [side for side in (specimen.width, specimen.depth, specimen.height) if side]
    if len(sides) < 2 or max(sides) - min(sides) <= tolerance * min(sides) * (1 + _SAME):
        return
    least, most = (Given("", side, "specimen_length") for side in (min(sides), max(sides)))
    ratio = slenderness(specimen)
    applies = "" if ratio is None else f"; its height to width is {ratio:.2f}, and the factor for that applies"
    says = (f"{specimen.mark} is called a cube, but its sides are ", least, " to ", most, applies)
    yield Doubt(
        DoubtKind.SHAPE,
        set=specimen.set,
        specimen=specimen.mark,
        says=says,
        cure="call it a prism, or correct its sides",
        column="shape",
    )


def _nominal(specimen: Specimen, tolerance: float) -> Iterator[Doubt]:
    """Sides in any order, so that nobody must know which of the form's sides is which."""
    stated = specimen.value("nominal_size")
    form = nominal_sides(stated) if isinstance(stated, str) else ()
    given = (specimen.width, specimen.depth, specimen.height)
    sides = sorted(side for side in given if side is not None)
    if len(form) != 3 or len(sides) != 3:
        return
    off = [(side, of) for side, of in zip(sides, sorted(form), strict=True) if abs(side - of) > tolerance * of]
    if off:
        side, of = off[0]
        says = (
            f"a side of {specimen.mark} measures ", Given("", side, "specimen_length"), ", its nominal size ",
            Given("", of, "specimen_length"),
        )  # fmt: skip
        cure = "correct the side or the nominal size"
        yield Doubt(
            DoubtKind.SHAPE, set=specimen.set, specimen=specimen.mark, says=says, cure=cure, column="nominal_size"
        )


def nominal_sides(text: str) -> tuple[float, ...]:
    """The sides in m that a text such as `4 x 4 x 8 in` names; none where it is of another form."""
    match = _NOMINAL.fullmatch(text)
    if match is None:
        return ()
    try:
        return tuple(measure(f"{side.strip()} {match[4]}", "specimen_length").si for side in match.groups()[:3] if side)
    except MeasureError:
        return ()
