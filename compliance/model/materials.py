"""Soils, mixes and the sets of specimens cast from them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from compliance.model.base import Density, Described, IsoDate, Length, LongText, Mark, Share, Text, YesNo

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
    photos: list[Mark] = Field(default_factory=list)


class Mix(Described):
    """What goes into the wall, in parts by volume. A changed proportion is another mix with its own tests."""

    name: Text
    parts: dict[Mark, Parts] = Field(min_length=1)
    straw: Literal["wheat", "rice", "rye", "barley", "oat", "other", "none"] | None = None
    straw_parts: Parts | None = None
    stabilised: YesNo | None = None
    stabiliser: Text | None = None
    dry_density: Density | None = None
    note: LongText | None = None


class TestSet(Described):
    """A set of specimens of one mix. Its rows stand in the lab tables under the same mark."""

    kind: SpecimenKind
    mix: Mark
    title: Text | None = None
    made_by: Text | None = None
    tested_by: Text | None = None
    report: Mark | None = None
    capped: Literal["plaster of paris", "sulfur", "neoprene", "board", "none"] | None = None
    shown_to_official: IsoDate | None = None
    note: LongText | None = None
