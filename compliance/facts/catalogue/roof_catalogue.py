"""Facts of roofs."""

from __future__ import annotations

from compliance.facts.common.fact_spec import WORD, YES_NO, FactSpec

ROOF_FACTS = (
    FactSpec("roof.kind", WORD, "type of roof", choices=("framed", "trussed", "reciprocal", "living", "vault", "other"), stated=True),
    FactSpec("roof.span", "length", "span of the roof", "", "3 ft", "60 ft", stated=True),
    FactSpec("roof.slope", "angle", "slope of the roof", "", "0 deg", "75 deg", stated=True),
    FactSpec("roof.rafter_spacing", "thickness", "spacing of the rafters", "", "6 in", "10 ft", stated=True),
    FactSpec("roof.overhang", "thickness", "overhang of the roof", "", "0 in", "10 ft", stated=True),
    FactSpec("roof.dead", "pressure", "dead load of the roof", "", "3 psf", "250 psf", stated=True, compute="site.roof_actions.dead"),
    FactSpec("roof.live", "pressure", "live load of the roof", "", "0 psf", "150 psf", stated=True),
    FactSpec("roof.snow", "pressure", "snow load of the roof", "", "0 psf", "300 psf", stated=True, compute="site.roof_actions.snow"),
    FactSpec("roof.thrust_held", YES_NO, "roof thrust resisted"),
    FactSpec("roof.layer_dead", "pressure", "saturated dead load of the roof layers", "", "2 psf", "300 psf", compute="site.roof_actions.layer_dead"),
    FactSpec("roof.water", "pressure", "water passing through the roof", "counts as live load", "0 psf", "30 psf", compute="site.roof_actions.water"),
    FactSpec("roof.dead_agrees", YES_NO, "stated dead load agrees with the roof layers", compute="site.roof_actions.dead_agrees"),
    FactSpec("roof.derived_snow", "pressure", "roof snow from the ground snow", "balanced, without drifts", "0 psf", "300 psf", compute="site.roof_actions.derived_snow"),
    FactSpec("roof.snow_agrees", YES_NO, "stated roof snow load agrees with the ground snow load", compute="site.roof_actions.snow_agrees"),
    FactSpec("roof.carried_share", "share", "fraction of the roof load assigned to walls", "", "50 %", "120 %", compute="loads.roof_balance.carried_share"),
    FactSpec("roof.area_share", "share", "stated plan area over that of the plan with eaves and rakes", "", "50 %", "200 %", compute="loads.roof_balance.area_share"),
    FactSpec("roof.span_share", "share", "stated span over that of the plan", "", "50 %", "200 %", compute="loads.roof_balance.span_share"),
    FactSpec("roof.rise_share", "share", "stated rise over that of the slope", "", "20 %", "500 %", compute="loads.roof_balance.rise_share"),
    FactSpec("roof.beams_described", YES_NO, "supports of the roof beams described", "each with its place and its plate", compute="loads.roof_balance.ridge_bearings"),
    FactSpec("roof.plain_beams", YES_NO, "ridge beams and purlins on walls only", "no valley or hip rafter, no post beside the walls", compute="loads.roof_balance.beam_kinds"),
    FactSpec("roof.plan_load", "pressure", "whole load on the roof's plan", "", "3 psf", "500 psf", compute="loads.thrust_facts.plan_load"),
    FactSpec("roof.suction", "pressure", "wind suction on the roof between the walls", "allowable-stress level (ASD)", "0 psf", "150 psf", compute="site.wind_actions.suction"),
    FactSpec("roof.eave_suction", "pressure", "wind suction on the eaves", "allowable-stress level (ASD)", "0 psf", "200 psf", compute="site.wind_actions.eave_suction"),
    FactSpec("roof.line_uplift", "line_load", "maximum uplift along a wall that supports the roof", "net, with 0.6D", "0 plf", "3000 plf", compute="loads.uplift_facts.line_uplift"),
    FactSpec("roof.anchor_uplift", "force", "uplift on one roof anchor", "", "0 lbf", "20000 lbf", compute="loads.uplift_facts.anchor_uplift"),
    FactSpec("roof.uplift_anchor", "force", "resistance of one anchor of the roof", "as stated", "50 lbf", "20000 lbf", compute="loads.uplift_facts.anchor_resistance"),
    FactSpec("roof.tie_capacity", "force", "capacity of one tie of the roof", "as stated, joints included", "100 lbf", "20000 lbf", compute="loads.thrust_facts.tie_capacity"),
    FactSpec("roof.ridge_capacity", "line_load", "capacity of the ridge beam", "as stated", "50 plf", "10000 plf", compute="loads.thrust_facts.ridge_capacity"),
    FactSpec("roof.ring_capacity", "force", "capacity of the ring", "as stated, joints included", "200 lbf", "100000 lbf", compute="loads.thrust_facts.ring_capacity"),
    FactSpec("roof.thrust", "line_load", "roof thrust without ties", "", "0 plf", "5000 plf", compute="loads.thrust_facts.thrust"),
    FactSpec("roof.thrust_left", "line_load", "thrust on the walls", "", "0 plf", "5000 plf", compute="loads.thrust_facts.thrust_left"),
    FactSpec("roof.tie_force", "force", "tension in one roof tie", "", "0 lbf", "20000 lbf", compute="loads.thrust_facts.pull_in_tie"),
    FactSpec("roof.ridge_load", "line_load", "load on the ridge beam", "", "0 plf", "5000 plf", compute="loads.thrust_facts.ridge_load"),
    FactSpec("roof.ring_tension", "force", "tension in the ring that resists roof thrust", "", "0 lbf", "100000 lbf", compute="loads.thrust_facts.pull_in_ring"),
)  # fmt: skip
