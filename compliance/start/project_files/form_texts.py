"""The files of a new project, their texts by name."""

from __future__ import annotations

from compliance.model.base import Described
from compliance.model.lab import own_table
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.model.materials import Mix, Soil, TestSet
from compliance.model.people import (
    Attachment,
    Attestation,
    InspectionRecord,
    Jurisdiction,
    OfficialComment,
    People,
    ProjectHead,
)
from compliance.model.project import Project
from compliance.model.site import Room, Site, SitePlan
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.trials import Batch, Trial
from compliance.model.walls import Buttress, Wall, WallBuild
from compliance.schemas import shipped_schema
from compliance.start.project_files.blank_values import BlankValues
from compliance.start.project_files.field_hints import field_hints
from compliance.start.project_files.form_lines import Form
from compliance.start.project_files.project_sections import Tree

SCHEMA = "schemas/project.schema.json"
_AMENDMENT_SCHEMA = "schemas/amendment.schema.json"
_SAY = """\
## {what}
## A line that begins with # and a space is a blank: take both away, from the heading above it too, and put your own
## value in place of the one suggested, which only shows the form. Lines with ## are notes.
## A measure always has its unit: 16 in, 8 ft 6 in, 8'-6", 400 mm, 2.4 m, 60 psi, 0.4 MPa, 110 mph.
"""
_AMENDMENTS = (
    f"# yaml-language-server: $schema={_AMENDMENT_SCHEMA}\n"
    + """\
## Changes to limits of the adopted rule sets, each with who read it, when and where. `earthwall confirm` writes them.
title: {title}

## changes:
##   - rule_set: {rule_set}
##     rule: id of the rule, as `earthwall limits` prints it
##     limit: name of the limit
##     value: as you read it, with its unit
##     standing: confirmed
##     by: who read it
##     on: the day, as 2026-05-14
##     where: the place in the adopted copy
"""
)
_Section = tuple[str, type[Described], str, str]
_TESTS: _Section = (
    "test_sets", TestSet, "T1", "Sets of specimens of one mix. Their rows stand in lab/ under the same mark.",
)  # fmt: skip
_GROUND: tuple[_Section, ...] = (
    ("soils", Soil, "S1", "Soils and aggregates, each with where it comes from and what was tried on it."),
    ("trials", Trial, "P1", "Trial mixes."),
    ("mixes", Mix, "M1", "What goes into the walls. A changed proportion is another mix with its own tests."),
    ("batches", Batch, "A1", "Batches mixed for the walls."),
)
_STANDS_ON: tuple[_Section, ...] = (
    ("stems", Stem, "ST1", "Stem walls, between footing and earth."),
    ("footings", Footing, "F1", "Footings."),
    ("beams", BondBeam, "B1", "Bond beams, on top of the walls."),
)
_WALL_BLANKS = ("name", "openings", "placed_from")
_OWN_WALL_BLANKS = (*_WALL_BLANKS, "use", "bears_load", "braces", "top_restraint", "mix", "stem", "footing", "beam")
# What stands in a way of its own in the files, `lab`, which only tables with other headings need, and `accepted`, which
# a command writes.
_PLACED = {
    "project", "people", "jurisdiction", "site", "roofs", "attachments", "attestations", "inspections", "comments",
    "accepted", "amendments", "wall_types", "walls", "buttresses", "rooms", "site_plan", "lab", "test_sets",
    *(section for section, *_ in (*_GROUND, *_STANDS_ON)),
}  # fmt: skip


def project_files(tree: Tree) -> dict[str, str]:
    """Texts by the path in the new folder."""
    form = Form(BlankValues(tree), field_hints())
    of_the_building = {} if "walls" not in tree else {"walls.yaml": _walls(form, tree)}
    for rule_set in tree["jurisdiction"]["rule_sets"][:1] if "jurisdiction" in tree else ():
        amendments = _AMENDMENTS.format(title=f"Amendments for {rule_set}", rule_set=rule_set)
        of_the_building |= {
            "amendments.yaml": amendments,
            _AMENDMENT_SCHEMA: shipped_schema("amendment.schema.json"),
        }
    return {
        "project.yaml": _project(form, tree),
        "ground.yaml": _ground(form, tree),
        **of_the_building,
        **{own_table(kind): _lab_heading(columns, tree["project"]["units"]) for kind, columns in COLUMNS.items()},
        "photos/README.txt": "Photos belong here. Name each under attachments: in project.yaml.\n",
        "papers/README.txt": "Reports and drawings belong here. Name each under attachments: in project.yaml.\n",
        SCHEMA: shipped_schema("project.schema.json"),
    }


