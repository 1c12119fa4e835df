"""What pushes the building along its walls, and what one solid length takes of it, with its lines."""

from __future__ import annotations

import math

from compliance.facts.bracing.solid_lengths import Extent
from compliance.facts.mechanics.lateral.torsion import Bracing, share_step
from compliance.record import record
from compliance.steps import Given, Step, Worked

_LOOSE = "statics; taken: a line braces half way to the next ones, the outermost to the edge"


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
    def force(self) -> float:
        return max(self.loose, self.stiff)

    @property
    def steps(self) -> tuple[Step, ...]:
        given = (
            Given("V", self.push.force, "force", self.push.name),
            Given("b", self.width, "length", "braced by its line"),
            Given("B", self.push.seen.across, "length", "the whole building"),
            Given("k", self.share, "ratio", "its part of the line's stiffness"),
        )  # fmt: skip
        loose, stiff = Given("V_l", self.loose, "force"), Given("V_s", self.stiff, "force")
        return (
            *self.push.steps,
            Step(f"Share under a loose roof, {self.push.name}", "V × b / B × k", given, loose, _LOOSE),
            *self.twisted(),
            Step(f"Share under a stiff roof, twisting included, {self.push.name}", "", (given[0],), stiff,
                 "rigid diaphragm; twisting takes nothing off"),
            Step("Force along the solid length", "max(V_l, V_s)", (loose, stiff), Given("V_i", self.force, "force"),
                 "the worse of the two roofs, statics"),
        )  # fmt: skip


def twist_steps(plan: Bracing, push: Push, place: int) -> tuple[Step, ...]:
    """The share of one solid length with the force strayed to the side that loads it more."""
    direction = push.seen.direction
    worst: tuple[float, Step, Step] | None = None
    for way in (-1, 1):
        x = push.at[0] - way * math.sin(direction) * push.off
        y = push.at[1] + way * math.cos(direction) * push.off
        share = plan.shares(push.force, direction, x, y)[place]
        moment = plan.moment(push.force, direction, x, y)
        if worst is None or abs(share.force) > worst[0]:
            arm = Given("e", moment / push.force if push.force else 0.0, "coordinate", "off the centre of stiffness")
            says = f"Turning moment of the {push.name} about the centre of stiffness, the force set off to one side"
            given = (Given("V", push.force, "force"), arm)
            turn = Step(says, "V × e", given, Given("T", moment, "moment"), "statics")
            worst = abs(share.force), turn, share_step(plan, place, share, moment)
    assert worst is not None
    return worst[1:]
