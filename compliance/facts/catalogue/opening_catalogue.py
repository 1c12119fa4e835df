"""Facts of openings and piers."""

from __future__ import annotations

from compliance.facts.common.fact_spec import WORD, YES_NO, FactSpec

OPENING_FACTS = (
    # opening
    FactSpec("opening.kind", WORD, "type of opening", choices=("door", "window", "arch", "vent")),
    FactSpec("opening.width", "length", "width of the opening", "", "2 in", "30 ft"),
    FactSpec("opening.height", "length", "height of the opening", "", "2 in", "20 ft"),
    FactSpec("opening.head", "length", "height of wall above the opening", "to the top of the wall", "0 ft", "15 ft"),
    FactSpec("opening.share", "share", "share of the opening in the length of its wall"),
    FactSpec("opening.corner_distance", "length", "distance from the opening to the corner", "clear, to the face of the wall that crosses there, or to a free end", "0 ft", "100 ft"),
    FactSpec("opening.bay", "length", "length between the supports beside the opening", "along the centerline; to the end of the wall where there is none", "0 ft", "100 ft"),
    FactSpec("opening.brace_distance", "length", "distance from the opening to the nearest lateral support", "clear", "0 ft", "100 ft"),
    FactSpec("opening.lintel", WORD, "lintel", choices=("wood", "concrete", "steel", "stone", "arch", "bond-beam")),
    FactSpec("opening.lintel_bearing", "thickness", "lintel bearing length", "at each end", "0 in", "4 ft"),
    FactSpec("opening.lintel_depth", "thickness", "depth of the lintel", "", "1 in", "4 ft"),
    FactSpec("opening.lintel_width", "thickness", "width of the lintel", "", "1 in", "4 ft"),
    FactSpec("opening.sill_slope", "ratio", "sill slope", "rise over run, away from the wall", "0", "1", stated=True),
    FactSpec("opening.sill_barrier", YES_NO, "water barrier on the sill", stated=True),
    FactSpec("opening.lintel_load", "line_load", "load along the lintel", "including all of the wall above", "0 plf", "20000 plf", compute="strength.lintel_facts.lintel_load"),
    FactSpec("opening.lintel_bending", "stress", "bending stress in the lintel", "", "0 psi", "50000 psi", compute="strength.lintel_facts.lintel_bending"),
    FactSpec("opening.lintel_shear", "stress", "shear stress in the lintel", "", "0 psi", "20000 psi", compute="strength.lintel_facts.lintel_shear"),
    FactSpec("opening.lintel_pressure", "stress", "bearing stress under the lintel", "", "0 psi", "1000 psi", compute="strength.lintel_facts.lintel_pressure"),
    FactSpec("opening.bending_allowed", "stress", "allowable bending stress of the lintel", "as stated", "100 psi", "50000 psi", compute="strength.lintel_facts.bending_allowed"),
    FactSpec("opening.shear_allowed", "stress", "allowable shear stress of the lintel", "as stated", "20 psi", "30000 psi", compute="strength.lintel_facts.shear_allowed"),
    FactSpec("opening.lintel_span", "length", "span of the lintel", "between the middles of its bearings", "1 ft", "30 ft", compute="strength.lintel_deflection.span"),
    FactSpec("opening.lintel_slenderness", "ratio", "span of the lintel over its depth", "", "1", "40", compute="strength.lintel_deflection.stoutness"),
    FactSpec("opening.lintel_sag", "thickness", "deflection of the lintel", "immediate, dead load with live load or snow", "0 in", "6 in", compute="strength.lintel_deflection.sag"),
    # pier
    FactSpec("pier.width", "length", "clear width of the pier", "along the centerline, from opening to opening or to the end of the wall", "0 ft", "200 ft"),
    FactSpec("pier.solid_width", "length", "gross width of the pier", "clear width with the solid wall that runs on past a joint", "0 ft", "200 ft", compute="bracing.pier_widths.pier_solid_width"),
    FactSpec("pier.height", "length", "height of the pier", "of the taller opening beside it", "0 ft", "20 ft"),
    FactSpec("pier.width_to_thickness", "ratio", "clear width of the pier over the wall's thickness", "", "0", "500"),
    FactSpec("pier.at_end", YES_NO, "pier at an end of the wall"),
    FactSpec("pier.base_load", "force", "load at the base of the pier", "", "50 lbf", "200000 lbf", compute="strength.wall_stress.pier_load"),
    FactSpec("pier.shear_stress", "stress", "in-plane shear stress of the pier", "", "0 psi", "200 psi", compute="bracing.bracing_facts.pier_shear_stress"),
    FactSpec("pier.toe_pressure", "stress", "pressure on the toe of the pier", "pushed along the wall", "0 psi", "1000 psi", compute="bracing.bracing_facts.pier_toe"),
    FactSpec("pier.tipping_factor", "ratio", "safety factor against overturning of the pier", "", "0", "1000", compute="bracing.bracing_facts.pier_tipping"),
)  # fmt: skip
