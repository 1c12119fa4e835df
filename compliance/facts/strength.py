"""What one specimen says: strength from load and measured faces, shrinkage, density, age."""

from __future__ import annotations

import math
from dataclasses import dataclass

from compliance.model.specimens import Specimen
from compliance.steps import Given, Step


@dataclass(frozen=True, slots=True)
class Measured:
    """The result of one specimen: stress in Pa, or shrinkage as a share; None with the reason why not."""

    value: float | None
    step: Step | None = None
    reason: str = ""


def measured(specimen: Specimen) -> Measured:
    """The result that a test of its kind is made for."""
    if specimen.kind == "compression":
        return _compression(specimen)
    if specimen.kind == "rupture":
        return _rupture(specimen)
    return _shrinkage(specimen)


def _lab_figure(specimen: Specimen, reason: str) -> Measured:
    """The lab's own figure stands where load or sides are not given."""
    if specimen.strength is None:
        return Measured(None, reason=reason)
    step = Step("Strength as the lab states it", "", (), Given("f", specimen.strength, "stress"), "lab report")
    return Measured(specimen.strength, step)


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
    p = Given("P", load, "force", "peak load")
    if specimen.shape == "cylinder":
        given: tuple[Given, ...] = (p, Given("d", specimen.width, "thickness", "diameter"))
        formula = "P / (π × d² / 4)"
    else:
        assert specimen.depth is not None
        given = (p, Given("b", specimen.width, "thickness"), Given("d", specimen.depth, "thickness"))
        formula = "P / (b × d)"
    return Measured(load / area, Step("Compressive strength", formula, given, Given("f", load / area, "stress")))


def _rupture(specimen: Specimen) -> Measured:
    """Centre load on a rectangular section: fr = 3 P L / (2 b t²)."""
    load, span, width, height = specimen.peak_load, specimen.span, specimen.width, specimen.height
    if load is None or span is None or width is None or height is None:
        return _lab_figure(specimen, "neither load with span and sides nor a strength is given")
    value = 3 * load * span / (2 * width * height**2)
    given = (
        Given("P", load, "force", "peak load"),
        Given("L", span, "thickness", "span"),
        Given("b", width, "thickness"),
        Given("t", height, "thickness"),
    )
    source = "bending of a beam with a load at midspan; form in 14.7.4.11 D NMAC"
    formula = "3 × P × L / (2 × b × t²)"
    return Measured(value, Step("Modulus of rupture", formula, given, Given("f_r", value, "stress"), source))


def _shrinkage(specimen: Specimen) -> Measured:
    """Shortening of the bar over the length of its form."""
    form, dried = specimen.form_length, specimen.dried_length
    if form is None or dried is None:
        return Measured(None, reason="the length of the form or of the dried bar is not given")
    value = (form - dried) / form
    given = (Given("L", form, "thickness", "form"), Given("L_d", dried, "thickness", "dried"))
    step = Step("Shrinkage", "(L − L_d) / L", given, Given("", value, "share"))
    return Measured(value, step)


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
