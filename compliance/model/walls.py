"""Walls, their openings, and the buttresses that stand against them."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import (
    Coordinate,
    Density,
    Described,
    Force,
    IsoDate,
    Length,
    LengthAboveZero,
    LineLoad,
    LongText,
    Mark,
    Permeance,
    Resistance,
    Share,
    Stress,
    Text,
    Thickness,
    YesNo,
    refuse,
)

Point = Annotated[list[Coordinate], Field(min_length=2, max_length=2)]


class Run(Described):
    """A straight wall along its centre line, from one point of the plan to another."""

    start: Point = Field(alias="from")
    end: Point = Field(alias="to")


class Arc(Described):
    """A curved wall along its centre line: the circular arc from one point through a second to a third."""

    start: Point = Field(alias="from")
    through: Point
    end: Point = Field(alias="to")


class Lintel(Described):
    """What carries the wall over an opening. `bearing` is its length on the earth at each end. The allowable stresses
    are those of its wood, steel or concrete, `modulus` is its modulus of elasticity, and `stress_source` says who gives
    them."""

    material: Literal["wood", "concrete", "steel", "stone", "arch", "bond-beam"]
    width: LengthAboveZero | None = None
    depth: LengthAboveZero | None = None
    bearing: Length | None = None
    species: Text | None = None
    grade: Text | None = None
    bending_stress: Stress | None = None
    shear_stress: Stress | None = None
    modulus: Stress | None = None
    stress_source: Text | None = None


class Opening(Described):
    """A hole through the wall. `start` runs along the centre line from the wall's first point to the near
    edge; `sill` is the height of its bottom above the top of the stem wall."""

    kind: Literal["door", "window", "arch", "vent"]
    start: Length
    width: LengthAboveZero
    height: LengthAboveZero
    sill: Length
    lintel: Lintel | None = None
    frame: Text | None = None
    sill_slope: Annotated[float, Field(ge=0, le=2)] | None = None
    sill_barrier: YesNo | None = None


class Finish(Described):
    """A layer on a wall, from the earth outward."""

    material: Literal["clay", "lime", "clay-lime", "gypsum", "cement-lime", "cement", "soil-cement", "siding", "other"]
    thickness: Thickness | None = None
    permeance: Permeance | None = None
    density: Density | None = None
    note: Text | None = None


class Insulation(Described):
    """A layer of insulation on or in a wall, of its own thermal resistance alone; `within` is between two leaves of
    earth."""

    side: Literal["outside", "within", "inside"]
    resistance: Resistance
    material: Text | None = None
    permeance: Permeance | None = None

    @model_validator(mode="after")
    def _resistance_of_a_layer(self) -> Self:
        if self.resistance.si > _MOST_RESISTANCE:
            raise refuse(
                "thermal-implausible", f"no layer on a wall has a thermal resistance of {self.resistance}",
                "check the unit: R-13 is 13 ft2*h*F/Btu, or 2.3 m2*K/W",
            )  # fmt: skip
        return self


_MOST_RESISTANCE = 10.6
"""[m²·K/W] R-60 of a US label, 17 in of common fiber: more than goes on a wall."""


class PointLoad(Described):
    """A single load on top of a wall, such as a ridge beam's: its forces, where it stands along the centre line, and
    the plate it stands on, `length` along the wall and `width` across it. `eccentricity` is how far off the middle of
    the wall's top the plate stands."""

    at: Length
    dead: Force
    live: Force
    snow: Force
    length: LengthAboveZero | None = None
    width: LengthAboveZero | None = None
    eccentricity: Length | None = None
    of: Text | None = None


