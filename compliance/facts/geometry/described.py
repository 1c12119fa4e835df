"""Facts that are simply what the user described: project, site, soils, stem walls, footings, beams, roofs."""

from __future__ import annotations

from compliance.facts.catalogue import STATED
from compliance.facts.common.fact import Fact, FactValue, FieldPath, known, lacking, stated
from compliance.facts.geometry.statements import SAME, height_of_parts, stories_of
from compliance.model.base import Described
from compliance.model.project import Project
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Roof
from compliance.steps import Given, Step
from compliance.units import Measure


def plain(value: object) -> FactValue | None:
    """A field's value as a fact's value: measures in SI, numbers as float."""
    if isinstance(value, Measure):
        return value.si
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return float(value)
    return str(value)


def field_facts(about: str, record: Described, path: FieldPath) -> dict[str, Fact]:
    """One fact for each field of a record that the catalogue calls stated."""
    return {f"{about}.{name}": stated(plain(getattr(record, name)), *path, name) for name in STATED[about]}


def project_facts(project: Project) -> dict[str, Fact]:
    """What the project states; stories and height at least those that its walls and roofs make."""
    facts = field_facts("project", project.project, ("project",))
    stories, height = project.project.stories, project.project.building_height
    if stories is not None:
        facts["project.stories"] = known(float(max(stories, stories_of(project))))
    if height is not None and (parts := height_of_parts(project)) > height.si * (1 + SAME):
        step = Step(
            "Height of stem wall, walls, bond beam and half the roof",
            formula="",
            given=(),
            result=Given("h", parts, "length"),
            source="sum; more than stated",
        )
        facts["project.building_height"] = known(parts, lambda: (step,))
    return facts


def site_facts(project: Project) -> dict[str, Fact]:
    return field_facts("site", project.site, ("site",)) | {"site.swell_test": known(_swell_test(project.site))}


def _swell_test(site: Site | None) -> str:
    """Which laboratory values of the ground are given. One of the three that belong together asks for the others."""
    if site is None:
        return "none"
    if site.expansion_index is not None:
        return "expansion-index"
    others = (site.plasticity_index, site.passing_no_200, site.finer_than_5_um)
    return "none" if all(one is None for one in others) else "plasticity"


def beam_facts(beam: BondBeam, path: FieldPath) -> dict[str, Fact]:
    facts = field_facts("beam", beam, path)
    for name in ("spacing", "diameter", "embedment", "shear"):
        value = plain(getattr(beam.anchors, name)) if beam.anchors else None
        where = (*path, "anchors", name) if beam.anchors else (*path, "anchors")
        facts[f"beam.anchor_{name}"] = stated(value, *where)
    return facts


def roof_facts(roof: Roof, path: FieldPath) -> dict[str, Fact]:
    """Thrust is held unless the description says that nothing holds it; unsaid, it is lacking."""
    facts = field_facts("roof", roof, path)
    held = roof.thrust_held_by
    facts["roof.thrust_held"] = known(held != "none") if held else lacking((*path, "thrust_held_by"))
    return facts
