"""From the wall's base down to the soil: stem wall, footing, and the load along the footing where it is greatest."""

from __future__ import annotations

import math

from compliance.facts.common.coefficients import Coefficients
from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.bearing import spread
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol
from compliance.steps import Given, Named


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
    dense = Given("ρ", density, "density", stem.material)
    return need.worked(weight_of_stem.titled(Named("Weight of stem wall {}", mark))(dense, thick, height))


weight_of_stem = equation(
    "Weight of the stem wall", "density * gravity * thickness * height", Symbol("w_s", "line_load"), "mass × gravity",
    density=Symbol("ρ", "density"), thickness=Symbol("t", "thickness"), height=Symbol("h_s", "length"), gravity=GRAVITY,
)  # fmt: skip

height_of_stem = equation(
    "Height of the stem wall", "max(above + bottom - thickness, 0)", Symbol("h_s", "length"), "as described",
    above=Symbol("a", "length", "over the ground"), bottom=Symbol("D", "length", "underside of the footing"),
    thickness=Symbol("d", "thickness", "thickness of the footing"),
)  # fmt: skip

weight_of_footing = equation(
    "Weight of the footing", "density * gravity * width * thickness", Symbol("w_F", "line_load"), "mass × gravity",
    density=Symbol("ρ", "density"), width=Symbol("B", "thickness"), thickness=Symbol("d", "thickness"), gravity=GRAVITY,
)  # fmt: skip

load_along_footing = equation(
    "Greatest load along the footing", "max(column / reach + sills, mean) + stem", Symbol("n", "line_load"), "",
    column=Symbol("N", "force"), reach=Symbol("l", "length", "length that shares it, through the stem wall"),
    sills=Symbol("w_u", "line_load", "wall under sills"), mean=Symbol("w_m", "line_load", "mean of the whole wall"),
    stem=Symbol("w_s", "line_load", "stem wall"),
)  # fmt: skip

EQUATIONS = (weight_of_stem, height_of_stem, weight_of_footing, load_along_footing)


def stem_height(building: Building, wall: Subject) -> Fact:
    """From the top of the footing to the top of the stem wall [m]; zero without a stem wall."""
    if building.project.walls[wall.mark].stem is None:
        return known(0.0)
    need = Needs(wall)
    above, bottom, thick = (need.number(name) for name in ("stem.above_grade", "footing.bottom", "footing.thickness"))
    return need.solved(height_of_stem, above, bottom, thick)


def footing_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the footing along the wall [N/m]."""
    need = Needs(wall)
    wide, thick = need.number("footing.width"), need.number("footing.thickness")
    density = need.number("wall.footing_density")
    return need.solved(weight_of_footing, density, wide, thick)


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
    mean, named = found.total / found.earth.length, load_along_footing.sourced(building.screening["stem_spread"].source)
    lines = []
    for index, column in enumerate(found.all):
        pressing = Given("N", float(column.at_base), "force", Named("{} at its base", column.name or "wall"))
        if column.width <= 0:
            lines.append(named.without_value(math.inf, pressing))
        else:
            lines.append(named(pressing, *_spread(found, index, height, angle), mean, stem))
    return need.worked(max(lines))


def _spread(found: Columns, index: int, height: float, angle: float) -> tuple[float, float]:
    """Length that shares a column's load [m], and the load of wall under sills beside it [N/m]."""
    column: Column = found.all[index]
    before, after = (gap / 2 for gap in column.gaps)
    _, reach = spread(column.width, below=height, angle=angle, left_room=before, right_room=after)
    beside = [i for i in (index - 1, index) if 0 <= i < len(found.below_sills)]
    gaps = {index - 1: column.gaps[0], index: column.gaps[1]}
    return reach, max((found.below_sills[i] / gaps[i] for i in beside if gaps[i] > 0), default=0.0)
