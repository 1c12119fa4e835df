"""A wall as an energy code sees it: its heat capacity, its insulation and the side it is on, its U-factor."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.walls import Insulation
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given

_ROWS = {"0": "0-1", "1": "0-1", "7": "7-8", "8": "7-8"}
_MARINE = {"4C": "5"}


def energy_zone(building: Building, site: Subject) -> Fact:
    """The row of the tables of mass walls that the climate zone falls in: marine 4 goes with 5."""
    need = Needs(site)
    stated = building.project.site.climate_zone if building.project.site else None
    zone = need.field(stated, "site", "climate_zone")
    if need.lacks:
        return need.lacking
    return known(_MARINE.get(zone) or _ROWS.get(zone[0], zone[0]))


def heat_capacity(building: Building, wall: Subject) -> Fact:
    """Heat that a unit of area of the wall stores for each degree [J/(m² K)], at its least thickness. The density is
    that stated for the mix, never one that loads take for granted: a heavy one would be on the unsafe side here."""
    need = Needs(wall)
    density, specific = need.number("mix.dry_density"), _specific_heat(building, need, wall.mark)
    thick = min(ends_of_section(building.project.walls[wall.mark]))
    return need.solved(heat_stored, density, specific, thick)


def _specific_heat(building: Building, need: Needs, mark: str) -> float:
    """As the mix states it, with who says so, else the figure of common practice."""
    mixed = building.project.walls[mark].mix
    mix = building.project.mixes[mixed] if mixed else None
    if mixed is None or mix is None or mix.specific_heat is None:
        return need.use(building.screening["earth_specific_heat"])
    need.field(mix.thermal_source, "mixes", mixed, "thermal_source")
    return mix.specific_heat.si


def insulation_resistance(building: Building, wall: Subject) -> Fact:
    """Thermal resistance of the insulation alone [m² K/W]: neither the earth nor films of air count; zero for none."""
    need, layers = _layers(building, wall)
    if need.lacks:
        return need.lacking
    return need.worked(resistance_of_layers(_given(layers))) if layers else known(0.0)


def insulation_side(building: Building, wall: Subject) -> Fact:
    """`inside` where more than half of the insulation, by its resistance, is inside of the earth; else `outside`."""
    need, layers = _layers(building, wall)
    if need.lacks:
        return need.lacking
    total = sum(one.resistance.si for one in layers)
    inside = sum(one.resistance.si for one in layers if one.side == "inside")
    return known("inside" if 2 * inside > total * (1 + 1e-9) else "outside")


def u_factor(building: Building, wall: Subject) -> Fact:
    """Thermal transmittance [W/(m² K)] of insulation and earth, at the least thickness of the wall. Finishes and films
    of air are left out, on the safe side. The conductivity of the earth is never taken for granted."""
    need, layers = _layers(building, wall)
    mixed = need.field(building.project.walls[wall.mark].mix, "walls", wall.mark, "mix")
    if mixed is None:
        return need.lacking
    mix = building.project.mixes[mixed]
    conductivity = need.field(mix.conductivity, "mixes", mixed, "conductivity")
    need.field(mix.thermal_source, "mixes", mixed, "thermal_source")
    if need.lacks:
        return need.lacking
    thick = min(ends_of_section(building.project.walls[wall.mark]))
    own = resistance_of_earth(thick, conductivity.si)
    insulated = resistance_of_layers(_given(layers)) if layers else None
    through = transmittance(own, insulated or 0.0)
    return need.worked(own, *([insulated] if insulated else []), through)


def _layers(building: Building, wall: Subject) -> tuple[Needs, list[Insulation]]:
    need = Needs(wall)
    stated = need.field(building.project.walls[wall.mark].insulation, "walls", wall.mark, "insulation")
    return need, stated or []


def _given(layers: list[Insulation]) -> list[Given]:
    return [
        Given(f"R{index}", one.resistance.si, "thermal_resistance", ", ".join(filter(None, (one.material, one.side))))
        for index, one in enumerate(layers, 1)
    ]


_THICK = Symbol("t", "thickness", "least thickness")
_EARTH = Symbol("R_e", "thermal_resistance", "of the earth")
_LAYERS = Symbol("R_i", "thermal_resistance", "of the insulation")

heat_stored = equation(
    "Heat capacity of the wall", "density * specific * thickness", Symbol("C", "heat_capacity"), "by definition",
    density=Symbol("ρ", "density", "dry density of the mix"), specific=Symbol("c", "specific_heat", "specific heat"),
    thickness=_THICK,
)  # fmt: skip

resistance_of_layers = equation(
    "Thermal resistance of the insulation", "sum(layer)", _LAYERS, "layers in series",
    layer=Series("R", "thermal_resistance"),
)  # fmt: skip

resistance_of_earth = equation(
    "Thermal resistance of the earth", "thickness / conductivity", _EARTH, "by definition",
    thickness=_THICK, conductivity=Symbol("k", "conductivity", "conductivity of the earth"),
)  # fmt: skip

transmittance = equation(
    "U-factor of the wall", "1 / (earth + insulation)", Symbol("U", "thermal_transmittance"),
    "layers in series; finishes and films of air left out, on the safe side", earth=_EARTH, insulation=_LAYERS,
)  # fmt: skip

EQUATIONS = (heat_stored, resistance_of_layers, resistance_of_earth, transmittance)
