"""What pushes the building along its walls, and what one solid length takes of it, with its lines.

Under a rigid diaphragm each length takes its share by stiffness, torsion included. Under a flexible one, and under
none,
it takes what its line braces, of wind by the width of the building and of an earthquake by the weights that stand
there:
without a diaphragm the bond beam of each wall across the push brings half of its length to either end, which is the
same. Not stated, it is not taken for rigid.
"""

from __future__ import annotations

import math

from compliance.facts.bracing.solid_lengths import Extent
from compliance.facts.mechanics.lateral.torsion import Bracing, force_in_panel
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step, Worked

_LOOSE = Source("statics; taken: a line braces half way to the next ones, the outermost to the edge")
_UNSAID = "not stated; taken by tributary width, as none and flexible share it"
_STATED = "as the project states it"
RIGID = "rigid"


@record
class Push:
    """A force along one direction [N]: its name, where it acts in the plan, and how far it may stray [m]."""

    name: str
    force: float
    seen: Extent
    at: tuple[float, float]
    off: float
    steps: tuple[Step, ...]


@record
class Braced:
    """What one solid length takes of one push, by what its line braces and under a rigid diaphragm [N]. `diaphragm`
    is the kind stated. Infinite where the walls cannot hold the push. `twisted` shows how the
    stiff share comes about."""

    push: Push
    loose: Solved
    stiff: float
    twisted: Worked
    diaphragm: str = ""

    @property
    def rigid(self) -> bool:
        return self.diaphragm == RIGID

    @property
    def force(self) -> float:
        return self.stiff if self.rigid else self.loose

    @property
    def steps(self) -> tuple[Step, ...]:
        name, shear = self.push.name, Given("V", self.push.force, "force", self.push.name)
        kind = Step(
            "Diaphragm at the tops of the walls",
            formula="",
            given=(),
            result=Given("", self.diaphragm or _UNSAID, "word"),
            source=_STATED,
        )
        if not self.rigid:
            return (*self.push.steps, kind, self.loose.step())
        stiff = Step(
            f"Share under a rigid diaphragm, torsion included, {name}",
            formula="",
            given=(shear,),
            result=Given("V_i", self.stiff, "force"),
            source="rigid diaphragm; torsion takes nothing off",
        )
        return (*self.push.steps, kind, *self.twisted(), stiff)


share_by_width = equation(
    "Share by the width braced", "push * width / across * share", Symbol("V_i", "force"), _LOOSE,
    push=Symbol("V", "force"), width=Symbol("b", "length", "braced by its line"),
    across=Symbol("B", "length", "the whole building"),
    share=Symbol("k", "ratio", "its part of the line's stiffness"),
)  # fmt: skip

share_by_weight = equation(
    "Share by the weight braced", "push * braced / whole * share", Symbol("V_i", "force"), _LOOSE,
    push=Symbol("V", "force"), braced=Symbol("W_b", "force", "weight that its line braces"),
    whole=Symbol("W", "force", "of the whole building"),
    share=Symbol("k", "ratio", "its part of the line's stiffness"),
)  # fmt: skip

turning_moment = equation(
    "Turning moment about the centre of stiffness", "push * arm", Symbol("T", "moment"), "statics",
    push=Symbol("V", "force"), arm=Symbol("e", "coordinate", "off the centre of stiffness"),
)  # fmt: skip

EQUATIONS = (share_by_width, share_by_weight, turning_moment)


def twist_steps(plan: Bracing, push: Push, place: int) -> tuple[Step, ...]:
    """The share of one solid length with the force strayed to the side that loads it more."""
    direction = push.seen.direction
    found = []
    says = f"Turning moment of the {push.name} about the centre of stiffness, the force set off to one side"
    for side in (-1, 1):
        x = push.at[0] - side * math.sin(direction) * push.off
        y = push.at[1] + side * math.cos(direction) * push.off
        share = plan.shares(push.force, direction, x, y)[place]
        moment = plan.moment(push.force, direction, x, y)
        turn = turning_moment.titled(says)(push.force, moment / push.force if push.force else 0.0)
        found.append((turn, force_in_panel(plan, place, share, moment)))
    turn, force = max(found, key=lambda one: abs(one[1]))
    return turn.step(), force.step()
