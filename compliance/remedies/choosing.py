"""What a builder can change to meet a rule: the field a rule names, and those behind the facts it compares."""

from __future__ import annotations

from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding
from compliance.remedies.changes import Change
from compliance.remedies.field_changes import ChangeOption, field_options
from compliance.remedies.plan_changes import PLAN_OPTIONS
from compliance.remedies.trial_judging import ChangeTester
from compliance.rules.rule_set import Rule

# The changes behind each fact that a builder can alter in the plan. What the site, a load or a test gives is no
# builder's to change, so no fact of these stands here.
BEHIND_FACTS: dict[str, tuple[str, ...]] = {
    "project.building_height": ("project.building_height",),
    "wall.height": ("wall.height",),
    "wall.base_thickness": ("wall.thickness",),
    "wall.least_thickness": ("wall.thickness",),
    "wall.mean_thickness": ("wall.thickness",),
    "wall.upper_thickness": ("wall.thickness",),
    "wall.height_to_thickness": ("wall.thickness", "wall.height"),
    "wall.unsupported_length": ("wall.unsupported_length",),
    "wall.support_count": ("wall.unsupported_length",),
    "wall.free_ends": ("wall.free_ends",),
    "wall.widest_opening": ("wall.widest_opening",),
    "wall.opening_share": ("wall.widest_opening",),
    "wall.narrowest_pier": ("wall.narrowest_pier",),
    "wall.overhang": ("roof.overhang",),
    "wall.lift_height": ("wall.lift_height",),
    "opening.width": ("opening.width",),
    "opening.share": ("opening.width",),
    "opening.height": ("opening.height",),
    "opening.head": ("opening.height", "wall.height"),
    "opening.bay": ("wall.unsupported_length",),
    "opening.corner_distance": ("opening.start", "opening.width"),
    "opening.brace_distance": ("opening.start", "opening.width"),
    "opening.lintel_bearing": ("opening.lintel.bearing",),
    "opening.lintel_depth": ("opening.lintel.depth",),
    "opening.lintel_width": ("opening.lintel.width",),
    "opening.sill_slope": ("opening.sill_slope",),
    "pier.width": ("pier.width",),
    "pier.solid_width": ("pier.width",),
    "pier.width_to_thickness": ("pier.width",),
    "stem.thickness": ("stem.thickness",),
    "stem.above_grade": ("stem.above_grade",),
    "footing.width": ("footing.width",),
    "footing.thickness": ("footing.thickness",),
    "footing.bottom": ("footing.bottom",),
    "footing.bar_count": ("footing.bar_count",),
    "beam.width": ("beam.width",),
    "beam.depth": ("beam.depth",),
    "beam.bar_count": ("beam.bar_count",),
    "beam.bar_diameter": ("beam.bar_diameter",),
    "beam.splice_lap": ("beam.splice_lap",),
    "beam.anchor_spacing": ("beam.anchors.spacing",),
    "beam.anchor_diameter": ("beam.anchors.diameter",),
    "beam.anchor_embedment": ("beam.anchors.embedment",),
    "stem.above_floor": ("stem.above_floor",),
    "beam.layer_thickness": ("beam.layer_thickness",),
    "beam.splice_clear": ("beam.splice_clear",),
    "wall.stabilised_to": ("wall.stabilised_to",),
    "wall.unit_lap": ("wall.unit_lap",),
    "wall.drying_hole_diameter": ("wall.drying_hole_diameter",),
    "wall.drying_hole_spacing": ("wall.drying_hole_spacing",),
    "wall.top_stress": ("wall.thickness",),
    "wall.middle_stress": ("wall.thickness",),
    "wall.base_stress": ("wall.thickness",),
    "wall.greatest_stress": ("wall.thickness",),
    "wall.eccentricity": ("wall.thickness",),
    "wall.axial_use": ("wall.thickness", "wall.height"),
    "wall.bending_tension": ("wall.thickness",),
    "wall.bending_use": ("wall.thickness",),
    "wall.rocking_factor": ("wall.thickness", "wall.height"),
    "wall.shortest_panel": ("wall.narrowest_pier",),
    "wall.panel_aspect": ("wall.narrowest_pier", "wall.height"),
    "wall.line_panels": ("wall.widest_opening",),
    "wall.shear_stress": ("wall.thickness", "wall.widest_opening"),
    "wall.tipping_factor": ("wall.thickness", "wall.widest_opening"),
    "wall.soil_pressure": ("footing.width",),
    "wall.footing_needed": ("footing.width",),
    "wall.footing_tension": ("footing.thickness", "footing.width"),
    "wall.beam_moment": ("wall.unsupported_length",),
    "wall.anchor_spacing_most": ("beam.anchors.spacing",),
    "opening.lintel_bending": ("opening.lintel.depth", "opening.lintel.width"),
    "opening.lintel_shear": ("opening.lintel.depth", "opening.lintel.width"),
    "opening.lintel_pressure": ("opening.lintel.bearing",),
    "roof.overhang": ("roof.overhang",),
    "roof.rafter_spacing": ("roof.rafter_spacing",),
}


def options_for(tester: ChangeTester, finding: Finding) -> list[ChangeOption]:
    """Every way worth trying for a finding, the one its rule names first, each once. None for what rests on tests
    or on a person's word."""
    if finding.kind not in ("limit", "table"):
        return []
    rule = tester.rules[finding.rule_set, finding.rule]
    subject = tester.checked.facts.of(finding.about)[finding.subject]
    found: dict[Change, ChangeOption] = {}
    for change in _changes(rule):
        step = rule.remedy.step if rule.remedy and rule.remedy.change == change else None
        special = PLAN_OPTIONS.get(_as_for(change, subject))
        for option in special(tester, subject, step) if special else field_options(tester, change, subject, step):
            found.setdefault(option.change(option.now), option)
    return list(found.values())


def _as_for(change: str, subject: Subject) -> str:
    """A pier has no fields of its own: to move or narrow an opening for it means those beside it."""
    return "pier.width" if subject.about == "pier" and change in ("opening.start", "opening.width") else change


def _changes(rule: Rule) -> list[str]:
    named = [rule.remedy.change] if rule.remedy and rule.remedy.change else []
    used = sorted(rule.check.names & FACTS.keys()) if rule.check else []
    return list(dict.fromkeys([*named, *(change for fact in used for change in BEHIND_FACTS.get(fact, ()))]))
