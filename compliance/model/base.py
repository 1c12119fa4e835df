"""The pieces every part of the model is made of: frozen strict records, measures, marks, dates, words."""

import re
from datetime import date
from typing import Annotated, Any

from pydantic import (
    BaseModel,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    StringConstraints,
    ValidationInfo,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from compliance.units import KINDS, Measure, MeasureError, parse_measure
from compliance.units.everyday import labeled_resistance

MARK_PATTERN = r"^[A-Za-z][A-Za-z0-9_-]{0,23}$"


class Described(BaseModel):
    """A record the user describes. Unknown fields are refused, values never change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, arbitrary_types_allowed=True, defer_build=True)


def no_items() -> list[Any]:
    """A new empty list. Of `list` itself pydantic works out the signature, again for each field."""
    return []


class MeasureOf:
    """Field type: the text of a measure of one kind, read by the grammar of measures; `12` alone is refused.

    `pitch`: an angle may be written as a rise on a run of twelve. In a project in SI units, which the context of the
    validation names under `units`, no comma parts thousands; in one in US units `R-13` is what a label of insulation
    says, which elsewhere could be of either system and is asked."""

    def __init__(self, kind: str, *, above_zero: bool = False, below_zero: bool = True, pitch: bool = False) -> None:
        self.kind = KINDS[kind]
        self.above_zero, self.below_zero, self.pitch = above_zero, below_zero, pitch

    def _read(self, value: object, info: ValidationInfo) -> Measure:
        if isinstance(value, Measure):
            return value
        if not isinstance(value, str):
            value = _as_written(value)
        try:
            units = (info.context or {}).get("units")
            commas = units != "si"
            label = units == "us" and self.kind.name == "thermal_resistance" and labeled_resistance(value)
            found = parse_measure(label or value, self.kind, pitch=self.pitch, commas=commas)
            found = Measure(found.si, found.unit, value.strip()) if label else found
        except MeasureError as error:
            raise _custom(error.code, error.wrong, error.instead) from None
        if self.above_zero and found.si <= 0:
            raise _custom("measure-zero", f"{value!r} is not above zero", f"write for example {self.kind.example}")
        if not self.below_zero and found.si < 0:
            raise _custom("measure-negative", f"{value!r} is below zero", f"write for example {self.kind.example}")
        return found

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(
            self._read, serialization=core_schema.to_string_ser_schema()
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        examples = [text.strip() for text in self.kind.example.split(", or ")]
        examples += ["6:12"] if self.pitch else []
        text = {"type": "string", "description": f"{self.kind.called} with its unit", "examples": examples}
        zero_is_clear = not self.above_zero and self.kind.name != "temperature"
        return {**text, "type": ["string", "number"], "maximum": 0, "minimum": 0} if zero_is_clear else text


def _as_written(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return "nothing" if value is None else str(value)


def _custom(code: str, wrong: str, instead: str) -> PydanticCustomError:
    """An error carrying our code, what is wrong and what to write instead (read by the reader of projects)."""
    return PydanticCustomError(code, "{wrong}", {"wrong": wrong, "instead": instead})


def refuse(code: str, wrong: str, instead: str) -> PydanticCustomError:
    """For validators of the model: raise what this returns."""
    return _custom(code, wrong, instead)


class _YesNo:
    @staticmethod
    def _read(value: object) -> bool:
        if isinstance(value, bool):
            return value
        if value in ("yes", "no"):
            return value == "yes"
        raise _custom("yes-or-no", f"{_as_written(value)!r} is neither yes nor no", "write yes or no")

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"enum": ["yes", "no", True, False]}


class _IsoDate:
    @staticmethod
    def _read(value: object) -> date:
        if isinstance(value, date):
            return value
        if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
            try:
                return date.fromisoformat(value)
            except ValueError:
                pass
        raise _custom("date", f"{_as_written(value)!r} is not a date", "write year-month-day, as in 2026-05-14")

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self._read, serialization=core_schema.to_string_ser_schema()
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": "string", "format": "date", "examples": ["2026-05-14"]}


class TextOf:
    """Text for people: at most `most` characters, no control characters but line breaks."""

    def __init__(self, most: int, least_letters: int = 0) -> None:
        self.most, self.least_letters = most, least_letters

    def _read(self, value: object) -> str:
        if not isinstance(value, str):
            if value is None or isinstance(value, (bool, dict, list)):
                raise _custom("text", f"{_as_written(value)!r} is not text", "write some words")
            value = str(value)
        if len(value) > self.most:
            raise _custom("text-long", f"the text has {len(value)} characters", f"use at most {self.most}")
        if not value.isprintable() and any(not char.isprintable() and char not in "\n\t" for char in value):
            raise _custom("text-control", "the text has a control character", "retype the text")
        if self.least_letters and sum(char.isalnum() for char in value) < self.least_letters:
            raise _custom("text-empty", f"{value.strip()!r} says nothing", "write a name, a place or a sentence")
        return value.strip()

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": ["string", "number"], "maxLength": self.most}


YesNo = Annotated[bool, _YesNo()]
IsoDate = Annotated[date, _IsoDate()]
Text = Annotated[str, TextOf(400)]
LongText = Annotated[str, TextOf(4000)]
Telling = Annotated[str, TextOf(400, least_letters=1)]
"""Who, where, by what authority: text that must hold more than a mark or a dot."""
LongTelling = Annotated[str, TextOf(4000, least_letters=1)]
"""A reason."""
Mark = Annotated[str, StringConstraints(pattern=MARK_PATTERN)]
FilePath = Annotated[str, TextOf(240)]

Length = Annotated[Measure, MeasureOf("length")]
LengthAboveZero = Annotated[Measure, MeasureOf("length", above_zero=True)]
Thickness = Annotated[Measure, MeasureOf("thickness", above_zero=True)]
Coordinate = Annotated[Measure, MeasureOf("coordinate")]
Stress = Annotated[Measure, MeasureOf("stress", above_zero=True)]
Pressure = Annotated[Measure, MeasureOf("pressure", below_zero=False)]
LineLoad = Annotated[Measure, MeasureOf("line_load")]
Force = Annotated[Measure, MeasureOf("force")]
ForceAboveZero = Annotated[Measure, MeasureOf("force", above_zero=True)]
Moment = Annotated[Measure, MeasureOf("moment", above_zero=True)]
Area = Annotated[Measure, MeasureOf("area", above_zero=True)]
Density = Annotated[Measure, MeasureOf("density", above_zero=True)]
Speed = Annotated[Measure, MeasureOf("speed", above_zero=True)]
Angle = Annotated[Measure, MeasureOf("angle")]
RoofSlope = Annotated[Measure, MeasureOf("angle", pitch=True)]
Share = Annotated[Measure, MeasureOf("share")]
Volume = Annotated[Measure, MeasureOf("volume", above_zero=True)]
BucketVolume = Annotated[Measure, MeasureOf("vessel_volume", above_zero=True)]
MassAboveZero = Annotated[Measure, MeasureOf("mass", above_zero=True)]
Age = Annotated[Measure, MeasureOf("age")]
Time = Annotated[Measure, MeasureOf("time")]
StressRate = Annotated[Measure, MeasureOf("stress_rate", above_zero=True)]
ForceRate = Annotated[Measure, MeasureOf("force_rate", above_zero=True)]
Temperature = Annotated[Measure, MeasureOf("temperature")]
Permeance = Annotated[Measure, MeasureOf("permeance")]
Resistance = Annotated[Measure, MeasureOf("thermal_resistance", above_zero=True)]
SpecificHeat = Annotated[Measure, MeasureOf("specific_heat", above_zero=True)]
Conductivity = Annotated[Measure, MeasureOf("conductivity", above_zero=True)]
