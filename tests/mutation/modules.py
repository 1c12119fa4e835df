"""Which tests look after which module."""

from __future__ import annotations

_MEASURES = ("tests/unit/test_measures.py", "tests/unit/test_described_units.py", "tests/unit/test_written_kinds.py")
_FORMULAS = (
    "tests/unit/test_formula_reading.py", "tests/unit/test_formula_checking.py",
    "tests/unit/test_formula_arithmetic.py", "tests/unit/test_formula_values.py",
    "tests/unit/test_formula_comparing.py",
    "tests/unit/test_formula_explaining.py",
)  # fmt: skip
_STATISTICS = (
    "tests/unit/test_statistics_basics.py", "tests/unit/test_statistics_governing.py",
    "tests/unit/test_statistics_outliers.py", "tests/unit/test_statistics_quantiles.py",
    "tests/published/test_tolerance_factors.py", "tests/published/test_outlier_examples.py",
    "tests/published/test_cmh17_strength_sets.py", "tests/published/test_en1990_prediction.py",
    "tests/published/test_nzs4298_scatter.py", "tests/unit/test_statistics_properties.py",
)  # fmt: skip
_PLAN = (
    "tests/unit/test_plan.py", "tests/unit/test_plan_lines.py", "tests/unit/test_plan_meetings.py",
    "tests/unit/test_plan_bounds.py", "tests/unit/test_openings.py", "tests/unit/test_opening_bays.py",
    "tests/unit/test_opening_bounds.py", "tests/unit/test_aspect_and_weight.py", "tests/unit/test_project_reading.py",
)  # fmt: skip
_JUDGING = (
    "tests/unit/test_judging.py", "tests/unit/test_amendments.py", "tests/unit/test_amendments_tightening.py",
    "tests/unit/test_coverage_of_walls.py",
    "tests/unit/test_specimen_results.py", "tests/unit/test_aspect_and_weight.py", "tests/unit/test_rule_truth.py",
    "tests/unit/test_judging_records.py", "tests/unit/test_judging_sets.py", "tests/published/test_aspect_factors.py",
)  # fmt: skip
_MECHANICS = (
    "tests/unit/test_mechanics_bounds.py", "tests/unit/test_mechanics_bracing.py",
    "tests/unit/test_mechanics_footings.py",
    "tests/unit/test_mechanics_formulas.py", "tests/unit/test_mechanics_gravity.py",
    "tests/unit/test_mechanics_lintels.py", "tests/unit/test_mechanics_margins.py",
    "tests/unit/test_mechanics_thrust.py", "tests/unit/test_mechanics_walls.py",
    "tests/published/test_beams_against_pynite.py", "tests/published/test_en1996_reduction.py",
    "tests/published/test_masonry_slenderness.py", "tests/published/test_out_of_plane_examples.py",
    "tests/published/test_rupture_examples.py", "tests/published/test_strip_footings.py",
)  # fmt: skip
_SITE = (
    "tests/unit/test_roof_actions.py", "tests/unit/test_site_actions.py", "tests/unit/test_site_and_roof_facts.py",
    "tests/unit/test_site_reference_files.py", "tests/published/test_asce7_seismic.py",
    "tests/published/test_asce7_wind.py", "tests/published/test_irc_seismic_category.py",
    "tests/published/test_snow.py", "tests/unit/test_site_bounds.py",
)  # fmt: skip
_LOADS = (
    "tests/unit/test_bracing_plan.py", "tests/unit/test_hand_worked_wall.py", "tests/unit/test_hand_worked_limits.py",
    "tests/unit/test_hand_worked_bending.py", "tests/unit/test_load_balance.py", "tests/unit/test_stability_facts.py",
    "tests/unit/test_structural_lines.py", "tests/unit/test_wall_load_facts.py", "tests/unit/test_roof_actions.py",
    "tests/unit/test_site_and_roof_facts.py", "tests/unit/test_screening_reference.py",
    "tests/published/test_structure_end_to_end.py", "tests/unit/test_structure_bounds.py",
    "tests/unit/test_bracing_plan_bounds.py",
    "tests/unit/test_column_bounds.py", "tests/unit/test_wall_pressures.py",
    "tests/unit/test_pier_bounds.py", "tests/unit/test_rocking_by_hand.py", "tests/unit/test_loads_told.py",
    "tests/unit/test_roofs_told.py", "tests/unit/test_sides_and_weights.py",
    "tests/unit/test_lintels_told.py", "tests/unit/test_pushes_told.py", "tests/unit/test_reference_parts.py",
    "tests/unit/test_walls_described.py", "tests/unit/test_loads_on_top.py",
)  # fmt: skip

