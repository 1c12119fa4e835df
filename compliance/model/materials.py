"""Soils, mixes and the sets of specimens cast from them."""

from typing import Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import (
    BucketVolume,
    Conductivity,
    Density,
    Described,
    ForceRate,
    IsoDate,
    Length,
    LongText,
    Mark,
    MassAboveZero,
    Share,
    SpecificHeat,
    Stress,
    StressRate,
    Telling,
    Text,
    Time,
    YesNo,
    no_items,
    refuse,
)
from compliance.model.soil_tests import FieldTest, GradingRecord, JarRecord
from compliance.model.trials import Parts, Straw

EarthForm = Literal["cob", "adobe", "cut-sod", "fired-adobe", "pressed-block", "rammed-earth", "poured-earth"]
SpecimenKind = Literal["compression", "rupture", "shrinkage"]


class Soil(Described):
    """A soil or an aggregate, where it comes from and what was tried on it.

    Shares are by dry weight: gravel of the whole, clay, silt and sand of what is finer. `bulk_density` is loose, as it
    fills a bucket. `ribbon` is how long a flattened roll of it hangs before it breaks.
    """

    name: Text
    material: Literal["clay-subsoil", "sand", "gravel", "other"] = "clay-subsoil"
    place: Text | None = None
    depth: Length | None = None
    dug: IsoDate | None = None
    description: LongText | None = None
    clay: Share | None = None
    silt: Share | None = None
    sand: Share | None = None
    fine_sand: Share | None = None
    coarse_sand: Share | None = None
    gravel: Share | None = None
    bulk_density: Density | None = None
    organic: YesNo | None = None
    field_tests: list[FieldTest] = Field(default_factory=no_items, max_length=200)
    jar: JarRecord | None = None
    grading: GradingRecord | None = None
    largest_stone: Length | None = None
    largest_lump: Length | None = None
    soluble_salts: Share | None = None
    ribbon: Length | None = None
    photos: list[Mark] = Field(default_factory=no_items, max_length=100)


class Mix(Described):
    """What goes into the wall, in parts by loose volume. A changed proportion is another mix with its own tests.

    `trial` is the trial mix it was chosen from, `replaces` the mix it takes the place of.
    Of units: `units` is how many go into the building; cracks are those of the worst unit seen; `absorption` is the
    water a dried 4 in cube takes up in 7 days, `moisture` what is in the mix or unit as it goes into the wall, both
    of dry weight, as is `cement`. `spray_erosion` is the depth a pressure spray wears away in an hour, `drip_pit` that
    of the pit dug by drops. Strengths are governing values as a laboratory reports them: `splitting_strength` of the
    earth and of the mortar in indirect tension, `wallette_strength` of small walls pressed flat, `wallette_shear` of
    small walls pressed along their diagonal. `strength_class` is the class the mix is declared in. `specific_heat` and
    `conductivity` are of the dry earth, and `thermal_source` says who measured or gives them.
    """

    name: Text
    form: EarthForm | None = None
    units: int | None = Field(default=None, ge=0, le=10_000_000)
    version: Text | None = None
    trial: Mark | None = None
    replaces: Mark | None = None
    parts: dict[Mark, Parts] = Field(min_length=1, max_length=20)
    straw: Straw | None = None
    straw_parts: Parts | None = None
    stabilised: YesNo | None = None
    stabiliser: Text | None = None
    cement: Share | None = None
    absorption: Share | None = None
    moisture: Share | None = None
    cracks_per_unit: int | None = Field(default=None, ge=0, le=1000)
    crack_length: Length | None = None
    crack_width: Length | None = None
    spray_erosion: Length | None = None
    drip_pit: Length | None = None
    splitting_strength: Stress | None = None
    mortar_splitting_strength: Stress | None = None
    wallette_strength: Stress | None = None
    wallette_shear: Stress | None = None
    strength_class: Text | None = None
    dry_density: Density | None = None
    specific_heat: SpecificHeat | None = None
    conductivity: Conductivity | None = None
    thermal_source: Telling | None = None
    note: LongText | None = None

    @model_validator(mode="after")
    def _heat_is_that_of_earth(self) -> Self:
        for value, (least, most), called, example in (
            (self.specific_heat, (400, 2600), "specific heat", "0.2 Btu/(lb*F), or 0.84 kJ/(kg*K)"),
            (self.conductivity, (0.07, 3.0), "conductivity", "4.5 Btu*in/(h*ft2*F), or 0.65 W/(m*K)"),
        ):
            if value is not None and not least <= value.si <= most:
                wrong = f"no earth has a {called} of {value}"
                raise refuse("thermal-implausible", wrong, f"check the unit; write for example {example}")
        return self


class Ordering(Described):
    """Figures of the site that quantities are counted with; what is not stated is common practice.

    `loose_for_wall` is the loose soil and sand that go in for each volume of finished wall, `bale` the weight of one
    bale of straw.
    """

    bucket: BucketVolume | None = None
    loose_for_wall: float | None = Field(default=None, ge=0.5, le=5)
    waste: Share | None = None
    bale: MassAboveZero | None = None

    @model_validator(mode="after")
    def _waste_is_a_share(self) -> Self:
        if self.waste is not None and not 0 <= self.waste.si < 1:
            wrong = f"waste of {self.waste} is no share of what is mixed"
            raise refuse("ordering-waste", wrong, "write for example 10 %")
        return self


class TestSet(Described):
    """A set of specimens of one mix. Its rows stand in the lab tables under the same mark. `report` is an attachment,
    `report_number` the laboratory's own number of its report.

    `soaked` is how long the specimens lay in water before the test; the rates are those of loading.
    """

    kind: SpecimenKind
    mix: Mark
    title: Text | None = None
    made_by: Text | None = None
    tested_by: Text | None = None
    report: Mark | None = None
    report_number: Text | None = None
    capped: Literal["plaster of paris", "sulfur", "neoprene", "board", "none"] | None = None
    soaked: Time | None = None
    stress_rate: StressRate | None = None
    force_rate: ForceRate | None = None
    shown_to_official: IsoDate | None = None
    note: LongText | None = None
