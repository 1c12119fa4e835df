"""Parts of a mix as people say them: `1 clay soil, 2 sand, 0.6 wheat straw`."""

from __future__ import annotations

from typing import get_args

from compliance.model.materials import Soil
from compliance.model.trials import Straw
from compliance.record import record
from compliance.refused import RefusedError, shortened
from compliance.start.project_files.field_help import read_field
from compliance.units import parse_number

_STRAWS = tuple(word for word in get_args(Straw) if word not in ("other", "none"))
_FORM = "write parts by loose volume, as in 1 clay soil, 2 sand, 0.6 straw"


@record
class Parts:
    """Names of soils and aggregates with their parts; straw apart, its kind where it is told."""

    soils: tuple[tuple[str, str], ...]
    straw: str = ""
    straw_parts: str = ""


def read_parts(text: str) -> Parts:
    """Raises RefusedError: `start-parts`."""
    soils: dict[str, str] = {}
    straw = straw_parts = ""
    for part in filter(None, (part.strip() for part in text.split(","))):
        number, _, name = part.partition(" ")
        name = name.strip().removeprefix("parts ").removeprefix("part ").removeprefix("of ")
        value = parse_number(number)
        if value is None or not 0 < value <= 1000 or not name or name in soils:
            raise RefusedError("start-parts", f"{shortened(part)} is not a number of parts and a name", _FORM)
        if name.split()[-1] == "straw":
            straw, straw_parts = next((word for word in name.split() if word in _STRAWS), "other"), f"{value:g}"
            straw = "" if name == "straw" else straw
            continue
        soils[read_field(Soil, "name", name)] = f"{value:g}"
    if not soils:
        raise RefusedError("start-parts", f"{shortened(text)} names no soil", _FORM)
    return Parts(tuple(soils.items()), straw, straw_parts)


def material_of(name: str) -> str:
    """The kind of material that a name tells; empty where it does not."""
    last = name.casefold().split()[-1]
    return last if last in ("sand", "gravel") else ""
