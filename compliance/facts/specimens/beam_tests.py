"""Modulus of rupture of one beam as tested: loaded at midspan or at the third points, its own weight counted or not."""

from __future__ import annotations

from compliance.facts.specimens import rupture
from compliance.facts.specimens.measured import Measured
from compliance.model.specimens import Loading, Specimen
from compliance.record import replace
from compliance.rules.formulas.equations import Solved

_NOT_STATED = "; where the load stood is not said, so the lower of the two forms is taken: state loading"
_NO_WEIGHT = "; own weight not counted, which errs low: mass or length is not given"


def bent(specimen: Specimen, gravity: float | None, loading: Loading | None = None) -> Measured | None:
    """The modulus of rupture in Pa; None where load, span or a side is not given.

    With `gravity` in m/s² the weight between the supports counts: mass × g × span / length, the length of the beam
    being its `depth`. `loading` reads the row as if it were loaded so.
    """
    load, span, width, height = specimen.peak_load, specimen.span, specimen.width, specimen.height
    if load is None or not span or not width or not height:
        return None
    placed = loading or specimen.loading
    weight, says = None, ""
    if gravity is not None:
        weight = weight_between_supports(specimen, gravity)
        says = _NO_WEIGHT if weight is None else ""
    if placed == "centre":
        found = (
            rupture.rupture_at_centre(load, span, width, height)
            if weight is None
            else rupture.rupture_at_centre_with_weight(load, weight, span, width, height)
        )
    else:
        found = _at_thirds(load, weight=weight, span=span, width=width, height=height)
        says += "" if placed else _NOT_STATED
    step = found.step()
    return Measured(float(found), replace(step, says=step.says + says))


def weight_between_supports(specimen: Specimen, gravity: float) -> float | None:
    """Weight in N of the part of the beam between its supports; None where mass or length is not given."""
    if specimen.mass is None or not specimen.depth or not specimen.span:
        return None
    return specimen.mass * gravity * min(1.0, specimen.span / specimen.depth)


def _at_thirds(load: float, weight: float | None, span: float, width: float, height: float) -> Solved:
    if weight is not None:
        return rupture.rupture_at_thirds(load, weight, span, width, height)
    return rupture.rupture_at_thirds_without_weight(load, span, width, height)
