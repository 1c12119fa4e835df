"""What the walls weigh: density of the earth, finishes, and the whole wall."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import elevation
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.steps import Given, Step


def unit_weight(building: Building, wall: Subject) -> Fact:
    """Density of the earth: as the mix states it, else that of its form [kg/m³]."""
    need = Needs(wall)
    mark = need.field(building.project.walls[wall.mark].mix, "walls", wall.mark, "mix")
    if need.lacks:
        return need.lacking
    mix = building.project.mixes[mark]
    if mix.dry_density is not None:
        value = mix.dry_density.si
        step = Step(f"Density of mix {mark}", "", (), Given("ρ", value, "density"), "as the project states it")
        return known(value, lambda: (step,))
    form = mix.form or "cob"
    table = building.screening.weights["earth"].get(form)
    value = need.use(table, "mixes", mark, "dry_density")
    if need.lacks or table is None:
        return need.lacking
    step = Step(f"Density of mix {mark}, not stated: taken for {form}", "", (), table.given("ρ"), table.source)
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
    value = math.fsum(STANDARD_GRAVITY * thick * density for _, thick, density in layers)

    def worked() -> tuple[Step, ...]:
        given: list[Given] = []
        for place, (says, thick, density) in enumerate(layers, 1):
            given += [Given(f"t{place}", thick, "thickness", says), Given(f"ρ{place}", density, "density", says)]
        formula = " + ".join(f"t{place} × ρ{place}" for place in range(1, len(layers) + 1))
        result = Given("w_f", value, "pressure")
        return (Step("Weight of the finishes", f"g × ({formula})", (GIVEN_GRAVITY, *given), result, "mass × gravity"),)

    return need.known(value, worked if layers else lambda: ())


def earth_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the earth of the whole wall, openings and taper counted [N]."""
    need = Needs(wall)
    density = need.number("wall.unit_weight")
    if need.lacks:
        return need.lacking
    value = elevation(building.views[wall.mark], density).whole_weight
    volume = value / (density * STANDARD_GRAVITY)
    given = (Given("ρ", density, "density"), GIVEN_GRAVITY, Given("V", volume, "volume", "openings taken off"))
    step = Step(f"Weight of the earth of {wall.mark}", "ρ × g × V", given, Given("W", value, "force"), "mass × gravity")
    return need.known(value, lambda: (step,))


def own_weight(building: Building, wall: Subject) -> Fact:
    """Mean weight of the wall along its length, finishes and openings counted [N/m]."""
    need = Needs(wall)
    earth, finish = need.number("wall.earth_weight"), need.number("wall.finish_weight")
    area, length = need.number("wall.net_area"), need.number("wall.length")
    if need.lacks:
        return need.lacking
    value = (earth + finish * area) / length
    given = (Given("W", earth, "force", "earth"), Given("w_f", finish, "pressure", "finishes"),
             Given("A", area, "area", "face without openings"), Given("L", length, "length"))  # fmt: skip
    step = Step(
        "Weight of the wall along its length",
        "(W + w_f × A) / L",
        given,
        Given("w", value, "line_load"),
        "by definition",
    )
    return need.known(value, lambda: (step,))
