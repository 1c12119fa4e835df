"""Facts that are simply what the user described: project, site, soils, stem walls, footings, beams, roofs."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.facts.common.fact import Fact, FactValue, FieldPath, known, lacking, stated
from compliance.model.base import Described
from compliance.model.project import Project
from compliance.model.structure import BondBeam, Roof
from compliance.units import Measure

PROJECT_FIELDS = ("stories", "building_height", "use")
SITE_FIELDS = (
    "seismic_category", "sds", "sd1", "s1", "wind_speed", "wind_exposure", "ground_snow", "frost_depth", "soil_bearing",
    "soil_group", "expansive_soil", "ground_slope", "rain_exposure", "dry_climate", "flood_zone", "seismic_zone",
    "zone_factor",
)  # fmt: skip
SOIL_FIELDS = ("depth", "clay", "organic", "material", "largest_stone", "largest_lump", "soluble_salts", "ribbon")
STEM_FIELDS = ("material", "thickness", "above_grade", "above_floor", "concrete_strength", "moisture_break")
FOOTING_FIELDS = ("kind", "width", "thickness", "bottom", "concrete_strength", "bar_count", "drain")
BEAM_FIELDS = (
    "material", "width", "depth", "continuous", "bar_count", "bar_diameter", "concrete_strength", "splice_lap",
    "splice_clear", "layer_thickness", "durable",
)  # fmt: skip
ROOF_FIELDS = ("kind", "span", "slope", "rafter_spacing", "overhang", "dead", "live", "snow")


def plain(value: object) -> FactValue | None:
    """A field's value as a fact's value: measures in SI, numbers as float."""
    if isinstance(value, Measure):
        return value.si
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return float(value)
    return str(value)


def field_facts(about: str, record: Described, fields: Iterable[str], path: FieldPath) -> dict[str, Fact]:
    """One fact for each named field of a record."""
    return {f"{about}.{name}": stated(plain(getattr(record, name)), *path, name) for name in fields}


def project_facts(project: Project) -> dict[str, Fact]:
    return field_facts("project", project.project, PROJECT_FIELDS, ("project",))


def site_facts(project: Project) -> dict[str, Fact]:
    return field_facts("site", project.site, SITE_FIELDS, ("site",))


def beam_facts(beam: BondBeam, path: FieldPath) -> dict[str, Fact]:
    facts = field_facts("beam", beam, BEAM_FIELDS, path)
    for name in ("spacing", "diameter", "embedment", "shear"):
        value = plain(getattr(beam.anchors, name)) if beam.anchors else None
        where = (*path, "anchors", name) if beam.anchors else (*path, "anchors")
        facts[f"beam.anchor_{name}"] = stated(value, *where)
    return facts


def roof_facts(roof: Roof, path: FieldPath) -> dict[str, Fact]:
    """Thrust is held unless the description says that nothing holds it; unsaid, it is lacking."""
    facts = field_facts("roof", roof, ROOF_FIELDS, path)
    held = roof.thrust_held_by
    facts["roof.thrust_held"] = known(held != "none") if held else lacking((*path, "thrust_held_by"))
    return facts
