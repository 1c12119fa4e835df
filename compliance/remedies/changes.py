"""What a remedy changes, as data: `report.words.remedy_words` puts it as an instruction."""

from __future__ import annotations

from typing import Literal

from compliance.facts.common.fact import FieldPath
from compliance.record import record
from compliance.units import Measure

Number = Measure | float | int
Edge = Literal["start", "middle", "end"]


@record
class FieldChange:
    """One field of the project given another value. `kind` is that of its measure, empty for a plain number;
    `shared_by` are the walls that take the record of the field, where it is not one wall's own."""

    path: FieldPath
    kind: str
    before: Number
    after: Number
    shared_by: tuple[str, ...] = ()


@record
class TaperChange:
    """Base and top of a tapered wall, each in m before and after."""

    wall: str
    base: tuple[float, float]
    top: tuple[float, float]


@record
class Narrowing:
    """An opening made narrower, in m; `keeps` is the part of it that stays in place."""

    wall: str
    opening: str
    before: Measure
    after: float
    keeps: Edge


@record
class NewButtresses:
    """Buttresses against a wall, their middles `at` so far from its start; all of one shape. None: no room for any."""

    wall: str
    at: tuple[float, ...] = ()
    width: Measure | None = None
    projection: Measure | None = None
    height: Measure | None = None


Change = FieldChange | TaperChange | Narrowing | NewButtresses
