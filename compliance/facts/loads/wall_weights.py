"""What the walls weigh: density of the earth, finishes, and the whole wall."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import elevation
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.load_balance import weight_of_earth
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import GRAVITY, STANDARD_GRAVITY, Series, Symbol
from compliance.steps import Given, Named, Step, no_steps


def unit_weight(building: Building, wall: Subject) -> Fact:
    """Density of the earth: as the mix states it, else that of its form [kg/m³]."""
    need = Needs(wall)
    mark = need.field(building.project.walls[wall.mark].mix, "walls", wall.mark, "mix")
    if need.lacks:
        return need.lacking
    mix = building.project.mixes[mark]
    if mix.dry_density is not None:
        value = mix.dry_density.si
        step = Step(
            Named("Density of mix {}", mark),
            formula="",
            given=(),
            result=Given("ρ", value, "density"),
            source="as the project states it",
        )
        return known(value, lambda: (step,))
    form = mix.form or "cob"
    table = building.screening.weights["earth"].get(form)
    value = need.use(table, "mixes", mark, "dry_density")
    if need.lacks or table is None:
        return need.lacking
    says = Named(f"Density of mix {{}}, not stated: taken for {form}", mark)
    step = Step(says, formula="", given=(), result=table.given("ρ"), source=table.source, is_assumed=True)
    return need.known(value, lambda: (step,))


def finish_weight(building: Building, wall: Subject) -> Fact:
    """Weight of both faces' finishes for each area of the wall [Pa]."""
    need, described = Needs(wall), building.project.walls[wall.mark]
    layers = []
    for face, found in (("outside", described.outside), ("inside", described.inside)):
        for index, layer in enumerate(need.field(found, "walls", wall.mark, face) or ()):
            path = ("walls", wall.mark, face, index)
            thick = need.field(si(layer.thickness), *path, "thickness")
            table = building.screening.weights["finish"].get(layer.material)
            own = si(layer.density)
            density = own if own is not None else need.use(table, *path, "density")
            layers.append((f"{layer.material}, {face}", thick, density))
    if need.lacks:
        return need.lacking
    thicknesses = [Given(f"t{place}", one, "thickness", says) for place, (says, one, _) in enumerate(layers, 1)]
    densities = [Given(f"ρ{place}", one, "density", says) for place, (says, _, one) in enumerate(layers, 1)]
    return need.worked(weight_of_finishes(thicknesses, densities)) if layers else need.known(0.0, no_steps)


weight_of_finishes = equation(
    "Weight of the finishes", "gravity * sum(thickness * density)", Symbol("w_f", "pressure"), "mass × gravity",
    thickness=Series("t", "thickness"), density=Series("ρ", "density"), gravity=GRAVITY,
)  # fmt: skip


def earth_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the earth of the whole wall, openings and taper counted [N]."""
    need = Needs(wall)
    density = need.number("wall.unit_weight")
    if need.lacks:
        return need.lacking
    volume = elevation(building.views[wall.mark], density).whole_weight / (density * STANDARD_GRAVITY)
    return need.worked(weight_of_earth.titled(Named("Weight of the earth of {}", wall.mark))(density, volume))


def own_weight(building: Building, wall: Subject) -> Fact:
    """Mean weight of the wall along its length, finishes and openings counted [N/m]."""
    need = Needs(wall)
    earth, finish = need.number("wall.earth_weight"), need.number("wall.finish_weight")
    area, length = need.number("wall.net_area"), need.number("wall.length")
    return need.solved(weight_along, earth, finish, area, length)


weight_along = equation(
    "Weight of the wall along its length", "(earth + finish * area) / length", Symbol("w", "line_load"),
    "by definition", earth=Symbol("W", "force", "earth"), finish=Symbol("w_f", "pressure", "finishes"),
    area=Symbol("A", "area", "face without openings"), length=Symbol("L", "length"),
)  # fmt: skip

EQUATIONS = (weight_of_finishes, weight_along)
