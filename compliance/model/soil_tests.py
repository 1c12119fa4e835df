"""What was tried on a soil: hand tests in the field, the jar, and the grading of a laboratory."""

from typing import Annotated, Any, Literal, Self

from pydantic import Field, ValidationInfo, model_validator

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

IN_A_JAR = "sand: 3 in, silt: 3 5/8 in, clay: 4 1/8 in"
"""The shape of a jar: the top of each layer above the bottom."""


class LayerHeightOf(MeasureOf):
    """A height read off a jar; a share is refused with what is wanted in its place."""

    def __init__(self, above_zero: bool = False) -> None:
        super().__init__("layer_height", above_zero=above_zero)

    def _read(self, value: object, info: ValidationInfo) -> Measure:
        if isinstance(value, str) and value.rstrip().endswith(("%", "percent")):
            instead = f"write the tops of the layers, as in {IN_A_JAR}; shares go under the soil itself: sand: 70 %"
            raise refuse("jar-share", f"{value!r} is a share, and a jar takes heights read off it", instead)
        return super()._read(value, info)


LayerHeight = Annotated[Measure, LayerHeightOf()]
LayerAboveZero = Annotated[Measure, LayerHeightOf(above_zero=True)]


class GrainSizeOf(MeasureOf):
    """A grain size, or the sieve that it just passes: `0.075 mm`, `No. 200`."""

    def __init__(self) -> None:
        super().__init__("grain_size", above_zero=True)

    def _read(self, value: object, info: ValidationInfo) -> Measure:
        number = sieve_number(value) if isinstance(value, str) else None
        if number is None:
            return super()._read(value, info)
        if number not in OPENINGS:
            known = ", ".join(f"No. {one}" for one in OPENINGS)
            raise refuse("sieve", f"no sieve is called {value!r}", f"write its opening in mm, or one of {known}")
        return super()._read(f"{OPENINGS[number]} mm", info)


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
    """The top of a layer above the floor of the jar, and how long after the shaking stopped it was marked. The height
    may stand by itself: `3 in`, or `{height: 3 in, time: 40 s}`."""

    height: LayerHeight
    time: Time | None = None

    @model_validator(mode="before")
    @classmethod
    def _height_alone(cls, value: Any) -> Any:
        return {"height": value} if isinstance(value, str | int | float) else value


class JarRecord(Described):
    """One jar: the tops of its layers above the bottom, as `{sand: 3 in, silt: 3 5/8 in, clay: 4 1/8 in}`.

    The top of the clay is that of everything that settled, which `settled` may say in its stead. `depth` is the height
    of everything in it, water included. `coarse_sand` is the top of the coarse sand where it could be seen apart from
    the fine, `floating` the thickness of what floats: organic matter. `clear` says whether the water was clear at the
    last mark, `dispersed` whether a little salt kept the clay apart.
    """

    sand: LayerReading
    silt: LayerReading
    clay: LayerReading | None = None
    settled: LayerReading | None = None
    depth: LayerAboveZero | None = None
    temperature: Temperature | None = None
    coarse_sand: LayerHeight | None = None
    floating: LayerHeight | None = None
    clear: YesNo | None = None
    dispersed: YesNo | None = None
    date: IsoDate | None = None
    by: Text | None = None
    photo: Mark | None = None
    note: LongText | None = None

    @model_validator(mode="before")
    @classmethod
    def _not_a_list(cls, value: Any) -> Any:
        if isinstance(value, list | str):
            raise refuse(
                "jar-shape", "the jar does not say which layer each height belongs to", f"write {{{IN_A_JAR}}}"
            )
        return value

    @model_validator(mode="after")
    def _one_top(self) -> Self:
        if self.clay is None and self.settled is None:
            raise refuse("jar-clay", "the jar has no top of the clay", f"write all three tops, as in {IN_A_JAR}")
        if self.clay is not None and self.settled is not None:
            wrong = "clay and settled are both given, and are the same mark: the top of everything that settled"
            raise refuse("jar-clay", wrong, "keep one of them")
        return self

    @property
    def top(self) -> LayerReading:
        """The top of everything that settled."""
        found = self.clay or self.settled
        assert found is not None
        return found

    @property
    def height(self) -> Measure:
        """Of everything in it, as far as it was written down."""
        return self.depth or self.top.height


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
