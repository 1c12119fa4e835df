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
    "tests/unit/test_equations.py", "tests/unit/test_mechanics_gravity.py",
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
    "mechanics.anchorage", "mechanics.beams", "mechanics.bearing", "mechanics.eccentricity", "mechanics.footings",
    "mechanics.gravity", "mechanics.lateral.in_plane", "mechanics.lintels", "mechanics.lateral.out_of_plane",
    "mechanics.lateral.piers", "mechanics.lateral.rocking", "specimens.rupture", "mechanics.slenderness",
    "mechanics.spans", "mechanics.thrust", "mechanics.wall_weight",
)  # fmt: skip
SITE_MODULES = (
    "site.roof_layers", "site.seismic_category", "site.seismic_site", "site.site_actions", "site.snow",
    "site.wind", "site.wind_actions", "site.wind_on_building", "site.wind_on_walls",
)  # fmt: skip
LOAD_MODULES = (
    "strength.axial_limits", "strength.out_of_plane_sections", "bracing.brace_shares", "bracing.brace_forces",
    "bracing.bracing_facts", "bracing.solid_lengths", "geometry.columns", "strength.footing_facts",
    "loads.foundation_loads", "loads.lateral_pressure", "strength.lintel_facts", "loads.load_balance",
    "loads.load_path", "loads.point_loads", "common.reference_values", "site.roof_actions",
    "loads.seismic_weight", "bracing.solid_shares", "strength.spanning", "strength.stability",
    "loads.thrust_facts", "strength.top_ties", "loads.uplift_facts", "geometry.wall_facts",
    "geometry.wall_finishes", "strength.wall_stress", "loads.wall_weights",
)  # fmt: skip

MODULES: dict[str, tuple[str, ...]] = {
    "compliance.units.everyday": _MEASURES,
    "compliance.units.grammar": _MEASURES,
    "compliance.units.kinds": _MEASURES,
    "compliance.units.reach": _MEASURES,
    "compliance.units.unit_table": _MEASURES,
    "compliance.units.unit_words": _MEASURES,
    "compliance.units.writing": _MEASURES,
    "compliance.rules.formulas.formula": _FORMULAS,
    "compliance.rules.formulas.lexing": _FORMULAS,
    "compliance.rules.formulas.parsing": _FORMULAS,
    "compliance.rules.formulas.nodes": _FORMULAS,
    "compliance.rules.formulas.types": _FORMULAS,
    "compliance.rules.formulas.dimensions": _FORMULAS,
    "compliance.rules.formulas.numbers": _FORMULAS,
    "compliance.rules.formulas.evaluating": _FORMULAS,
    "compliance.rules.formulas.comparisons": _FORMULAS,
    "compliance.rules.formulas.explaining": _FORMULAS,
    "compliance.rules.formulas.printing": _FORMULAS,
    "compliance.rules.formulas.equations": ("tests/unit/test_equations.py",),
    "compliance.rules.formulas.series": ("tests/unit/test_equations.py",),
    "compliance.rules.formulas.symbols": ("tests/unit/test_equations.py",),
    "compliance.rules.tables": ("tests/unit/test_table_look_up.py", *_JUDGING),
    "compliance.rules.limit_values": ("tests/unit/test_limits.py", *_JUDGING, "tests/unit/test_linting.py"),
    "compliance.rules.amending": _JUDGING,
    "compliance.facts.specimens.sample": _STATISTICS,
    "compliance.facts.specimens.statistics": _STATISTICS,
    "compliance.facts.specimens.governing": _STATISTICS,
    "compliance.facts.specimens.quantiles": _STATISTICS,
    "compliance.facts.specimens.tolerance": _STATISTICS,
    "compliance.facts.specimens.outliers": _STATISTICS,
    "compliance.facts.evidence.chain": ("tests/unit/test_chain.py", "tests/unit/test_evidence.py"),
    "compliance.facts.specimens.dixon": _STATISTICS,
    "compliance.model.lines": _PLAN,
    "compliance.facts.geometry.wall_plan": _PLAN,
    "compliance.facts.geometry.openings": _PLAN,
    "compliance.facts.mechanics.sections": (
        "tests/unit/test_mechanics_sections.py", "tests/unit/test_mechanics_walls.py",
        "tests/unit/test_mechanics_gravity.py", "tests/published/test_sections_against_sectionproperties.py",
    ),
    "compliance.facts.mechanics.lateral.torsion": (
        "tests/unit/test_mechanics_bracing.py", "tests/unit/test_mechanics_torsion.py",
        "tests/published/test_torsion_against_numpy.py",
    ),
    **{f"compliance.facts.{name}": _MECHANICS for name in MECHANICS_MODULES},
    **{f"compliance.facts.{name}": _SITE for name in SITE_MODULES},
    **{f"compliance.facts.{name}": _LOADS for name in LOAD_MODULES},
    "compliance.facts.energy.mass_walls": (
        "tests/unit/test_mass_walls.py", "tests/published/test_irc_energy_mass_walls.py",
    ),
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
    "compliance.judging.reasons": _JUDGING,
    "compliance.judging.test_sets": _JUDGING,
}  # fmt: skip
