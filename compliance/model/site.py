"""The site: ground, earthquake, wind, snow, water. Values as the jurisdiction gives them."""

import math
from typing import Annotated, Literal, Self, get_args

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator

from compliance.model.base import Angle, Described, Length, Pressure, Share, Speed, Telling, Text, YesNo, refuse
from compliance.model.walls import Point

Acceleration = Annotated[float, Field(ge=0, le=10)]
SeismicCategory = Literal["A", "B", "C", "D", "D0", "D1", "D2", "E", "F"]
SoilGroup = Literal[
    "rock", "GW", "GP", "GM", "GC", "SW", "SP", "SM", "SC", "ML", "CL", "MH", "CH", "OL", "OH", "PT"
]  # fmt: skip


def _zone_as_word(value: object) -> object:
    """YAML reads 7 and 8, which have no letter, as numbers."""
    return str(value) if type(value) is int else value


_Zone = Literal[
    "0A", "0B", "1A", "1B", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "5C", "6A", "6B", "7", "8"
]  # fmt: skip
ClimateZone = Annotated[_Zone, BeforeValidator(_zone_as_word), WithJsonSchema({"enum": [*get_args(_Zone), 7, 8]})]


class Site(Described):
    """Earthquake accelerations are shares of g. A value left out is missing, never assumed.

    `seismic_zone` and `zone_factor` are those of a national seismic map, as the adopted code numbers them.
    `asce7` is the edition of ASCE 7 that loads go by, `category_by` the table a category that is not given is taken
    from: that of ASCE 7, or of an edition of the residential code. `enclosure` says how far wind gets in,
    `snow_sheltering` how far terrain and trees keep wind off the roofs. `north` is where true north lies on the plan,
    clockwise from the plan's second direction. `expansion_index`, `plasticity_index` and the shares that pass a No. 200
    sieve or are finer than 5 µm are a laboratory's, of the soil under the footings; `weathering` is how concrete
    weathers there, as the code's map has it; `climate_zone` is that of the energy code with its letter for moisture, of
    which C is marine; `rain_intensity` is in the office's own words, such as 3 in per hour.
    """

    north: Angle | None = None
    asce7: Literal["7-05", "7-10", "7-16", "7-22"] | None = None
    seismic_category: SeismicCategory | None = None
    category_by: Literal["asce7", "irc-2012", "irc-2015", "irc-2018", "irc-2021", "irc-2024"] | None = None
    risk_category: Literal["I", "II", "III", "IV"] | None = None
    ss: Acceleration | None = None
    s1: Acceleration | None = None
    sds: Acceleration | None = None
    sd1: Acceleration | None = None
    site_class: Literal["A", "B", "C", "D", "E", "F"] | None = None
    site_class_measured: YesNo | None = None
    seismic_zone: Text | None = None
    zone_factor: Annotated[float, Field(ge=0, le=5)] | None = None
    wind_speed: Speed | None = None
    wind_exposure: Literal["B", "C", "D"] | None = None
    enclosure: Literal["enclosed", "partially enclosed", "open"] | None = None
    topographic_factor: Annotated[float, Field(ge=1, le=3)] | None = None
    ground_snow: Pressure | None = None
    snow_sheltering: Literal["fully exposed", "partially exposed", "sheltered"] | None = None
    roof_snow: Pressure | None = None
    frost_depth: Length | None = None
    soil_group: SoilGroup | None = None
    soil_bearing: Pressure | None = None
    soil_bearing_source: Text | None = None
    expansive_soil: YesNo | None = None
    expansion_index: Annotated[float, Field(ge=0, le=500)] | None = None
    plasticity_index: Annotated[float, Field(ge=0, le=500)] | None = None
    passing_no_200: Share | None = None
    finer_than_5_um: Share | None = None
    ground_slope: Angle | None = None
    rain_exposure: Literal["sheltered", "moderate", "severe"] | None = None
    dry_climate: YesNo | None = None
    flood_zone: YesNo | None = None
    weathering: Literal["negligible", "moderate", "severe"] | None = None
    climate_zone: ClimateZone | None = None
    rain_intensity: Text | None = None


class Room(Described):
    """A room by its name, which the floor plan shows at a point of the plan."""

    name: Telling
    at: Point


class PropertyLine(Described):
    """One side of the lot, straight, in the coordinates of the plan. `setback` is how far the office asks a building to
    stand off it, `along` what lies along it, such as a street."""

    start: Point = Field(alias="from")
    end: Point = Field(alias="to")
    setback: Length | None = None
    along: Telling | None = None

    @model_validator(mode="after")
    def _has_length(self) -> Self:
        if math.dist(*([one.si for one in point] for point in (self.start, self.end))) < 0.01:
            raise refuse(
                "property-line", "the property line begins and ends at one point", "give it two corners of the lot"
            )
        return self


class SitePlan(Described):
    """What a site plan is drawn from; `source` says where the lines come from, such as a survey."""

    source: Telling
    lines: list[PropertyLine] = Field(min_length=1, max_length=60)
