"""Reasons and values as data for JSON."""

from __future__ import annotations

import dataclasses
import math
from datetime import date
from typing import Any, cast

from compliance.findings import Reason
from compliance.judging.reasons import Entry
from compliance.rules.formulas.formula import Formula
from compliance.steps import Given
from compliance.units import KINDS, Writer


def reason_data(reason: Reason, writer: Writer) -> dict[str, Any]:
    """The values of a reason by name; a reason within it with its code under `why`."""
    fields = dataclasses.fields(cast(Any, reason))
    return {one.name: _data(getattr(reason, one.name), writer) for one in fields}


def _data(value: object, writer: Writer) -> Any:
    """Raises TypeError for what no reason holds."""
    match value:
        case None | str() | bool() | int():
            return value
        case date():
            return value.isoformat()
        case tuple():
            return [_data(one, writer) for one in value]
        case Given():
            return given_data(value, writer)
        case Formula():
            return value.text
        case Entry():
            return {"name": value.name, "how": value.how, "read_in": value.read_in}
        case Reason():
            return {"why": value.code, **reason_data(value, writer)}
        case _:
            raise TypeError(f"a reason holds {value!r}")


def given_data(given: Given | None, writer: Writer) -> dict[str, Any] | None:
    """A value as text in the project's units, and as a number with its unit where it is one."""
    if given is None:
        return None
    text = given.written(writer)
    beyond = isinstance(given.value, float) and not math.isfinite(given.value)  # JSON has no such number
    if isinstance(given.value, (bool, str)) or given.kind not in KINDS or beyond:
        return {"text": text, "number": None, "unit": None}
    return {"text": text, "number": writer.number(given.value, given.kind), "unit": writer.unit_symbol(given.kind)}
