"""The vocabulary of rules: every fact with its kind, label and plausible range.

A value outside its plausible range is reported as a warning and used all the same. Kinds are those of
`compliance.units.KINDS`, or `yes-no`, or `word`.
"""

from __future__ import annotations

from functools import cached_property

from compliance.record import record
from compliance.units import KINDS, parse_measure


@record
class FactSpec:
    """`label` follows "the" in a sentence. `least` and `most` bound what is plausible, as measures or numbers."""

    name: str
    kind: str
    label: str
    meaning: str = ""
    least: str = ""
    most: str = ""
    choices: tuple[str, ...] = ()

    @property
    def about(self) -> str:
        return self.name.partition(".")[0]

    @cached_property
    def plausible(self) -> tuple[float, float]:
        """The plausible range in SI; without bounds where none is stated."""
        return self._bound(self.least, float("-inf")), self._bound(self.most, float("inf"))

    def _bound(self, text: str, otherwise: float) -> float:
        if not text:
            return otherwise
        kind = KINDS[self.kind]
        return parse_measure(text, kind).si if kind.us or kind.si else float(text)


YES_NO, WORD = "yes-no", "word"

ABOUTS: dict[str, tuple[str, ...]] = {
    "project": (),
    "site": ("project",),
    "soil": ("project", "site"),
    "mix": ("project", "site"),
    "set": ("mix", "project", "site"),
    "stem": ("project", "site"),
    "footing": ("project", "site"),
    "beam": ("project", "site"),
    "roof": ("project", "site"),
    "wall": ("mix", "stem", "footing", "beam", "project", "site"),
    "opening": ("wall", "mix", "stem", "footing", "beam", "project", "site"),
    "pier": ("wall", "mix", "stem", "footing", "beam", "project", "site"),
}
"""What a rule may be about, and whose facts it may use besides its own subject's."""

ABOUT_LABELS = {
    "project": "project", "site": "site", "soil": "soil", "mix": "mix", "set": "test set", "stem": "stem wall",
    "footing": "footing", "beam": "bond beam", "roof": "roof", "wall": "wall", "opening": "opening", "pier": "pier",
}  # fmt: skip

_USES = ("exterior", "interior", "garden")

