"""Piers and whole walls pushed along their length, as rigid blocks that rock on their toes.

A pier between openings that a bond beam and the earth over them keep from turning at its head rocks over the height of
the opening alone; one that nothing couples turns as a cantilever from the lowest sill beside it to the top of the wall.
Form of ASCE 41-13 section 11.3.2.2 (reported); without the factor for the crushed toe it is plain block statics.
"""

from __future__ import annotations

from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol, not_negative, positive

ROCKING_FORM = "rocking of unreinforced masonry piers, ASCE 41-13 form, reported"

_TOE = positive("c_t", "ratio", "for the toe that crushes")
_LENGTH = positive("L", "length", "solid length")

rocking_of_pier = equation(
    "Force at which the pier rocks", "toe * (fixity * on_top + own / 2) * length / height",
    Symbol("V_r", "force"), ROCKING_FORM,
    toe=_TOE, fixity=positive("α", "ratio", "1 where its head cannot turn, 0.5 where it can"),
    on_top=not_negative("P_D", "force", "dead load on its head sure to be there"),
    own=not_negative("P_W", "force", "its own weight sure to be there"), length=_LENGTH,
    height=positive("h_eff", "length", "height over which it rocks"),
)  # fmt: skip

rocking_of_wall = equation(
    "Force at which the whole wall turns as one block", "toe * weight * length / (2 * height)",
    Symbol("V_b", "force"), "rigid block, statics; factor for the toe as for piers",
    toe=_TOE, weight=not_negative("W", "force", "all dead load sure to be there"), length=_LENGTH,
    height=positive("h", "length", "height"),
)  # fmt: skip

rocking_together = equation(
    "Force at which all piers of the wall rock", "sum(pier)", Symbol("V_R", "force"),
    "sum; piers that rock share evenly", pier=Series("V_r", "force"),
)  # fmt: skip

factor_of_forces = equation(
    "Factor against overturning", "resists / pushes", Symbol("n", "ratio"), "by definition",
    resists=not_negative("V_R", "force"), pushes=positive("V", "force", "force along the wall"),
)  # fmt: skip

share_of_rocking = equation(
    "Share of the pier once all piers rock", "pushes * pier / together", Symbol("V_p", "force"),
    "each pier in proportion to the force at which it rocks; IEBC Appendix A1, reported",
    pushes=Symbol("V", "force", "force along the wall"), pier=Symbol("V_r", "force"),
    together=positive("V_R", "force", "all piers of the wall"),
)  # fmt: skip

share_of_stiffness = equation(
    "Share of the pier by stiffness", "pushes * stiffness / whole", Symbol("V_e", "force"), "statics",
    pushes=Symbol("V", "force", "force along the wall"), stiffness=Symbol("k", "thickness", "stiffness over E"),
    whole=positive("Σk", "thickness", "all piers of the wall"),
)  # fmt: skip

greater_share = equation(
    "Force on the pier, a pier of the wall rocks", "max(elastic, rocking)", Symbol("V_p", "force"),
    "the greater of the two", elastic=Symbol("V_e", "force", "by stiffness"),
    rocking=Symbol("V_p", "force", "once all piers rock"),
)  # fmt: skip

EQUATIONS = (
    rocking_of_pier, rocking_of_wall, rocking_together, factor_of_forces, share_of_rocking, share_of_stiffness,
    greater_share,
)  # fmt: skip