class WallBuild(Described):
    """What walls of one type share. A wall says `type:` and states only what differs.

    `lift_height` is the tallest lift laid at once; holes made to speed drying are spaced from centre to centre.
    `story` is 1 for the lowest; `unit_lap` the least lap of units over the course below, of a unit's length;
    `stabilised_to` the height over the finished floor up to which the wall is stabilised or of waterproof masonry;
    `gable_height` is the height over the eaves of the triangle of earth that stands on a wall with a `gable`;
    `exposed_height` runs from the foot of the earth to the underside of the eaves. `line_load` is all that the wall
    carries on its top besides its own weight, `load_eccentricity` how far off the middle of the top it stands.
    `top_cover` is what keeps rain off the top of a wall that no roof bears on.
    `base_restraint` is what keeps the foot of the earth from moving sideways; `tapered_face` the face that leans.
    """

    use: Literal["exterior", "interior", "garden"] | None = None
    height: LengthAboveZero | None = None
    thickness: Thickness | None = None
    thickness_base: Thickness | None = None
    thickness_top: Thickness | None = None
    mix: Mark | None = None
    bears_load: YesNo | None = None
    braces: YesNo | None = None
    line_load: LineLoad | None = None
    load_eccentricity: Length | None = None
    method: Text | None = None
    top_restraint: Literal["bond-beam", "roof", "free"] | None = None
    base_restraint: Literal["floor", "stem", "none"] | None = None
    tapered_face: Literal["both", "outside", "inside"] | None = None
    retains_soil: YesNo | None = None
    stem: Mark | None = None
    footing: Mark | None = None
    beam: Mark | None = None
    outside: list[Finish] | None = Field(default=None, max_length=20)
    inside: list[Finish] | None = Field(default=None, max_length=20)
    insulation: list[Insulation] | None = Field(default=None, max_length=20)
    rain_exposed: YesNo | None = None
    top_cover: Literal["roof", "coping", "none"] | None = None
    reinforced: YesNo | None = None
    reinforcement: Text | None = None
    lift_height: LengthAboveZero | None = None
    drying_holes: YesNo | None = None
    drying_hole_diameter: LengthAboveZero | None = None
    drying_hole_spacing: LengthAboveZero | None = None
    story: int | None = Field(default=None, ge=1, le=20)
    solar_mass: YesNo | None = None
    gable: YesNo | None = None
    gable_height: LengthAboveZero | None = None
    unit_lap: Share | None = None
    stabilised_to: Length | None = None
    exposed_height: Length | None = None
    lath_fastener_spacing: LengthAboveZero | None = None
    note: LongText | None = None

    @model_validator(mode="after")
    def _one_form_of_thickness(self) -> Self:
        tapered = (self.thickness_base, self.thickness_top)
        if self.thickness and any(tapered):
            raise refuse(
                "wall-thickness", "the wall states both thickness and thickness_base or thickness_top",
                "keep thickness for an even wall, or the other two for a tapered one",
            )  # fmt: skip
        if any(tapered) and not all(tapered):
            raise refuse(
                "wall-thickness",
                "the wall states only one end of its taper",
                "state both thickness_base and thickness_top",
            )
        base, top = tapered
        if base and top and top.si > base.si * (1 + 1e-9):
            raise refuse(
                "wall-taper", f"the wall grows thicker upward, from {base} to {top}",
                "make thickness_top at most thickness_base",
            )  # fmt: skip
        return self


class Wall(WallBuild):
    """One wall. Its line is its centre line; its height runs from the top of the stem wall to the underside
    of the bond beam, or to the top of the earth where there is none. `placed_from` is the day on which placing of
    the earth began or is to begin."""

    name: Text | None = None
    type: Mark | None = None
    placed_from: IsoDate | None = None
    run: Run | None = None
    arc: Arc | None = None
    openings: dict[Mark, Opening] = Field(default_factory=dict, max_length=60)
    loads: dict[Mark, PointLoad] = Field(default_factory=dict, max_length=60)

    @model_validator(mode="after")
    def _has_line_and_section(self) -> Self:
        if (self.run is None) == (self.arc is None):
            raise refuse("wall-line", "the wall has no line in the plan or two of them", "give it either run: or arc:")
        if self.height is None:
            raise refuse("wall-height", "the wall has no height", "add height: to the wall or to its type")
        if self.thickness is None and self.thickness_base is None:
            raise refuse("wall-thickness", "the wall has no thickness", "add thickness: to the wall or to its type")
        return self


class Buttress(Described):
    """A pier of earth or masonry built into a wall and its footing. `at` runs along the wall's centre line to
    the middle of the buttress; `projection` stands out from the face of the wall."""

    wall: Mark
    at: Length
    projection: LengthAboveZero
    width: LengthAboveZero
    height: LengthAboveZero
    side: Literal["outside", "inside"] = "outside"
    material: Literal["cob", "adobe", "stone", "concrete", "other"] = "cob"
