"""What was tried on a soil: hand tests in the field, the jar, and the grading of a laboratory."""

from typing import Annotated, Literal

from pydantic import Field

from compliance.model.base import (
    Described,
    IsoDate,
    LongText,
    Mark,
    MeasureOf,
    Share,
    Temperature,
    Text,
    Time,
    YesNo,
    refuse,
)
from compliance.units import Measure
from compliance.units.sieves import OPENINGS, sieve_number

LayerHeight = Annotated[Measure, MeasureOf("layer_height")]
LayerAboveZero = Annotated[Measure, MeasureOf("layer_height", above_zero=True)]


class GrainSizeOf(MeasureOf):
    """A grain size, or the sieve that it just passes: `0.075 mm`, `No. 200`."""

    def __init__(self) -> None:
        super().__init__("grain_size", above_zero=True)

    def _read(self, value: object) -> Measure:
        number = sieve_number(value) if isinstance(value, str) else None
        if number is None:
            return super()._read(value)
        if number not in OPENINGS:
            known = ", ".join(f"No. {one}" for one in OPENINGS)
            raise refuse("sieve", f"no sieve is called {value!r}", f"write its opening in mm, or one of {known}")
        return super()._read(f"{OPENINGS[number]} mm")


GrainSize = Annotated[Measure, GrainSizeOf()]

FieldTestKind = Literal["shaking", "ribbon", "roll", "ball-drop", "dry-strength", "stain", "smell"]


class FieldTest(Described):
    """One hand test. `reading` is a word of the test, or the length at which a ribbon or roll broke."""

    kind: FieldTestKind
    reading: Text
    date: IsoDate | None = None
    by: Text | None = None
    photo: Mark | None = None
    note: LongText | None = None


class LayerReading(Described):
    """The top of a layer above the floor of the jar, and how long after the shaking stopped it was marked."""

    height: LayerHeight
    time: Time | None = None


class JarRecord(Described):
    """One jar. `depth` is the height of everything in it, water included.

    `coarse_sand` is the top of the coarse sand where it could be seen apart from the fine, `floating` the thickness
    of what floats: organic matter. `clear` says whether the water was clear at the last mark, `dispersed` whether
    a little salt kept the clay apart.
    """

    depth: LayerAboveZero
    sand: LayerReading
    silt: LayerReading
    settled: LayerReading
    temperature: Temperature | None = None
    coarse_sand: LayerHeight | None = None
    floating: LayerHeight | None = None
    clear: YesNo | None = None
    dispersed: YesNo | None = None
    date: IsoDate | None = None
    by: Text | None = None
    photo: Mark | None = None
    note: LongText | None = None


class GradingPointRecord(Described):
    """The share of the dry weight that is finer than a size, by sieve or by hydrometer."""

    size: GrainSize
    finer: Share
    by: Literal["sieve", "hydrometer"] | None = None


class GradingRecord(Described):
    """A laboratory's grading of the whole sample. `report` is the mark of the attached report."""

    points: list[GradingPointRecord] = Field(min_length=1, max_length=100)
    by: Text | None = None
    date: IsoDate | None = None
    report: Mark | None = None
    note: LongText | None = None
