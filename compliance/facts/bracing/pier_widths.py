"""The width of a pier at a joint: where a wall runs on into the next, a pier across the joint is one pier."""

from __future__ import annotations

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol

_SAME = 1e-6

solid_width = equation(
    "Gross width of the pier, past its joints", "before + after", Symbol("b", "length"), "from the plan",
    before=Symbol("b₁", "length", "solid on one side of its middle"),
    after=Symbol("b₂", "length", "on the other"),
)  # fmt: skip

EQUATIONS = (solid_width,)


def pier_solid_width(building: Building, pier: Subject) -> Fact:
    """The solid length that a pier lies in along all walls that run on as one [m]: the pier's own width but where its
    wall ends at a joint that turns by less than what counts as a support."""
    need, view = Needs(pier), building.views[pier.wall]
    own = next(one for one in view.opened.piers if f"{pier.wall}.{one.mark}" == pier.mark)
    before, after = view.placed.stretch.chain.solid_reaches(view.along((own.start + own.end) / 2))
    if not own.at_end or before + after <= own.width + _SAME:
        return pier.fact("pier.width")
    return need.solved(solid_width, before, after)
