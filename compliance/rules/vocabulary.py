"""The names a formula may use, with their types: facts by subject, limits and tables of the rule."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from functools import cache

from compliance.facts.catalogue import ABOUTS, FACTS, WORD, YES_NO, FactSpec
from compliance.rules.formulas.types import TextType, Type, YesNoType, number_of_kind

_PROPOSED: dict[str, str] = {
    "wall.thickness wall.width": "wall.least_thickness wall.base_thickness",
    "wall.slenderness wall.ratio wall.height_to_width": "wall.height_to_thickness",
    "wall.clear_height wall.unsupported_height": "wall.height",
    "wall.free_length wall.span wall.clear_length": "wall.unsupported_length",
    "wall.top_thickness": "wall.least_thickness",
    "wall.bottom_thickness": "wall.base_thickness",
    "wall.strength wall.compressive_strength mix.strength mix.compressive_strength": "mix.lowest_compression",
    "wall.rupture wall.modulus mix.rupture mix.modulus": "mix.lowest_rupture",
    "wall.density mix.density": "mix.dry_density",
    "wall.load": "wall.line_load wall.base_load",
    "wall.stress": "wall.greatest_stress",
    "wall.weight": "wall.own_weight wall.unit_weight",
    "wall.plaster wall.plaster_thickness": "wall.outside_plaster wall.thickest_finish",
    "wall.opening_width": "wall.widest_opening",
    "wall.pier_width": "wall.narrowest_pier",
    "wall.footing_width": "footing.width",
    "wall.stories project.stories_count": "project.stories",
    "wall.load_bearing wall.bearing": "wall.bears_load",
    "wall.exterior wall.interior": "wall.use",
    "wall.shear wall.bracing": "wall.braces",
    "wall.supports wall.lateral_support": "wall.support_count wall.top_restraint wall.base_restraint",
    "wall.insulation wall.r_value": "wall.insulation_resistance",
    "wall.u_value": "wall.u_factor",
    "footing.depth": "footing.bottom footing.thickness",
    "footing.height": "footing.thickness",
    "footing.material footing.type": "footing.kind",
    "footing.steel footing.rebar footing.bars": "footing.bar_count",
    "stem.height": "stem.above_grade wall.stem_height",
    "stem.width": "stem.thickness",
    "stem.kind stem.type": "stem.material",
    "beam.height beam.thickness": "beam.depth",
    "beam.kind beam.type": "beam.material",
    "beam.bars beam.rebar beam.steel": "beam.bar_count beam.bar_diameter",
    "beam.bolt_diameter": "beam.anchor_diameter",
    "beam.bolt_spacing": "beam.anchor_spacing",
    "beam.lap": "beam.splice_lap",
    "roof.eave roof.eaves": "roof.overhang",
    "wall.eave wall.eaves": "wall.overhang",
    "roof.pitch": "roof.slope",
    "roof.load": "roof.dead roof.live roof.snow",
    "roof.snow_load": "roof.snow",
    "site.snow": "site.ground_snow",
    "site.category site.sdc site.seismic": "site.seismic_category",
    "project.occupancy": "project.use",
    "project.height": "project.building_height",
    "opening.length": "opening.width",
    "pier.length": "pier.width",
    "pier.thickness": "wall.least_thickness",
}
"""Names that rule authors write, with the facts that are safe to compare a limit with."""
_INSTEAD = {name: facts.split() for names, facts in _PROPOSED.items() for name in names.split()}
_FLATTERING = ("mean", "upper")
"""Words of facts that make a wall look better than its thinnest part: never proposed to who did not write them."""
_AROUND = ("wall", "mix", "site", "project")
_SAME_WORD, _SLIP = 0.75, 0.85


def known_instead(name: str, known: Iterable[str]) -> str:
    """What to write for the unknown `name`, each fact with what it is; empty where nothing means the same."""
    known = list(known)
    near = [one for one in _INSTEAD.get(name, ()) if one in known] or _alike(name, known)
    if not near:
        return ""
    if len(near) == 1 and near[0] not in FACTS:
        return f"did you mean {near[0]}?"
    called = " or ".join(f"{one} ({FACTS[one].label})" for one in near)
    return f"write {called}" if len(near) > 1 else f"did you mean {called}?"


def _alike(name: str, known: list[str]) -> list[str]:
    """A slip of typing of a name, the same field of the wall or what is around it, or all facts of the subject, three
    at most, that have every word of the name. Others that merely look alike measure something else."""
    about, _, field = name.rpartition(".")
    words = field.split("_")
    left_out = {word for word in _FLATTERING if not get_close_matches(word, words, cutoff=_SAME_WORD)}
    safe = [one for one in known if not left_out & set(one.rpartition(".")[2].split("_"))]
    slip = get_close_matches(name, safe, n=1, cutoff=_SLIP)
    if slip and slip[0].rpartition(".")[0] in (about, ""):
        return slip
    same = [one for one in safe if one in {f"{around}.{field}" for around in _AROUND}]
    if len(same) == 1:
        return same
    holding = [one for one in safe if one.startswith(f"{about}.") and {*words} <= {*one.rpartition(".")[2].split("_")}]
    return holding if about and len(holding) <= 3 else []


def type_of(spec: FactSpec) -> Type:
    """The type of a fact in a formula."""
    if spec.kind == YES_NO:
        return YesNoType()
    if spec.kind == WORD:
        return TextType(spec.choices or None)
    return number_of_kind(spec.kind)


@cache
def facts_for(about: str) -> dict[str, Type]:
    """Every fact a rule about `about` may use: its subject's own and those of the subjects it looks to."""
    types: dict[str, Type] = {}
    for one in (about, *ABOUTS[about]):
        types |= _own(one)
    return types


@cache
def _own(about: str) -> dict[str, Type]:
    return {spec.name: type_of(spec) for spec in _by_about().get(about, ())}


@cache
def _by_about() -> dict[str, list[FactSpec]]:
    specs: dict[str, list[FactSpec]] = {}
    for spec in FACTS.values():
        specs.setdefault(spec.about, []).append(spec)
    return specs
