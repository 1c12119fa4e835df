"""What pushes the building along its walls, and what one solid length takes of it, with its lines."""

from __future__ import annotations

import math

from compliance.facts.bracing.solid_lengths import Extent
from compliance.facts.mechanics.lateral.torsion import Bracing, force_in_panel
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step, Worked

_LOOSE = Source("statics; taken: a line braces half way to the next ones, the outermost to the edge")


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
    """What one solid length takes of one push, under a loose roof and under a stiff one [N]: `width` [m] is what its
    line braces and `share` its part of the line. Infinite where the walls cannot hold the push. `twisted` shows how the
    stiff share comes about."""

    push: Push
    loose: float
    stiff: float
    share: float
    width: float
    twisted: Worked

    @property
    def force(self) -> Solved:
        return worse_of_roofs(self.loose, self.stiff)

    @property
    def steps(self) -> tuple[Step, ...]:
        name, shear = self.push.name, Given("V", self.push.force, "force", self.push.name)
        loose = share_under_loose_roof.titled(f"Share under a loose roof, {name}")
        stiff = Step(f"Share under a stiff roof, twisting included, {name}", "", (shear,),
                     Given("V_s", self.stiff, "force"), "rigid diaphragm; twisting takes nothing off")  # fmt: skip
        return (
            *self.push.steps,
            loose(shear, self.width, self.push.seen.across, self.share).step(),
            *self.twisted(),
            stiff,
            self.force.step(),
        )


share_under_loose_roof = equation(
    "Share under a loose roof", "push * width / across * share", Symbol("V_l", "force"), _LOOSE,
    push=Symbol("V", "force"), width=Symbol("b", "length", "braced by its line"),
    across=Symbol("B", "length", "the whole building"),
    share=Symbol("k", "ratio", "its part of the line's stiffness"),
)  # fmt: skip

worse_of_roofs = equation(
    "Force along the solid length", "max(loose, stiff)", Symbol("V_i", "force"),
    "the worse of the two roofs, statics", loose=Symbol("V_l", "force"), stiff=Symbol("V_s", "force"),
)  # fmt: skip

turning_moment = equation(
    "Turning moment about the centre of stiffness", "push * arm", Symbol("T", "moment"), "statics",
    push=Symbol("V", "force"), arm=Symbol("e", "coordinate", "off the centre of stiffness"),
)  # fmt: skip

EQUATIONS = (share_under_loose_roof, worse_of_roofs, turning_moment)


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
