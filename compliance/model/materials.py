"""Soils, mixes and the sets of specimens cast from them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from compliance.model.base import (
    Density,
    Described,
    ForceRate,
    IsoDate,
    Length,
    LongText,
    Mark,
    Share,
    StressRate,
    Text,
    Time,
    YesNo,
)

SpecimenKind = Literal["compression", "rupture", "shrinkage"]
Parts = Annotated[float, Field(gt=0, le=1000)]


class Soil(Described):
    """A soil or an aggregate and where it comes from. Shares are by dry weight, without the coarser part."""

    name: Text
    material: Literal["clay-subsoil", "sand", "gravel", "other"] = "clay-subsoil"
    place: Text | None = None
    depth: Length | None = None
    dug: IsoDate | None = None
    description: LongText | None = None
    clay: Share | None = None
    silt: Share | None = None
    sand: Share | None = None
    gravel: Share | None = None
    organic: YesNo | None = None
    largest_stone: Length | None = None
    largest_lump: Length | None = None
    soluble_salts: Share | None = None
    photos: list[Mark] = Field(default_factory=list)


class Mix(Described):
    """What goes into the wall, in parts by volume. A changed proportion is another mix with its own tests.

    Of units: `units` is how many go into the building; cracks are those of the worst unit seen; `absorption` is the
    water a dried 4 in cube takes up in 7 days, `moisture` what is in the mix or unit as it goes into the wall, both
    of dry weight, as is `cement`.
    """

    name: Text
    form: Literal["cob", "adobe", "cut-sod", "fired-adobe", "pressed-block", "rammed-earth"] | None = None
    units: int | None = Field(default=None, ge=0, le=10_000_000)
    parts: dict[Mark, Parts] = Field(min_length=1)
    straw: Literal["wheat", "rice", "rye", "barley", "oat", "other", "none"] | None = None
    straw_parts: Parts | None = None
    stabilised: YesNo | None = None
    stabiliser: Text | None = None
    cement: Share | None = None
    absorption: Share | None = None
    moisture: Share | None = None
    cracks_per_unit: int | None = Field(default=None, ge=0, le=1000)
    crack_length: Length | None = None
    crack_width: Length | None = None
    dry_density: Density | None = None
    note: LongText | None = None


class TestSet(Described):
    """A set of specimens of one mix. Its rows stand in the lab tables under the same mark.

    `soaked` is how long the specimens lay in water before the test; the rates are those of loading.
    """

    kind: SpecimenKind
    mix: Mark
    title: Text | None = None
    made_by: Text | None = None
    tested_by: Text | None = None
    report: Mark | None = None
    capped: Literal["plaster of paris", "sulfur", "neoprene", "board", "none"] | None = None
    soaked: Time | None = None
    stress_rate: StressRate | None = None
    force_rate: ForceRate | None = None
    shown_to_official: IsoDate | None = None
    note: LongText | None = None