_SPECS = (
    # project
    FactSpec("project.stories", "count", "number of stories", most="3"),
    FactSpec("project.building_height", "length", "height of the building", "from grade to the highest point as the code measures it", "6 ft", "40 ft"),
    FactSpec("project.use", WORD, "use of the building", choices=("dwelling", "two-family", "townhouse", "accessory", "other")),
    # site
    FactSpec("site.seismic_category", WORD, "seismic design category", choices=("A", "B", "C", "D", "D0", "D1", "D2", "E", "F")),
    FactSpec("site.sds", "ratio", "design acceleration S_DS", "share of g at short period", "0", "3"),
    FactSpec("site.sd1", "ratio", "design acceleration S_D1", "share of g at one second", "0", "2"),
    FactSpec("site.s1", "ratio", "mapped acceleration S_1", "share of g at one second", "0", "2"),
    FactSpec("site.wind_speed", "speed", "design wind speed", "ultimate, as the jurisdiction gives it", "60 mph", "220 mph"),
    FactSpec("site.wind_exposure", WORD, "wind exposure", choices=("B", "C", "D")),
    FactSpec("site.ground_snow", "pressure", "ground snow load", "", "0 psf", "300 psf"),
    FactSpec("site.frost_depth", "length", "frost depth", "", "0 ft", "10 ft"),
    FactSpec("site.soil_bearing", "pressure", "allowable soil bearing", "", "500 psf", "15000 psf"),
    FactSpec("site.soil_group", WORD, "soil group", "unified soil classification", choices=("rock", "GW", "GP", "GM", "GC", "SW", "SP", "SM", "SC", "ML", "CL", "MH", "CH", "OL", "OH", "PT")),
    FactSpec("site.expansive_soil", YES_NO, "expansive soil"),
    FactSpec("site.ground_slope", "angle", "slope of the ground", "", "0 deg", "45 deg"),
    FactSpec("site.rain_exposure", WORD, "exposure to driven rain", choices=("sheltered", "moderate", "severe")),
    FactSpec("site.dry_climate", YES_NO, "dry climate"),
    FactSpec("site.flood_zone", YES_NO, "flood zone"),
    FactSpec("site.seismic_zone", WORD, "seismic zone", "of the national seismic map, as the code numbers it"),
    FactSpec("site.zone_factor", "ratio", "seismic zone factor", "of the national seismic map", "0", "2"),
    # soils, mixes, sets of specimens
    FactSpec("soil.depth", "length", "depth the soil was dug from", "", "0 ft", "30 ft"),
    FactSpec("soil.clay", "share", "share of clay", "by dry weight of the part finer than gravel"),
    FactSpec("soil.silt", "share", "share of silt", "by dry weight of the part finer than gravel"),
    FactSpec("soil.sand", "share", "share of sand", "by dry weight of the part finer than gravel"),
    FactSpec("soil.fine_sand", "share", "share of fine sand", "by dry weight of the part finer than gravel"),
    FactSpec("soil.coarse_sand", "share", "share of coarse sand", "by dry weight of the part finer than gravel"),
    FactSpec("soil.gravel", "share", "share of gravel", "by dry weight of the whole soil"),
    FactSpec("soil.bulk_density", "density", "loose bulk density of the soil", "", "50 pcf", "130 pcf"),
    FactSpec("soil.shares_from", WORD, "source of the soil's shares", "a grading outranks a jar, a jar outranks what is stated", choices=("grading", "jar", "stated")),
    FactSpec("soil.texture", WORD, "texture class of the soil", "USDA classes", choices=("sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "sandy clay loam", "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay")),
    FactSpec("soil.tested", YES_NO, "test of the soil", "a hand test, a jar or a grading"),
    FactSpec("soil.topsoil", YES_NO, "topsoil", "dug from so near the surface that it is taken for topsoil"),
    FactSpec("soil.silty", YES_NO, "rule of silt in the soil", "as texture or hand tests point to it"),
    FactSpec("soil.organic", YES_NO, "organic matter in the soil", "stated, smelt, or seen floating in the jar"),
    FactSpec("soil.material", WORD, "kind of material", choices=("clay-subsoil", "sand", "gravel", "other")),
    FactSpec("soil.largest_stone", "thickness", "size of the largest stone", "", "0 in", "12 in"),
    FactSpec("soil.largest_lump", "thickness", "size of the largest lump of clay", "", "0 in", "12 in"),
    FactSpec("soil.soluble_salts", "share", "share of soluble salts", "by dry weight", "0 %", "100 %"),
    FactSpec("soil.ribbon", "thickness", "length of the ribbon", "a flattened roll of the moist soil, hung until it breaks", "0 cm", "50 cm"),
    FactSpec("mix.straw", WORD, "straw", choices=("wheat", "rice", "rye", "barley", "oat", "other", "none")),
    FactSpec("mix.straw_share", "ratio", "straw per part of mix by volume", "", "0", "1"),
    FactSpec("mix.stabilised", YES_NO, "stabiliser in the mix", "cement, lime, asphalt emulsion or oil"),
    FactSpec("mix.form", WORD, "form the earth is built in", choices=("cob", "adobe", "cut-sod", "fired-adobe", "pressed-block", "rammed-earth", "poured-earth")),
    FactSpec("mix.units", "count", "number of units of the mix in the building"),
    FactSpec("mix.cement", "share", "share of portland cement", "by dry weight", "0 %", "30 %"),
    FactSpec("mix.absorption", "share", "water taken up", "by a dried 4 in cube in 7 days, of its dry weight", "0 %", "40 %"),
    FactSpec("mix.moisture", "share", "moisture content", "of the mix or unit as it goes into the wall, of dry weight", "0 %", "40 %"),
    FactSpec("mix.cracks_per_unit", "count", "number of shrinkage cracks in the worst unit"),
    FactSpec("mix.crack_length", "thickness", "length of the longest shrinkage crack", "", "0 in", "24 in"),
    FactSpec("mix.crack_width", "thickness", "width of the widest shrinkage crack", "", "0 in", "2 in"),
    FactSpec("mix.dry_density", "density", "dry density of the mix", "", "50 pcf", "150 pcf"),
    FactSpec("mix.spray_erosion", "thickness", "depth worn away by the spray", "in one hour under a pressure spray", "0 mm", "300 mm"),
    FactSpec("mix.drip_pit", "thickness", "depth of the pit under the drip", "", "0 mm", "100 mm"),
    FactSpec("mix.splitting_strength", "stress", "strength of the earth in indirect tension", "governing value of the laboratory", "1 psi", "300 psi"),
    FactSpec("mix.mortar_splitting_strength", "stress", "strength of the mortar in indirect tension", "governing value of the laboratory", "0.5 psi", "300 psi"),
    FactSpec("mix.wallette_strength", "stress", "strength of small walls in compression", "governing value of the laboratory", "10 psi", "3000 psi"),
    FactSpec("mix.wallette_shear", "stress", "strength of small walls along their diagonal", "governing value of the laboratory", "1 psi", "300 psi"),
    FactSpec("mix.strength_class", WORD, "strength class of the mix"),
    FactSpec("mix.clay", "share", "share of clay in the mix", "of the dry soils and aggregates"),
    FactSpec("mix.silt", "share", "share of silt in the mix", "of the dry soils and aggregates"),
    FactSpec("mix.sand", "share", "share of sand in the mix", "of the dry soils and aggregates"),
    FactSpec("mix.gravel", "share", "share of gravel in the mix", "of the dry soils and aggregates"),
    FactSpec("mix.has_trial", YES_NO, "naming of the trial the mix was chosen from"),
    FactSpec("mix.follows_trial", YES_NO, "keeping to the proportions of the trial"),
    FactSpec("mix.trial_rank", "count", "rank of the mix's trial"),
    FactSpec("mix.replaces_another", YES_NO, "taking of another mix's place"),
    FactSpec("mix.replaced", YES_NO, "replacement of the mix by another"),
    FactSpec("mix.compression_sets", "count", "number of compression sets of the mix"),
    FactSpec("mix.rupture_sets", "count", "number of rupture sets of the mix"),
    FactSpec("mix.shrinkage_sets", "count", "number of shrinkage sets of the mix"),
    FactSpec("mix.batches", "count", "number of batches recorded"),
    FactSpec("mix.bears_load", YES_NO, "use of the mix in a load-bearing wall"),
    FactSpec("mix.braces", YES_NO, "use of the mix in a bracing wall"),
    FactSpec("mix.volume", "volume", "volume of wall built of the mix", "", "0.1 ft3", "20000 ft3"),
    FactSpec("set.kind", WORD, "kind of test", choices=("compression", "rupture", "shrinkage")),
    FactSpec("set.specimens", "count", "number of specimens"),
    FactSpec("set.shown_to_official", YES_NO, "showing of the results to the official"),
    FactSpec("set.capped", WORD, "capping", choices=("plaster of paris", "sulfur", "neoprene", "board", "none")),
    FactSpec("set.soaked", "time", "time in water before the test", "", "0 h", "720 h"),
    FactSpec("set.stress_rate", "stress_rate", "rate of stress", "of loading", "1 psi/min", "5000 psi/min"),
    FactSpec("set.force_rate", "force_rate", "rate of force", "of loading", "1 lbf/min", "500000 lbf/min"),
    FactSpec("set.form_length", "thickness", "length of the shortest form", "of shrinkage bars", "6 in", "6 ft"),
    FactSpec("set.least_age", "age", "age of the youngest specimen", "from casting to testing", "1 days", "3000 days"),
    FactSpec("set.drying", WORD, "drying of the specimens", choices=("air", "oven", "mixed")),
    FactSpec("set.stands_apart", YES_NO, "value apart from the others", "by Grubbs' or Dixon's test; a remark, it counts all the same"),
    FactSpec("set.batches", "count", "number of batches the specimens are from"),
    FactSpec("specimen.height_to_width", "ratio", "height to width of the specimen", "height over the lesser side of the loaded face; for tables that correct each specimen", "0.2", "6"),
    FactSpec("set.mean_density", "density", "mean density of the specimens", "", "50 pcf", "150 pcf"),
    FactSpec("set.scatter", "ratio", "coefficient of variation", "of strength; of shrinkage for bars", "0", "0.5"),
    # stem walls, footings, bond beams
    FactSpec("stem.material", WORD, "material of the stem wall", choices=("concrete", "concrete-masonry", "stone", "brick", "other")),
    FactSpec("stem.thickness", "thickness", "thickness of the stem wall", "", "4 in", "4 ft"),
    FactSpec("stem.above_grade", "thickness", "height of the stem wall above grade", "least, outside", "0 in", "6 ft"),
    FactSpec("stem.above_floor", "thickness", "height of the stem wall above the floor", "", "0 in", "6 ft"),
    FactSpec("stem.concrete_strength", "stress", "strength of the stem wall's concrete", "", "1500 psi", "8000 psi"),
    FactSpec("stem.moisture_break", WORD, "moisture break", choices=("bituminous", "membrane", "slate", "metal", "none")),
    FactSpec("footing.kind", WORD, "kind of footing", choices=("concrete", "rubble-trench", "rubble-trench-grade-beam", "stone", "other")),
    FactSpec("footing.width", "thickness", "width of the footing", "", "6 in", "8 ft"),
    FactSpec("footing.thickness", "thickness", "thickness of the footing", "", "3 in", "6 ft"),
    FactSpec("footing.bottom", "thickness", "depth of the footing's underside below grade", "", "0 in", "10 ft"),
    FactSpec("footing.concrete_strength", "stress", "strength of the footing concrete", "", "1500 psi", "8000 psi"),
    FactSpec("footing.bar_count", "count", "number of bars along the footing"),
    FactSpec("footing.drain", YES_NO, "drain at the footing"),
    FactSpec("beam.material", WORD, "material of the bond beam", choices=("wood", "concrete")),
    FactSpec("beam.width", "thickness", "width of the bond beam", "", "2 in", "4 ft"),
    FactSpec("beam.depth", "thickness", "depth of the bond beam", "", "1 in", "3 ft"),
    FactSpec("beam.continuous", YES_NO, "continuity of the bond beam"),
    FactSpec("beam.bar_count", "count", "number of bars in the bond beam"),
    FactSpec("beam.bar_diameter", "thickness", "diameter of the bars in the bond beam", "the thinnest", "0.2 in", "2 in"),
    FactSpec("beam.concrete_strength", "stress", "strength of the bond-beam concrete", "", "1500 psi", "8000 psi"),
    FactSpec("beam.splice_lap", "thickness", "lap of the bond beam's splices", "", "0 in", "6 ft"),
    FactSpec("beam.splice_clear", "thickness", "clear distance from a splice to an opening", "", "0 in", "20 ft"),
    FactSpec("beam.layer_thickness", "thickness", "thickness of the thinnest layer of the bond beam", "", "0.5 in", "2 ft"),
    FactSpec("beam.durable", YES_NO, "durability of the bond beam's wood", "treated, or of a kind that resists decay"),
    FactSpec("beam.anchor_spacing", "thickness", "spacing of the bond-beam anchors", "", "4 in", "10 ft"),
    FactSpec("beam.anchor_diameter", "thickness", "diameter of the bond-beam anchors", "", "0.1 in", "3 in"),
    FactSpec("beam.anchor_embedment", "thickness", "depth the anchors reach into the earth", "", "1 in", "12 ft"),
    FactSpec("beam.anchor_shear", "force", "shear on each bond-beam anchor", "design load", "0 lbf", "20000 lbf"),
    # roofs
    FactSpec("roof.kind", WORD, "kind of roof", choices=("framed", "trussed", "reciprocal", "living", "vault", "other")),
    FactSpec("roof.span", "length", "span of the roof", "", "3 ft", "60 ft"),
    FactSpec("roof.slope", "angle", "slope of the roof", "", "0 deg", "75 deg"),
    FactSpec("roof.rafter_spacing", "thickness", "spacing of the rafters", "", "6 in", "10 ft"),
    FactSpec("roof.overhang", "thickness", "overhang of the roof", "", "0 in", "10 ft"),
    FactSpec("roof.dead", "pressure", "dead load of the roof", "", "3 psf", "250 psf"),
    FactSpec("roof.live", "pressure", "live load of the roof", "", "0 psf", "150 psf"),
    FactSpec("roof.snow", "pressure", "snow load of the roof", "", "0 psf", "300 psf"),
    FactSpec("roof.thrust_held", YES_NO, "holding of the roof's thrust"),
    # walls
    FactSpec("wall.use", WORD, "place of the wall", choices=_USES),
    FactSpec("wall.curved", YES_NO, "curve of the wall"),
    FactSpec("wall.height", "length", "height of the wall", "top of the stem wall to the underside of the bond beam", "1 ft", "20 ft"),
    FactSpec("wall.base_thickness", "thickness", "thickness at the base", "finishes not counted", "4 in", "5 ft"),
    FactSpec("wall.least_thickness", "thickness", "least thickness", "finishes not counted", "4 in", "5 ft"),
    FactSpec("wall.mean_thickness", "thickness", "mean thickness", "of the whole height", "4 in", "5 ft"),
    FactSpec("wall.upper_thickness", "thickness", "greatest thickness in the upper two thirds", "", "4 in", "5 ft"),
    FactSpec("wall.height_to_thickness", "ratio", "height to thickness", "height over least thickness", "1", "20"),
    FactSpec("wall.length", "length", "length of the wall", "along its centre line", "1 ft", "200 ft"),
    FactSpec("wall.unsupported_length", "length", "largest unsupported length", "along the centre line between lateral supports, or from the last one to a free end", "0 ft", "60 ft"),
    FactSpec("wall.support_count", "count", "number of lateral supports"),
    FactSpec("wall.free_ends", "count", "number of free ends"),
    FactSpec("wall.opening_count", "count", "number of openings"),
    FactSpec("wall.opening_share", "share", "share of openings in the length", "widths of openings over the length of the wall"),
    FactSpec("wall.widest_opening", "length", "width of the widest opening", "", "0 ft", "30 ft"),
    FactSpec("wall.narrowest_pier", "length", "width of the narrowest pier", "", "0 ft", "200 ft"),
    FactSpec("wall.face_area", "area", "area of one face", "openings not taken off"),
    FactSpec("wall.net_area", "area", "area of one face without openings"),
    FactSpec("wall.volume", "volume", "volume of the wall", "openings taken off", "1 ft3", "10000 ft3"),
    FactSpec("wall.bears_load", YES_NO, "load on the wall", "carries a roof or floor besides its own weight"),
    FactSpec("wall.braces", YES_NO, "bracing by the wall", "counted on to resist wind or earthquake along its length"),
    FactSpec("wall.structural", YES_NO, "structural role of the wall", "bears load or braces"),
    FactSpec("wall.line_load", "line_load", "load stated at the top of the wall", "", "0 plf", "10000 plf"),
    FactSpec("wall.method", WORD, "wall type of the code's table"),
    FactSpec("wall.top_restraint", WORD, "restraint at the top", choices=("bond-beam", "roof", "free")),
    FactSpec("wall.has_beam", YES_NO, "bond beam on the wall"),
    FactSpec("wall.has_stem", YES_NO, "stem wall under the wall"),
    FactSpec("wall.retains_soil", YES_NO, "earth retained by the wall"),
    FactSpec("wall.rain_exposed", YES_NO, "rain on the wall"),
    FactSpec("wall.finished_outside", YES_NO, "finish or cladding outside"),
    FactSpec("wall.finish_permeance", "permeance", "permeance of the less open face's finishes", "layers in series, lower of the two faces", "0.05 perms", "200 perms"),
    FactSpec("wall.thickest_finish", "thickness", "thickness of the thickest finish", "", "0.05 in", "6 in"),
    FactSpec("wall.outside_finish", "thickness", "thickness of the outside finish", "all layers; zero where bare", "0 in", "6 in"),
    FactSpec("wall.overhang", "thickness", "overhang of the roof over the wall", "least of the roofs that bear on it", "0 in", "10 ft"),
    FactSpec("wall.lift_height", "thickness", "height of the tallest lift", "", "4 in", "4 ft"),
    FactSpec("wall.drying_holes", YES_NO, "drying holes in the wall"),
    FactSpec("wall.drying_hole_diameter", "thickness", "diameter of the drying holes", "at the face of the wall", "0.1 in", "3 in"),
    FactSpec("wall.reinforced", YES_NO, "reinforcement of the wall"),
    FactSpec("wall.exposed_height", "length", "height open to the weather", "from the foot of the earth to the underside of the eaves", "0 ft", "20 ft"),
    FactSpec("wall.drying_hole_spacing", "thickness", "spacing of the drying holes", "centre to centre, least", "0.5 in", "4 ft"),
    FactSpec("wall.story", "count", "story the wall stands in", "1 is the lowest", most="3"),
    FactSpec("wall.solar_mass", YES_NO, "use as a solar mass wall"),
    FactSpec("wall.gable", YES_NO, "gable on the wall"),
    FactSpec("wall.unit_lap", "share", "lap of the units", "least lap over the course below, of a unit's length"),
    FactSpec("wall.stabilised_to", "thickness", "stabilised height over the floor", "stabilised earth, or waterproof masonry and mortar", "0 in", "20 ft"),
    FactSpec("wall.lath_fastener_spacing", "thickness", "spacing of the lath fasteners", "", "1 in", "4 ft"),
    FactSpec("wall.compression_evidence", YES_NO, "compression test of the wall's mix with results"),
    FactSpec("wall.rupture_evidence", YES_NO, "rupture test of the wall's mix with results"),
    FactSpec("wall.shrinkage_evidence", YES_NO, "shrinkage test of the wall's mix with results"),
    FactSpec("wall.tests_shown", YES_NO, "showing of the tests before placing", "one set of each kind that the mix has, to the official"),
    FactSpec("wall.compression_sets", "count", "number of compression sets of the wall's mix"),
    # openings and piers
    FactSpec("opening.kind", WORD, "kind of opening", choices=("door", "window", "arch", "vent")),
    FactSpec("opening.width", "length", "width of the opening", "", "2 in", "30 ft"),
    FactSpec("opening.height", "length", "height of the opening", "", "2 in", "20 ft"),
    FactSpec("opening.head", "length", "height of earth over the opening", "to the top of the wall", "0 ft", "15 ft"),
    FactSpec("opening.share", "share", "share of the opening in the length of its wall"),
    FactSpec("opening.corner_distance", "length", "distance from the opening to the corner", "clear, to the face of the wall that crosses there, or to a free end", "0 ft", "100 ft"),
    FactSpec("opening.bay", "length", "length between the supports beside the opening", "along the centre line; to the end of the wall where there is none", "0 ft", "100 ft"),
    FactSpec("opening.brace_distance", "length", "distance from the opening to the nearest lateral support", "clear", "0 ft", "100 ft"),
    FactSpec("opening.lintel", WORD, "lintel", choices=("wood", "concrete", "steel", "stone", "arch", "bond-beam")),
    FactSpec("opening.lintel_bearing", "thickness", "bearing of the lintel", "at each end", "0 in", "4 ft"),
    FactSpec("opening.lintel_depth", "thickness", "depth of the lintel", "", "1 in", "4 ft"),
    FactSpec("opening.lintel_width", "thickness", "width of the lintel", "", "1 in", "4 ft"),
    FactSpec("opening.sill_slope", "ratio", "fall of the sill", "rise over run, away from the wall", "0", "1"),
    FactSpec("opening.sill_barrier", YES_NO, "water barrier on the sill"),
    FactSpec("pier.width", "length", "width of the pier", "along the centre line", "0 ft", "200 ft"),
    FactSpec("pier.height", "length", "height of the pier", "of the taller opening beside it", "0 ft", "20 ft"),
    FactSpec("pier.width_to_thickness", "ratio", "width of the pier over the wall's thickness", "", "0", "500"),
    FactSpec("pier.at_end", YES_NO, "place of the pier at an end of the wall"),
)  # fmt: skip

FACTS: dict[str, FactSpec] = {spec.name: spec for spec in _SPECS}
