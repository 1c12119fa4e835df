"""Facts of the project and its site."""

from __future__ import annotations

from compliance.facts.common.fact_spec import WORD, YES_NO, FactSpec

SITE_FACTS = (
    # project
    FactSpec("project.stories", "count", "number of stories", "as stated, or as the walls give it", most="3", stated=True, compute="geometry.stated_sizes.stories"),
    FactSpec("project.building_height", "length", "height of the building", "from grade to the highest point as the code measures it", "6 ft", "40 ft", stated=True, compute="geometry.stated_sizes.building_height"),
    FactSpec("project.use", WORD, "use of the building", choices=("dwelling", "two-family", "townhouse", "accessory", "other"), stated=True),
    FactSpec("project.diaphragm", WORD, "diaphragm at the tops of the walls", "how the roof shares horizontal force among the walls", choices=("none", "flexible", "rigid"), stated=True),
    FactSpec("project.seismic_weight", "force", "effective seismic weight of the building", "roof and the upper half of the walls", compute="loads.seismic_weight.seismic_weight"),
    FactSpec("project.base_shear", "force", "seismic force at the tops of the walls", "allowable-stress level (ASD)", compute="loads.seismic_weight.base_shear"),
    FactSpec("project.braced_both_ways", YES_NO, "bracing in both directions", compute="bracing.solid_shares.braced_both_ways"),
    FactSpec("project.least_side_solid", "share", "solid fraction of the least solid side", compute="bracing.solid_shares.least_side_solid"),
    FactSpec("project.open_share", "share", "part of a side of the building without a wall", "the greatest of all sides", compute="bracing.inner_corners.open_share"),
    FactSpec("project.re_entrant_share", "share", "part of the plan beyond a re-entrant corner", "the lesser of both directions, of the greatest corner", compute="bracing.inner_corners.re_entrant_share"),
    FactSpec("project.re_entrant_unbraced", "share", "the same, of corners without a bracing wall that runs on through them", compute="bracing.inner_corners.re_entrant_unbraced"),
    FactSpec("project.closed_rings", "count", "number of closed rings of wall", compute="strength.rings.closed_rings"),
    FactSpec("project.load_balance", "ratio", "unbalanced load of the building", compute="loads.load_balance.balance"),
    # site
    FactSpec("site.seismic_category", WORD, "seismic design category", choices=("A", "B", "C", "D", "D0", "D1", "D2", "E", "F"), stated=True, compute="site.site_actions.category"),
    FactSpec("site.sds", "ratio", "design acceleration S_DS (share of g)", "share of g at short period", "0", "3", stated=True, compute="site.site_actions.sds"),
    FactSpec("site.sd1", "ratio", "design acceleration S_D1 (share of g)", "share of g at one second", "0", "2", stated=True, compute="site.site_actions.sd1"),
    FactSpec("site.s1", "ratio", "mapped acceleration S_1 (share of g)", "share of g at one second", "0", "2", stated=True),
    FactSpec("site.wind_speed", "speed", "design wind speed", "ultimate, as the jurisdiction gives it; a speed of ASCE 7-05 is converted", "60 mph", "220 mph", stated=True, compute="site.wind_actions.wind_speed"),
    FactSpec("site.wind_exposure", WORD, "wind exposure", choices=("B", "C", "D"), stated=True),
    FactSpec("site.enclosure", WORD, "enclosure of the building", "as stated, or by a side without a wall", choices=("enclosed", "partially enclosed", "open"), stated=True, compute="site.wind_actions.enclosure"),
    FactSpec("site.enclosure_agrees", YES_NO, "stated enclosure agrees with the sides of the building", compute="site.wind_actions.enclosure_agrees"),
    FactSpec("site.ground_snow", "pressure", "ground snow load", "", "0 psf", "300 psf", stated=True),
    FactSpec("site.frost_depth", "length", "frost depth", "", "0 ft", "10 ft", stated=True),
    FactSpec("site.soil_bearing", "pressure", "allowable soil bearing", "", "500 psf", "15000 psf", stated=True),
    FactSpec("site.soil_group", WORD, "soil group", "unified soil classification", choices=("rock", "GW", "GP", "GM", "GC", "SW", "SP", "SM", "SC", "ML", "CL", "MH", "CH", "OL", "OH", "PT"), stated=True),
    FactSpec("site.expansive_soil", YES_NO, "expansive soil", "as stated, or by the soil group", stated=True, compute="site.site_actions.expansive_soil"),
    FactSpec("site.ground_slope", "angle", "slope of the ground", "", "0 deg", "45 deg", stated=True),
    FactSpec("site.rain_exposure", WORD, "exposure to wind-driven rain", choices=("sheltered", "moderate", "severe"), stated=True),
    FactSpec("site.dry_climate", YES_NO, "dry climate", stated=True),
    FactSpec("site.flood_zone", YES_NO, "flood zone", stated=True),
    FactSpec("site.seismic_zone", WORD, "seismic zone", "of the national seismic map, as the code numbers it", stated=True),
    FactSpec("site.zone_factor", "ratio", "seismic zone factor", "of the national seismic map", "0", "2", stated=True),
    FactSpec("site.derived_sds", "ratio", "S_DS from mapped accelerations", "share of g", "0", "3", compute="site.site_actions.derived_sds"),
    FactSpec("site.derived_sd1", "ratio", "S_D1 from the mapped accelerations", "share of g", "0", "2", compute="site.site_actions.derived_sd1"),
    FactSpec("site.derived_category", WORD, "seismic design category from the design accelerations", choices=("A", "B", "C", "D", "D0", "D1", "D2", "E", "F"), compute="site.site_actions.derived_category"),
    FactSpec("site.sds_agrees", YES_NO, "stated S_DS agrees with the derived value", compute="site.site_actions.sds_agrees"),
    FactSpec("site.sd1_agrees", YES_NO, "stated S_D1 agrees with the derived value", compute="site.site_actions.sd1_agrees"),
    FactSpec("site.category_agrees", YES_NO, "stated seismic design category agrees with the derived one", compute="site.site_actions.category_agrees"),
    FactSpec("site.motion_settled", YES_NO, "ground motion follows from the tables", "no study of the site is asked for", compute="site.site_actions.site_study"),
    FactSpec("site.importance", "ratio", "importance factor of earthquake loads", "", "0.5", "1.5", compute="site.site_actions.importance"),
    FactSpec("site.wind_pressure", "pressure", "wind velocity pressure", "at the height of the building, at strength level of the wind speed", "3 psf", "150 psf", compute="site.wind_actions.velocity_pressure"),
)  # fmt: skip