MECHANICS_MODULES = (
    "anchorage", "beams", "bearing", "eccentricity", "footings", "gravity", "in_plane", "lintels", "out_of_plane",
    "piers", "rocking", "rupture", "slenderness", "spans", "thrust", "wall_weight",
)  # fmt: skip
SITE_MODULES = (
    "roof_layers", "seismic_category", "seismic_site", "site_actions", "snow", "wind", "wind_actions",
    "wind_on_building", "wind_on_walls",
)  # fmt: skip
LOAD_MODULES = (
    "axial_limits", "bent_sections", "brace_shares", "bracing", "bracing_facts", "bracing_plan", "columns",
    "footing_facts", "foundation_loads", "lateral_pressure", "lintel_facts", "load_balance", "load_path", "point_loads",
    "reference_values", "roof_actions", "shaking", "solid_shares", "spanning", "stability", "thrust_facts", "top_ties",
    "uplift_facts", "wall_facts", "wall_finishes", "wall_stress", "wall_weights",
)  # fmt: skip

MODULES: dict[str, tuple[str, ...]] = {
    "compliance.units.grammar": _MEASURES,
    "compliance.units.kinds": _MEASURES,
    "compliance.units.reach": _MEASURES,
    "compliance.units.unit_table": _MEASURES,
    "compliance.units.unit_words": _MEASURES,
    "compliance.units.writing": _MEASURES,
    "compliance.rules.formula": _FORMULAS,
    "compliance.rules.formula_lexing": _FORMULAS,
    "compliance.rules.formula_reading": _FORMULAS,
    "compliance.rules.formula_nodes": _FORMULAS,
    "compliance.rules.formula_types": _FORMULAS,
    "compliance.rules.formula_checking": _FORMULAS,
    "compliance.rules.formula_numbers": _FORMULAS,
    "compliance.rules.formula_eval": _FORMULAS,
    "compliance.rules.formula_comparing": _FORMULAS,
    "compliance.rules.formula_explaining": _FORMULAS,
    "compliance.rules.formula_writing": _FORMULAS,
    "compliance.rules.tables": ("tests/unit/test_table_look_up.py", *_JUDGING),
    "compliance.rules.limits": ("tests/unit/test_limits.py", *_JUDGING, "tests/unit/test_linting.py"),
    "compliance.rules.amending": _JUDGING,
    "compliance.facts.sample": _STATISTICS,
    "compliance.facts.statistics": _STATISTICS,
    "compliance.facts.governing": _STATISTICS,
    "compliance.facts.quantiles": _STATISTICS,
    "compliance.facts.tolerance": _STATISTICS,
    "compliance.facts.outliers": _STATISTICS,
    "compliance.facts.chain": ("tests/unit/test_chain.py", "tests/unit/test_evidence.py"),
    "compliance.facts.dixon": _STATISTICS,
    "compliance.model.lines": _PLAN,
    "compliance.facts.plan": _PLAN,
    "compliance.facts.openings": _PLAN,
    "compliance.facts.mechanics.sections": (
        "tests/unit/test_mechanics_sections.py", "tests/unit/test_mechanics_walls.py",
        "tests/unit/test_mechanics_gravity.py", "tests/published/test_sections_against_sectionproperties.py",
    ),
    "compliance.facts.mechanics.torsion": (
        "tests/unit/test_mechanics_bracing.py", "tests/unit/test_mechanics_torsion.py",
        "tests/published/test_torsion_against_numpy.py",
    ),
    **{f"compliance.facts.mechanics.{name}": _MECHANICS for name in MECHANICS_MODULES},
    **{f"compliance.facts.{name}": _SITE for name in SITE_MODULES},
    **{f"compliance.facts.{name}": _LOADS for name in LOAD_MODULES},
    "compliance.judging.aspect": _JUDGING,
    "compliance.judging.checks": _JUDGING,
    "compliance.judging.context": (*_JUDGING, "tests/unit/test_judging_context.py"),
    "compliance.judging.covers": _JUDGING,
    "compliance.judging.engineers_list": ("tests/unit/test_engineers_list.py",),
    "compliance.judging.examples": (*_JUDGING, "tests/unit/test_judging_examples.py", "tests/unit/test_linting.py"),
    "compliance.judging.judge": (*_JUDGING, "tests/unit/test_progress.py"),
    "compliance.judging.prepared": _JUDGING,
    "compliance.judging.questions": ("tests/unit/test_judging_questions.py", "tests/unit/test_amendments.py"),
    "compliance.judging.records": _JUDGING,
    "compliance.judging.telling": _JUDGING,
    "compliance.judging.test_sets": _JUDGING,
}  # fmt: skip
