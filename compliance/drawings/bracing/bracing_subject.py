"""What a bracing plan shows: a push, and what each solid length takes of it."""

from __future__ import annotations

import math

from compliance.drawings.common.primitives import Point
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.record import record

NOT_HELD = "not held"
LEAST_SHOWN = 0.001
"""A smaller share has no label; the figures under the drawing tell it."""
WIDEST = 9.0
"""The bar of the greatest share, in points."""
_NARROWEST = 0.5


@record
class Taken:
    """What a solid length takes: from `start` to `end` along its wall [m], as a share of the push and as a force [N].
    Both infinite where the walls cannot hold the push."""

    wall: str
    start: float
    end: float
    share: float
    force: float


@record
class SharesSubject:
    """A push of `force` [N] along `direction` [rad from the horizontal of the page] that acts `at` a place in the plan.
    `stiffness` is None where the walls have no centre of stiffness."""

    key: str
    name: str
    plan: PlanSubject
    push: str
    force: float
    direction: float
    at: Point
    mass: Point
    stiffness: Point | None
    taken: tuple[Taken, ...]
    notes: tuple[str, ...] = ()

    @property
    def greatest(self) -> float:
        """The greatest share that is held."""
        return max((one.share for one in self.taken if math.isfinite(one.share)), default=0.0)


def share_text(share: float) -> str:
    """In percent with one decimal; in words where the walls cannot hold it, and where it would round to nothing."""
    if not math.isfinite(share):
        return NOT_HELD
    return f"{share * 100:.1f} %" if share >= LEAST_SHOWN or share <= 0 else f"under {LEAST_SHOWN * 100:g} %"


def bar_width(share: float, greatest: float) -> float:
    """How wide the bar of a share is, in points: in proportion to the greatest one, a hairline at least."""
    return max(WIDEST * share / greatest, _NARROWEST) if greatest > 0 else _NARROWEST
