"""Walls that brace a building whose roof or floor turns as one: shares by stiffness, with twisting.

Each wall resists along itself only. The centre of stiffness is where a force causes no turning; a force
elsewhere turns the building, and every wall takes stiffness × lever × moment over the sum of stiffness × lever².
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive

_SINGULAR = 1e-9  # share of the whole stiffness under which a direction counts as unbraced


@record
class Panel:
    """A solid length of wall in plan: middle [m], direction [rad from the x axis], stiffness (any one unit)."""

    x: float
    y: float
    direction: float
    stiffness: float


@record
class Share:
    """Force [N] in a panel along its direction: `direct` from shifting, `turning` from twisting, `lever` [m]."""

    direct: float
    turning: float
    lever: float

    @property
    def force(self) -> float:
        return self.direct + self.turning


def centre_of_mass(weights: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """Middle of (weight, x, y) parts. Raises ValueError when they weigh nothing."""
    whole = math.fsum(weight for weight, _, _ in weights)
    need_positive(whole_weight=whole)
    return (
        math.fsum(weight * x for weight, x, _ in weights) / whole,
        math.fsum(weight * y for weight, _, y in weights) / whole,
    )


class Bracing:
    """A set of panels. Raises ValueError when they brace one direction only."""

    def __init__(self, panels: Sequence[Panel]) -> None:
        for panel in panels:
            need_positive(stiffness=panel.stiffness)
        self.panels = tuple(panels)
        self.whole = math.fsum(panel.stiffness for panel in panels)
        self._cosines = [(math.cos(panel.direction), math.sin(panel.direction)) for panel in panels]
        terms = [(panel.stiffness, c, s) for panel, (c, s) in zip(panels, self._cosines, strict=True)]
        self._xx = math.fsum(k * c * c for k, c, _ in terms)
        self._xy = math.fsum(k * c * s for k, c, s in terms)
        self._yy = math.fsum(k * s * s for k, _, s in terms)
        if self._determinant <= _SINGULAR * self.whole**2:
            raise ValueError("the walls brace the building in one direction only")
        self.centre = self._centre_of_stiffness()
        self.levers = tuple(self._lever(index, *self.centre) for index in range(len(self.panels)))
        self.twist = math.fsum(p.stiffness * lever**2 for p, lever in zip(self.panels, self.levers, strict=True))

    @property
    def _determinant(self) -> float:
        return self._xx * self._yy - self._xy**2

    def _lever(self, index: int, x: float, y: float) -> float:
        panel, (c, s) = self.panels[index], self._cosines[index]
        return (panel.x - x) * s - (panel.y - y) * c

    def _centre_of_stiffness(self) -> tuple[float, float]:
        """Where Σ k c r and Σ k s r vanish, r being the levers about it."""
        about_origin = [(p.stiffness * self._lever(i, 0.0, 0.0), *self._cosines[i]) for i, p in enumerate(self.panels)]
        first = math.fsum(kr * c for kr, c, _ in about_origin)
        second = math.fsum(kr * s for kr, _, s in about_origin)
        x = (self._xx * second - self._xy * first) / self._determinant
        y = (self._xy * second - self._yy * first) / self._determinant
        return x, y

    def shares(self, force: float, direction: float, x: float, y: float) -> tuple[Share, ...]:
        """Shares of `force` [N] pointing in `direction` [rad] at a place in plan [m].

        Raises ValueError when the force turns the building and no wall has a lever against it.
        """
        along_x, along_y = force * math.cos(direction), force * math.sin(direction)
        u = (self._yy * along_x - self._xy * along_y) / self._determinant
        v = (self._xx * along_y - self._xy * along_x) / self._determinant
        moment = self.moment(force, direction, x, y)
        size = self.whole * max(abs(p.x - x) + abs(p.y - y) for p in self.panels) ** 2
        if self.twist <= _SINGULAR * size:
            if abs(moment) > _SINGULAR * abs(force) * math.sqrt(size / self.whole):
                raise ValueError("the walls meet in one point and cannot keep the building from turning")
            turn = 0.0
        else:
            turn = moment / self.twist
        return tuple(
            Share(panel.stiffness * (u * c + v * s), panel.stiffness * lever * turn, lever)
            for panel, (c, s), lever in zip(self.panels, self._cosines, self.levers, strict=True)
        )

    def moment(self, force: float, direction: float, x: float, y: float) -> float:
        """Turning moment [N·m] of a force about the centre of stiffness, anticlockwise above zero."""
        return force * ((x - self.centre[0]) * math.sin(direction) - (y - self.centre[1]) * math.cos(direction))

    def worst(self, force: float, direction: float, x: float, y: float, off: float) -> tuple[float, ...]:
        """Greatest force [N], unsigned, in each panel with the force shifted `off` [m] to either side.

        Twisting never takes anything off: no panel gets less than its direct share.
        """
        need_not_negative(off=off)
        aside = -math.sin(direction) * off, math.cos(direction) * off
        cases = [self.shares(force, direction, x + side * aside[0], y + side * aside[1]) for side in (-1, 1)]
        return tuple(
            max(max(abs(each.force), abs(each.direct)) for each in panel) for panel in zip(*cases, strict=True)
        )


force_in_wall = equation(
    "Force in the wall", "direct + moment * stiffness * lever / twist", Symbol("F", "force", "force in the wall"),
    "rigid diaphragm, statics", direct=Symbol("F_d", "force", "direct share"),
    moment=Symbol("T", "moment", "turning moment about the centre of stiffness"),
    stiffness=Symbol("k", "ratio", "share of the whole stiffness"),
    lever=Symbol("r", "coordinate", "lever about the centre of stiffness"),
    twist=Symbol("J", "area", "sum of k × r² of all walls"),
)  # fmt: skip


def force_in_panel(bracing: Bracing, index: int, share: Share, moment: float) -> Solved:
    """One panel's force [N]: its direct share and that of the turning, stiffness as a share of the whole."""
    stiffness = bracing.panels[index].stiffness / bracing.whole
    return force_in_wall(share.direct, moment, stiffness, share.lever, bracing.twist / bracing.whole)


EQUATIONS = (force_in_wall,)
