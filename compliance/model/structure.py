"""What the walls stand on and what they carry: stem walls, footings, bond beams, roofs."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import (
    Area,
    Coordinate,
    Density,
    Described,
    Force,
    ForceAboveZero,
    Length,
    LengthAboveZero,
    LineLoad,
    LongText,
    Mark,
    Moment,
    Pressure,
    RoofSlope,
    Stress,
    Text,
    Thickness,
    YesNo,
    no_items,
    refuse,
)


class Anchor(Described):
    """Bolts or rods from the stem wall or bond beam into the wall. `shear` is the design load on each, `capacity` what
    each may take sideways, and `capacity_source` who says so."""

    diameter: LengthAboveZero | None = None
    spacing: LengthAboveZero | None = None
    embedment: LengthAboveZero | None = None
    shear: Force | None = None
    capacity: ForceAboveZero | None = None
    capacity_source: Text | None = None
    kind: Text | None = None


class Stem(Described):
    """The wall between footing and earth. `above_grade` is the least height over the ground outside. Where no
    `density` is stated, that of the material is taken."""

    material: Literal["concrete", "concrete-masonry", "stone", "brick", "other"]
    thickness: Thickness | None = None
    density: Density | None = None
    above_grade: Length | None = None
    above_floor: Length | None = None
    concrete_strength: Stress | None = None
    moisture_break: Literal["bituminous", "membrane", "slate", "metal", "none"] | None = None
    anchors: Anchor | None = None


class Footing(Described):
    """`thickness` is the depth of concrete or of rammed stone; `bottom` its underside below the ground."""

    kind: Literal["concrete", "rubble-trench", "rubble-trench-grade-beam", "stone", "other"]
    width: LengthAboveZero | None = None
    thickness: LengthAboveZero | None = None
    density: Density | None = None
    bottom: Length | None = None
    concrete_strength: Stress | None = None
    bars: Text | None = None
    bar_count: int | None = Field(default=None, ge=0, le=40)
    drain: YesNo | None = None


class BondBeam(Described):
    """The continuous beam on top of the walls. Of a wooden one, `layer_thickness` is that of its thinnest layer,
    `splice_clear` the least distance from a splice to an opening, `durable` says the wood is treated or lasts.

    `bending_stress` is the allowable stress of its wood, `moment_capacity` the moment across the wall that it may take
    (of concrete always stated), `capacity_source` who says so."""

    material: Literal["wood", "concrete"]
    width: LengthAboveZero | None = None
    depth: LengthAboveZero | None = None
    continuous: YesNo | None = None
    bars: Text | None = None
    bar_count: int | None = Field(default=None, ge=0, le=40)
    bar_diameter: LengthAboveZero | None = None
    concrete_strength: Stress | None = None
    grade: Text | None = None
    bending_stress: Stress | None = None
    moment_capacity: Moment | None = None
    capacity_source: Text | None = None
    splice_lap: Length | None = None
    splice_clear: Length | None = None
    layer_thickness: LengthAboveZero | None = None
    durable: YesNo | None = None
    anchors: Anchor | None = None


class RoofLayer(Described):
    """A layer of a roof, for its weight: thickness with its saturated density, or its weight per area.

    `passing_water` marks water that fills a drainage layer while it rains and then runs off."""

    material: Text
    thickness: LengthAboveZero | None = None
    saturated_density: Density | None = None
    weight: Pressure | None = None
    passing_water: YesNo | None = None


class Bearing(Described):
    """A wall the roof bears on. `tributary` is the width of roof it carries, measured on plan, eaves and all; left
    out, it follows from the plan where rafters span between straight walls that run one way. `eccentricity` is how far
    off the middle of the wall's top the roof bears."""

    wall: Mark
    tributary: LengthAboveZero | None = None
    eccentricity: Length | None = None


class BeamBearing(Described):
    """What one end, or an inner support, of a beam in a roof stands on: a wall with the station `at` along its center
    line, or a post with a footing of its own at a `point` of the plan. `length` along the wall and `width` across it
    are those of the plate on the wall, `eccentricity` how far off the middle of the wall's top it stands."""

    wall: Mark | None = None
    at: Length | None = None
    point: Annotated[list[Coordinate], Field(min_length=2, max_length=2)] | None = None
    length: LengthAboveZero | None = None
    width: LengthAboveZero | None = None
    eccentricity: Length | None = None

    @model_validator(mode="after")
    def _stands_on_one_thing(self) -> Self:
        if self.point is not None and (self.wall is not None or self.at is not None):
            raise refuse("beam-bearing", "the bearing names a wall and a point", "keep wall: and at:, or point: alone")
        return self


class RoofBeam(Described):
    """A beam under a roof. `tributary` is the width of roof it carries on plan; that of a ridge beam midway between two
    lines of walls follows from the plan where it is left out."""

    kind: Literal["ridge", "purlin", "valley", "hip"]
    tributary: LengthAboveZero | None = None
    bears_on: list[BeamBearing] = Field(default_factory=no_items, max_length=20)


class Roof(Described):
    """A roof and what it puts on the walls. Loads are on the horizontal projection.

    `rise` runs from the wall plate up to the ridge or ring, `tie_height` from the plate up to the tie or collar, `run`
    on plan from eave to ridge. A roof whose rafters meet in a ring has `radius`, on plan from its middle to the
    wall, and `ring_radius`, zero where they meet in a point. `overhang` is that of the eaves, `rake` that of the
    sloping edges past the faces of the end walls; `length`, along the ridge, counts both rakes and takes their place
    where the roof ends otherwise. `plan_area` is all of the roof on plan, eaves and rakes and all.
    `warmth` is that of the roof as snow meets it. Stated capacities, joints included: of one tie, of the ridge beam
    along its length, of the ring, and of one anchor upward (`uplift_anchor`, `none` where nothing anchors the roof);
    `capacity_source` says who gives them."""

    kind: Literal["framed", "trussed", "reciprocal", "living", "vault", "other"]
    span: LengthAboveZero | None = None
    slope: RoofSlope | None = None
    rise: LengthAboveZero | None = None
    run: LengthAboveZero | None = None
    tie_height: Length | None = None
    radius: LengthAboveZero | None = None
    ring_radius: Length | None = None
    plan_area: Area | None = None
    rafter_spacing: LengthAboveZero | None = None
    overhang: Length | None = None
    rake: Length | None = None
    length: LengthAboveZero | None = None
    dead: Pressure | None = None
    live: Pressure | None = None
    snow: Pressure | None = None
    warmth: Literal["heated", "cold ventilated", "just above freezing", "unheated", "kept below freezing"] | None = None
    slippery: YesNo | None = None
    layers: list[RoofLayer] = Field(default_factory=no_items, max_length=30)
    thrust_held_by: (
        Literal["none", "ceiling-tie", "collar-tie", "ridge-beam", "ring", "bond-beam", "no-thrust"] | None
    ) = None
    tie_capacity: ForceAboveZero | None = None
    ridge_capacity: LineLoad | None = None
    ring_capacity: ForceAboveZero | None = None
    capacity_source: Text | None = None
    uplift_anchor: ForceAboveZero | Literal["none"] | None = None
    uplift_anchor_spacing: LengthAboveZero | None = None
    bears_on: list[Bearing] = Field(default_factory=no_items, max_length=100)
    beams: dict[Mark, RoofBeam] = Field(default_factory=dict, max_length=20)
    note: LongText | None = None