def building_file(tree: Tree) -> str:
    """What a project that began with the earth gains when its building is described: whose rules, site, roofs, what
    the walls stand on, walls."""
    form = Form(BlankValues(tree), field_hints())
    lines = _SAY.format(what="The building, and by whose rules it is checked.").splitlines()
    lines.append("")
    if "jurisdiction" in tree:
        lines += _head("jurisdiction", Jurisdiction, form, tree)
    lines += _head("site", Site, form, tree)
    lines += [*form.named("roofs", Roof, tree.get("roofs", {}), "R1"), ""]
    for section in _STANDS_ON:
        lines += [*_named(form, tree, section), ""]
    for section in (_TESTS,) if "test_sets" in tree else ():
        lines += [*_named(form, tree, section), ""]
    if "people" in tree:
        lines += _head("people", People, form, tree)
    return "\n".join(lines) + "\n" + _walls(form, tree, head=False)


def _project(form: Form, tree: Tree) -> str:
    is_building = "walls" in tree
    what = "What is built, by whom, and by whose rules." if is_building else "The earth: what it is for, and by whom."
    lines = [f"# yaml-language-server: $schema={SCHEMA}"]
    lines += [*_SAY.format(what=what).splitlines(), ""]
    lines += ["project:", *form.record(ProjectHead, tree["project"], 2, "project"), ""]
    lines += _head("people", People, form, tree)
    if is_building:
        lines += ["jurisdiction:", *form.record(Jurisdiction, tree["jurisdiction"], 2, "jurisdiction"), ""]
        lines += ["include: [ground.yaml, walls.yaml]", "amendments: [amendments.yaml]", ""]
        lines += _head("site", Site, form, tree)
        lines += [*form.named("roofs", Roof, tree.get("roofs", {}), "R1"), ""]
    else:
        lines += [
            "## Whose rules say how a mix is tested: with the building, or written here (earthwall rules list):",
            "## jurisdiction: {name: Quillmoor County, rule_sets: [cob-irc-2021-au, earth-evidence]}",
            "",
            "include: [ground.yaml]",
            "",
        ]
    lines += [*_named(form, tree, _TESTS), ""]
    lines += [
        "## Files of this folder that go with the submittal.",
        *form.named("attachments", Attachment, {}, "A1"),
        "",
    ]
    lines += ["## Answers that only a person can give: a check lists those still needed."]
    lines += [*form.listed("attestations", Attestation), ""]
    lines += ["## What came of looking at the work.", *form.listed("inspections", InspectionRecord), ""]
    lines += ["## Comments of the official on an earlier revision.", *form.listed("comments", OfficialComment)]
    lines += [f"## {name}:" for name in Project.model_fields if name not in _PLACED]
    return "\n".join(lines) + "\n"


def _head(name: str, model: type[Described], form: Form, tree: Tree) -> list[str]:
    """A section that is one record; behind # as a whole while nothing in it is known."""
    return [*form.head(name, model, tree.get(name, {})), ""]


def _ground(form: Form, tree: Tree) -> str:
    lines = [*_SAY.format(what="The earth, and what the walls stand on.").splitlines(), ""]
    for section in (*_GROUND, *(_STANDS_ON if "walls" in tree else ())):
        lines += [*_named(form, tree, section), ""]
    return "\n".join(lines).rstrip("\n") + "\n"


def _named(form: Form, tree: Tree, section: _Section) -> list[str]:
    name, model, sample, says = section
    return [f"## {says}", *form.named(name, model, tree.get(name, {}), sample)]


def _walls(form: Form, tree: Tree, head: bool = True) -> str:
    what = "The walls. Points lie on their centerlines, from the south-west corner: first east, then north."
    lines = _SAY.format(what=what).splitlines() if head else [f"## {what}"]
    lines += ["## A wall takes from its type what it does not say itself.", ""]
    types = tree.get("wall_types", {})
    lines += [*form.named("wall_types", WallBuild, types, "outer"), "", "walls:"]
    for mark, wall in tree["walls"].items():
        blanks = _WALL_BLANKS if wall.get("type") in types else _OWN_WALL_BLANKS
        lines += [f"  {mark}:", *form.record(Wall, wall, 4, "walls", blanks), ""]
    lines += [*form.named("buttresses", Buttress, {}, "BT1"), "", *form.named("rooms", Room, {}, "A")]
    lines += ["", *form.head("site_plan", SitePlan, {})]
    return "\n".join(lines) + "\n"


def _lab_heading(columns: dict[str, LabColumn], units: str) -> str:
    """The headings of a lab table, their units as the project's."""
    from compliance.units import Writer

    writer = Writer("si" if units == "si" else "us")
    return ",".join(column.heading(writer) for column in columns.values()) + "\n"
