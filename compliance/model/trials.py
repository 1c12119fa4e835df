"""Trial mixes, and the batches mixed for the walls."""

from typing import Annotated, Literal

from pydantic import Field

from compliance.model.base import Described, IsoDate, LengthAboveZero, LongText, Mark, Share, Text, Volume, no_items

Parts = Annotated[float, Field(gt=0, le=1000)]
Straw = Literal["wheat", "rice", "rye", "barley", "oat", "other", "none"]


class Trial(Described):
    """A dried piece of a trial mix, dropped to see how it breaks. Parts are by loose volume.

    `largest_piece` is the share of the whole that the largest piece kept.
    """

    parts: dict[Mark, Parts] = Field(min_length=1, max_length=20)
    straw: Straw | None = None
    straw_parts: Parts | None = None
    made: IsoDate | None = None
    dropped: IsoDate | None = None
    drop_height: LengthAboveZero | None = None
    pieces: int | None = Field(default=None, ge=1, le=10_000)
    largest_piece: Share | None = None
    by: Text | None = None
    photo: Mark | None = None
    remarks: LongText | None = None


class Batch(Described):
    """Mixed at one time and placed. `walls` are those it went into; specimens name it in a column `batch`."""

    mix: Mark
    mixed: IsoDate | None = None
    volume: Volume | None = None
    by: Text | None = None
    straw: Straw | None = None
    straw_parts: Parts | None = None
    walls: list[Mark] = Field(default_factory=no_items, max_length=20_000)
    photo: Mark | None = None
    note: LongText | None = None
