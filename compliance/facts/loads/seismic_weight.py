"""What an earthquake shakes, and how hard it pushes the building along its walls."""

from __future__ import annotations

from compliance.facts.bracing.solid_lengths import house_walls
from compliance.facts.common.fact import Fact, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import elevation
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.end_loads import end_loads
from compliance.facts.loads.roof_beams import single_loads
from compliance.facts.mechanics.lateral.in_plane import base_shear as shear_of_weight
from compliance.facts.mechanics.lateral.in_plane import seismic_coefficient
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Named, Source


def shaking_weight(building: Building, wall: Subject) -> Fact:
    """Weight of what bears on the wall and of the upper half of the wall itself, as far as an earthquake shakes it
    at the
    height of the wall's top [N]: dead loads, a share of snow where it is heavy, and a stated load in full where no roof
    says what it is made of. The force of the lower half of the wall goes straight into its footing."""
    need, view = Needs(wall), building.views[wall.mark]
    described = view.wall
    dead, snow, length = (need.number(f"wall.{name}") for name in ("top_dead", "top_snow", "length"))
    face, density = need.number("wall.finish_weight"), need.number("wall.unit_weight")
    area, gable = need.number("wall.net_area"), need.number("wall.gable_weight")
    share = _snow_share(building, need)
    loads, past = single_loads(building, need, wall.mark), end_loads(building, need, wall.mark)
    if need.lacks:
        return need.lacking
    stated = max((si(described.line_load) or 0.0) - dead, 0.0) if not building.roofs_on(wall.mark) else 0.0
    points = sum(one.dead + share * one.snow for one in loads.values()) + gable
    points += sum(one.dead + share * one.snow for one in past)
    line = dead + share * snow + stated
    named = weight_shaken.titled(Named("Weight that shakes with {}", wall.mark))
    front, high = elevation(view, density), view.place.height
    return need.worked(named(line, length, points, front.weight(0.0, front.length, high / 2, high), face, area))


weight_shaken = equation(
    "Weight that shakes with the wall", "line * length + points + earth + finish * area / 2", Symbol("W_s", "force"),
    Source("mass × gravity; upper half of the wall, the lower half shakes with its footing: common practice"),
    line=Symbol("w", "line_load", "dead load on top, with what counts of snow or of a stated load"),
    length=Symbol("L", "length"), points=Symbol("P", "force", "single loads and the gable"),
    earth=Symbol("W", "force", "earth above mid-height"), finish=Symbol("w_f", "pressure", "finishes"),
    area=Symbol("A", "area", "face without openings"),
)  # fmt: skip


def _snow_share(building: Building, need: Needs) -> float:
    """The share of snow that counts as mass: none where no roof on the wall has so much (ASCE 7-10 section 12.7.2)."""
    above, share = (need.use(building.screening[name]) for name in ("snow_in_weight_above", "snow_in_weight"))
    loads = [need.number_of(building.subject("roof", one.roof).fact("roof.snow"))
             for one in building.roofs_on(need.subject.mark)]  # fmt: skip
    return share if any(load > above * (1 + 1e-9) for load in loads) else 0.0


def seismic_weight(building: Building, project: Subject) -> Fact:
    """Weight of the building that shakes, garden walls left out [N]."""
    need = Needs(project)
    if building.stories > 1:
        need.lack("forces along the walls are worked out for one story only")
    parts = [Given(mark, need.number_of(building.subject("wall", mark).fact("wall.shaking_weight")), "force")
             for mark in house_walls(building, need)]  # fmt: skip
    return need.solved(sum_of_weights, parts)


sum_of_weights = equation(
    "Weight that shakes", "sum(weight)", Symbol("W", "force"), "sum", weight=Series("W", "force")
)  # fmt: skip


def base_shear(building: Building, project: Subject) -> Fact:
    """Earthquake on the building at the level of allowable stresses [N]."""
    need = Needs(project)
    site = building.subject("site", "site")
    weight, sds = need.number("project.seismic_weight"), need.number_of(site.fact("site.sds"))
    importance = need.number_of(site.fact("site.importance"))
    response, least = need.use(building.screening["response"]), need.use(building.screening["least_coefficient"])
    level = building.screening["seismic_to_allowable"]
    need.use(level)
    if need.lacks:
        return need.lacking
    coefficient = seismic_coefficient(sds, response, importance, least)
    strength = shear_of_weight(coefficient, weight)
    return need.worked(coefficient, strength, allowable_shear.sourced(level.source)(level.given("c"), strength))


allowable_shear = equation(
    "Base shear at the level of allowable stresses", "level * strength", Symbol("V_a", "force"), "",
    level=Symbol("c"), strength=Symbol("V", "force", "base shear at strength level"),
)  # fmt: skip

EQUATIONS = (weight_shaken, sum_of_weights, allowable_shear)
