"""How much of the walls is solid: of each, of each side of the building, and whether they brace it both ways."""

from __future__ import annotations

import math

from compliance.facts.bracing.inner_corners import outside_sides
from compliance.facts.bracing.solid_lengths import bracing_walls, chord, lengths, turned
from compliance.facts.common.fact import Fact, known
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.mechanics.lateral.in_plane import solid_share as share_of_side
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step


def solid_share(building: Building, wall: Subject) -> Fact:
    """How much of the wall's length is solid from bottom to top."""
    view = building.views[wall.mark]
    found = solid_over_length(_solid(view), view.place.line.length)
    return known(float(found), found.steps)


solid_over_length = equation(
    "Share of the wall that is solid", "solid / length", Symbol("", "share"), "from the plan",
    solid=Symbol("Σb", "length", "solid lengths"), length=Symbol("L", "length"),
)  # fmt: skip

least_share = equation("Least solid side", "min(side)", Symbol("", "share"), "the least of them",
                       side=Series("s", "share"))  # fmt: skip

EQUATIONS = (solid_over_length, least_share)


def _solid(view: WallView) -> float:
    return math.fsum(end - start for start, end in lengths(view))


def braced_both_ways(building: Building, project: Subject) -> Fact:
    """Whether the bracing walls hold the building in more than one direction. A closed ring runs in every direction."""
    need = Needs(project)
    marks = bracing_walls(building, need)
    within = need.use(building.screening["parallel_within"])
    if need.lacks:
        return need.lacking
    views = [building.views[mark] for mark in marks if _solid(building.views[mark]) > 0]
    directions = [chord(view)[0] for view in views]
    ring = any(view.placed.stretch.ring for view in views)
    both = ring or any(turned(directions[0], one) > within for one in directions)

    def worked() -> tuple[Step, ...]:
        along = ((f"Solid share along {_named(one)}", one) for one in _directions(views, within))
        steps = tuple(_share(one, says).step() for says, one in along)
        return (
            *steps,
            Step(
                "Bracing walls",
                formula="",
                given=(),
                result=Given("", ", ".join(marks) or "none", "word"),
                source="as described",
            ),
        )

    return need.known(both, worked)


def least_side_solid(building: Building, project: Subject) -> Fact:
    """The least solid share of the sides of the building, each as seen from outside; a side without a wall has none."""
    need = Needs(project)
    found = outside_sides(building, need)
    if need.lacks:
        return need.lacking
    shares = [share_of_side([one.solid], one.length, f"Solid share of the side {one.name}") for one in found]
    place = min(range(len(found)), key=lambda one: (shares[one], found[one].name))

    def worked() -> tuple[Step, ...]:
        given = [Given(f"s{number}", float(share), "share", f"Solid share of the side {one.name}")
                 for number, (one, share) in enumerate(zip(found, shares, strict=True), 1)]  # fmt: skip
        last = least_share.titled(f"Least solid side: {found[place].name}")(given)
        return (*(one.step() for one in shares), last.step())

    return known(float(shares[place]), worked)


def _directions(views: list[WallView], within: float) -> list[list[WallView]]:
    """Walls gathered by direction, each with the first that it is within the angle of."""
    found: list[list[WallView]] = []
    for view in views:
        near = [one for one in found if turned(chord(one[0])[0], chord(view)[0]) <= within * (1 + 1e-9)]
        if near:
            near[0].append(view)
        else:
            found.append([view])
    return found


def _named(views: list[WallView]) -> str:
    return " and ".join(sorted(view.mark for view in views))


def _share(views: list[WallView], says: str) -> Solved:
    lengths_of_walls = math.fsum(view.place.line.length for view in views)
    return share_of_side([_solid(view) for view in views], lengths_of_walls, says)
