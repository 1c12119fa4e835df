"""From the wall's base down to the soil: stem wall, footing, and the load along the footing where it is greatest."""

from __future__ import annotations

import math

from compliance.facts.common.coefficients import Coefficients
from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.bearing import spread_length
from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.steps import Given, Step


def _density(need: Needs, table: Coefficients, stated: float | None, material: str, *path: str) -> float:
    return stated if stated is not None else need.use(table.get(material), *path, "density")


def stem_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the stem wall along the wall [N/m]; zero where there is none. It reaches from the footing's top to the
    least height over the ground."""
    mark = building.project.walls[wall.mark].stem
    if mark is None:
        return known(0.0)
    need = Needs(wall)
    stem, height = building.project.stems[mark], need.number("wall.stem_height")
    thick = need.number("stem.thickness")
    density = _density(need, building.screening.weights["stem"], si(stem.density), stem.material, "stems", mark)
    if need.lacks:
        return need.lacking
    value = density * STANDARD_GRAVITY * thick * height
    given = (Given("ρ", density, "density", stem.material), GIVEN_GRAVITY, Given("t", thick, "thickness"),
             Given("h_s", height, "length"))  # fmt: skip
    step = Step(
        f"Weight of stem wall {mark}", "ρ × g × t × h_s", given, Given("w_s", value, "line_load"), "mass × gravity"
    )
    return need.known(value, lambda: (step,))


def stem_height(building: Building, wall: Subject) -> Fact:
    """From the top of the footing to the top of the stem wall [m]; zero without a stem wall."""
    if building.project.walls[wall.mark].stem is None:
        return known(0.0)
    need = Needs(wall)
    above, bottom, thick = (need.number(name) for name in ("stem.above_grade", "footing.bottom", "footing.thickness"))
    if need.lacks:
        return need.lacking
    value = max(above + bottom - thick, 0.0)
    given = (Given("a", above, "length", "over the ground"), Given("D", bottom, "length", "underside of the footing"),
             Given("d", thick, "thickness", "thickness of the footing"))  # fmt: skip
    step = Step("Height of the stem wall", "max(a + D − d, 0)", given, Given("h_s", value, "length"), "as described")
    return need.known(value, lambda: (step,))


def footing_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the footing along the wall [N/m]."""
    need = Needs(wall)
    wide, thick = need.number("footing.width"), need.number("footing.thickness")
    density = need.number("wall.footing_density")
    if need.lacks:
        return need.lacking
    value = density * STANDARD_GRAVITY * wide * thick
    given = (Given("ρ", density, "density"), GIVEN_GRAVITY, Given("B", wide, "thickness"),
             Given("d", thick, "thickness"))  # fmt: skip
    step = Step("Weight of the footing", "ρ × g × B × d", given, Given("w_F", value, "line_load"), "mass × gravity")
    return need.known(value, lambda: (step,))


def footing_density(building: Building, wall: Subject) -> Fact:
    """As the footing states it, else that of its kind [kg/m³]."""
    need = Needs(wall)
    mark = need.field(building.project.walls[wall.mark].footing, "walls", wall.mark, "footing")
    if need.lacks:
        return need.lacking
    footing, table = building.project.footings[mark], building.screening.weights["footing"]
    return need.known(
        _density(need, table, si(footing.density), footing.kind, "footings", mark), lambda: ()
    )  # fmt: skip


def soil_load(building: Building, wall: Subject) -> Fact:
    """Load along the footing where it is greatest, the footing's own weight left out [N/m].

    Each column spreads through the stem wall to both sides, at most to the middle of an opening; wall under a sill and
    the stem wall come on top. Never less than the mean of the whole wall.
    """
    need = Needs(wall)
    found = columns(building, need, wall)
    stem, height = need.number("wall.stem_weight"), need.number("wall.stem_height")
    angle = need.use(building.screening["stem_spread"])
    if need.lacks or found is None:
        return need.lacking
    lines = [(_spread(found, index, height, angle), column) for index, column in enumerate(found.all)]
    (reach, line), worst = max(lines, key=lambda one: one[0][1])
    mean = found.total / found.earth.length
    value = max(line, mean) + stem

    def worked() -> tuple[Step, ...]:
        given = (Given("N", worst.at_base, "force", f"{worst.name or 'wall'} at its base"),
                 Given("l", reach, "length", "length that shares it, through the stem wall"))  # fmt: skip
        sills = Given("w_u", line - worst.at_base / reach if reach else 0.0, "line_load", "wall under sills")
        even = Given("w_m", mean, "line_load", "mean of the whole wall")
        own = Given("w_s", stem, "line_load", "stem wall")
        return (Step("Greatest load along the footing", "max(N / l + w_u, w_m) + w_s", (*given, sills, even, own),
                     Given("n", value, "line_load"), building.screening["stem_spread"].source),)  # fmt: skip

    return need.known(value, worked)


def _spread(found: Columns, index: int, height: float, angle: float) -> tuple[float, float]:
    """Length that shares a column's load [m] and the load along it, wall under sills beside it included [N/m]."""
    column: Column = found.all[index]
    before, after = (gap / 2 for gap in column.gaps)
    if column.width <= 0:
        return 0.0, math.inf
    reach = spread_length(column.width, height, angle, before, after)
    beside = [i for i in (index - 1, index) if 0 <= i < len(found.below_sills)]
    gaps = {index - 1: column.gaps[0], index: column.gaps[1]}
    sills = max((found.below_sills[i] / gaps[i] for i in beside if gaps[i] > 0), default=0.0)
    return reach, column.at_base / reach + sills
