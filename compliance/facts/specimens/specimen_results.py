"""What one specimen says: strength from load and measured faces, shrinkage, density, age."""

from __future__ import annotations

import math

from compliance.facts.specimens.beam_tests import bent
from compliance.facts.specimens.measured import Measured
from compliance.model.specimens import Loading, Specimen
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import PI, Symbol
from compliance.steps import Given, Step


def measured(specimen: Specimen, gravity: float | None = None) -> Measured:
    """The result that a test of its kind is made for. With `gravity` in m/s², beams count their own weight."""
    if specimen.kind == "compression":
        return _compression(specimen)
    if specimen.kind == "rupture":
        return bent(specimen, gravity) or _lab_figure(
            specimen, "neither load with span and sides nor a strength is given"
        )
    return _shrinkage(specimen)


def _lab_figure(specimen: Specimen, reason: str) -> Measured:
    """The lab's own figure stands where load or sides are not given."""
    if specimen.strength is None:
        return Measured(None, reason=reason)
    step = Step(
        "Strength as the lab states it",
        formula="",
        given=(),
        result=Given("f", specimen.strength, "stress"),
        source="lab report",
    )
    return Measured(specimen.strength, step)


def blank_cells(specimen: Specimen) -> tuple[str, ...]:
    """The columns that lack for a result."""
    if specimen.kind == "shrinkage":
        needed: tuple[str, ...] = ("form_length", "dried_length")
    elif specimen.kind == "rupture":
        needed = ("width", "height", "span", "peak_load")
    else:
        needed = ("width", "peak_load") if specimen.shape == "cylinder" else ("width", "depth", "peak_load")
    return tuple(name for name in needed if specimen.value(name) is None)


def loaded_area(specimen: Specimen) -> float | None:
    """Area of the loaded face in m²: width × depth, or π d²/4 of a cylinder."""
    if specimen.width is None:
        return None
    if specimen.shape == "cylinder":
        return math.pi * specimen.width**2 / 4
    return None if specimen.depth is None else specimen.width * specimen.depth


def _compression(specimen: Specimen) -> Measured:
    """f = P / A (area of the loaded face as measured)."""
    area, load = loaded_area(specimen), specimen.peak_load
    if area is None or load is None or specimen.width is None:
        return _lab_figure(specimen, "neither load with measured sides nor a strength is given")
    if specimen.shape == "cylinder":
        strength = strength_of_cylinder(load, specimen.width)
    else:
        assert specimen.depth is not None
        strength = strength_of_prism(load, specimen.width, specimen.depth)
    return Measured(float(strength), strength.step())


_LOAD, _STRENGTH = Symbol("P", "test_load", "peak load"), Symbol("f", "stress")

strength_of_cylinder = equation(
    "Compressive strength", "load / (pi * diameter ** 2 / 4)", _STRENGTH, "load over area",
    load=_LOAD, diameter=Symbol("d", "specimen_length", "diameter"), pi=PI,
)  # fmt: skip

strength_of_prism = equation(
    "Compressive strength", "load / (width * depth)", _STRENGTH, "load over area",
    load=_LOAD, width=Symbol("b", "specimen_length"), depth=Symbol("d", "specimen_length"),
)  # fmt: skip

shrinkage = equation(
    "Shrinkage", "(form - dried) / form", Symbol("", "share"), "by definition",
    form=Symbol("L", "specimen_length", "form"), dried=Symbol("L_d", "specimen_length", "dried"),
)  # fmt: skip

height_to_width = equation(
    "Height to width", "height / width", Symbol("h/b"), "by definition",
    height=Symbol("h", "thickness", "height"), width=Symbol("b", "thickness", "lesser side"),
)  # fmt: skip

corrected_strength = equation(
    "Corrected strength", "strength * factor", Symbol("f_k", "stress"), "the factor that the rule's table gives",
    strength=_STRENGTH, factor=Symbol("k", "ratio", "factor"),
)  # fmt: skip

EQUATIONS = (strength_of_cylinder, strength_of_prism, shrinkage, height_to_width, corrected_strength)


def _shrinkage(specimen: Specimen) -> Measured:
    """Shortening of the bar over the length of its form."""
    form, dried = specimen.form_length, specimen.dried_length
    if form is None or dried is None:
        if specimen.shrinkage is not None:
            stated = Given("", specimen.shrinkage, "share")
            return Measured(
                specimen.shrinkage,
                Step("Shrinkage as the lab states it", formula="", given=(), result=stated, source="lab report"),
            )
        return Measured(None, reason="the length of the form or of the dried bar is not given")
    found = shrinkage(form, dried)
    return Measured(float(found), found.step())


@record
class Difference:
    """A stated strength beside what load and sides give, both in Pa. `share` is of the latter."""

    stated: float
    found: float

    @property
    def share(self) -> float:
        if self.stated == self.found:
            return 0.0
        return abs(self.stated - self.found) / self.found if self.found else math.inf


def stated_beside_measured(specimen: Specimen, gravity: float) -> Difference | None:
    """The lab's stated strength beside load over measured sides; None where the row lacks one of the two.

    A beam's stated strength may count its own weight or not, and an unstated loading may be either: the nearest of
    these readings is taken.
    """
    if specimen.strength is None or specimen.peak_load is None:
        return None
    if specimen.kind == "compression":
        area = loaded_area(specimen)
        return None if area is None else Difference(specimen.strength, specimen.peak_load / area)
    loadings: tuple[Loading, ...] = (specimen.loading,) if specimen.loading else ("centre", "third")
    found = [
        one.value
        for loading in loadings
        for g in (None, gravity)
        if (one := bent(specimen, g, loading)) is not None and one.value is not None
    ]
    if not found:
        return None
    return min((Difference(specimen.strength, value) for value in found), key=lambda one: one.share)


def density(specimen: Specimen) -> float | None:
    """Mass over volume in kg/m³; None where mass or a side is not given."""
    area = loaded_area(specimen)
    if area is None or specimen.height is None or specimen.mass is None:
        return None
    return specimen.mass / (area * specimen.height)


def age_in_days(specimen: Specimen) -> int | None:
    """Days from casting to testing."""
    if specimen.cast is None or specimen.tested is None:
        return None
    return (specimen.tested - specimen.cast).days


def slenderness(specimen: Specimen) -> float | None:
    """Height over the lesser side of the loaded face."""
    sides = [side for side in (specimen.width, specimen.depth) if side is not None]
    return None if specimen.height is None or not sides else specimen.height / min(sides)
