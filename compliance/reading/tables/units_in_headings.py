"""The unit that a laboratory's own heading names, however it writes it: `Breadth (in)`, `Load, kN`, `Depth mm`."""

from __future__ import annotations

import re

from compliance.model.lab_columns import ColumnSpec
from compliance.units import Kind, symbol_of, unit

_BRACKETED = re.compile(r"[\[(]\s*([^\[\]()]+?)\s*[\])]")
_AFTER = re.compile(r"(?:[,;:/]|\bin\b|\s)\s*([^\s,;:/()\[\]]+)\s*\.?\s*$")

_OTHER_SPELLINGS = {
    '"': "in", "kn": "kN", "n": "N", "kp": "kgf", "kgs": "kg", "gr": "g", "pct": "%", "mpa": "MPa", "kpa": "kPa",
    "pa": "Pa",
}  # fmt: skip
"""How laboratories write units in their headings, which nowhere else would be clear."""


def known_spelling(written: str, kind: Kind | None) -> str | None:
    """The spelling of a unit as it is known here; None for what is no unit. A load in pounds or kilograms is one in
    pounds-force or kilograms-force."""
    found = symbol_of(written, kind) or _OTHER_SPELLINGS.get(written.casefold())
    return "kgf" if found == "kg" and kind is not None and kind.name in ("test_load", "force") else found


def unit_in_heading(cell: str, spec: ColumnSpec) -> str | None:
    """The unit that a heading names, where it is one for the column; None where it names none."""
    kind = spec.kind
    if kind is None or not kind.si:
        return None
    written = [match[1] for match in _BRACKETED.finditer(cell)]
    after = _AFTER.search(cell)
    if not written and after:
        written = [after[1]]
    for text in written:
        found = known_spelling(text, kind)
        if found is not None and unit(found).dimension == kind.dimension:
            return found
    return None


def same_unit(one: str, other: str, spec: ColumnSpec) -> bool:
    """Whether two spellings mean one unit; one that is not known is another's problem."""
    if known_spelling(one, spec.kind) is None:
        return True
    a, b = (unit(known_spelling(text, spec.kind) or text) for text in (one, other))
    return (a.factor, a.offset, a.dimension) == (b.factor, b.offset, b.dimension)
