"""Facts of stem walls, footings and bond beams."""

from __future__ import annotations

from compliance.facts.common.fact_spec import WORD, YES_NO, FactSpec

SUPPORT_FACTS = (
    # stem
    FactSpec("stem.material", WORD, "material of the stem wall", choices=("concrete", "concrete-masonry", "stone", "brick", "other"), stated=True),
    FactSpec("stem.thickness", "thickness", "thickness of the stem wall", "", "4 in", "4 ft", stated=True),
    FactSpec("stem.above_grade", "thickness", "height of the stem wall above grade", "least, outside", "0 in", "6 ft", stated=True),
    FactSpec("stem.above_floor", "thickness", "height of the stem wall above the floor", "", "0 in", "6 ft", stated=True),
    FactSpec("stem.concrete_strength", "stress", "strength of the stem wall's concrete", "", "1500 psi", "8000 psi", stated=True),
    FactSpec("stem.moisture_break", WORD, "capillary break", choices=("bituminous", "membrane", "slate", "metal", "none"), stated=True),
    # footing
    FactSpec("footing.kind", WORD, "type of footing", choices=("concrete", "rubble-trench", "rubble-trench-grade-beam", "stone", "other"), stated=True),
    FactSpec("footing.width", "thickness", "width of the footing", "", "6 in", "8 ft", stated=True),
    FactSpec("footing.thickness", "thickness", "thickness of the footing", "", "3 in", "6 ft", stated=True),
    FactSpec("footing.bottom", "thickness", "depth of the footing's underside below grade", "", "0 in", "10 ft", stated=True),
    FactSpec("footing.concrete_strength", "stress", "strength of the footing concrete", "", "1500 psi", "8000 psi", stated=True),
    FactSpec("footing.bar_count", "count", "number of bars along the footing", stated=True),
    FactSpec("footing.drain", YES_NO, "drain at the footing", stated=True),
    # beam
    FactSpec("beam.material", WORD, "material of the bond beam", choices=("wood", "concrete"), stated=True),
    FactSpec("beam.width", "thickness", "width of the bond beam", "", "2 in", "4 ft", stated=True),
    FactSpec("beam.depth", "thickness", "depth of the bond beam", "", "1 in", "3 ft", stated=True),
    FactSpec("beam.continuous", YES_NO, "continuity of the bond beam", stated=True),
    FactSpec("beam.bar_count", "count", "number of bars in the bond beam", stated=True),
    FactSpec("beam.bar_diameter", "thickness", "diameter of the bars in the bond beam", "the thinnest", "0.2 in", "2 in", stated=True),
    FactSpec("beam.concrete_strength", "stress", "strength of the bond-beam concrete", "", "1500 psi", "8000 psi", stated=True),
    FactSpec("beam.splice_lap", "thickness", "lap splice length of the bond beam", "", "0 in", "6 ft", stated=True),
    FactSpec("beam.splice_clear", "thickness", "clear distance from a splice to an opening", "", "0 in", "20 ft", stated=True),
    FactSpec("beam.layer_thickness", "thickness", "thickness of the thinnest layer of the bond beam", "", "0.5 in", "2 ft", stated=True),
    FactSpec("beam.durable", YES_NO, "decay resistance of the bond beam", "treated, or of a kind that resists decay", stated=True),
    FactSpec("beam.anchor_spacing", "thickness", "spacing of the bond-beam anchors", "", "4 in", "10 ft"),
    FactSpec("beam.anchor_diameter", "thickness", "diameter of the bond-beam anchors", "", "0.1 in", "3 in"),
    FactSpec("beam.anchor_embedment", "thickness", "anchor embedment in the earth", "", "1 in", "12 ft"),
    FactSpec("beam.anchor_shear", "force", "shear on each bond-beam anchor", "design load", "0 lbf", "20000 lbf"),
    FactSpec("beam.anchor_capacity", "force", "capacity of one bond-beam anchor", "sideways, as stated", "50 lbf", "20000 lbf", compute="strength.top_ties.anchor_capacity"),
    FactSpec("beam.moment_allowed", "moment", "allowable horizontal moment of the bond beam", "", "100 lbf*ft", "200000 lbf*ft", compute="strength.top_ties.moment_allowed"),
)  # fmt: skip
