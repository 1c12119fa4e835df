"""Thicknesses as drawings have them: inches with a fraction, as rules and tapes do."""

from __future__ import annotations

from compliance.units import Writer

_INCH = 0.0254
_PARTS = 16
_SAME = 1e-6


def written(writer: Writer, value: float, kind: str) -> str:
    """A measure [SI] in the units of the drawing. Inches of a thickness that are whole sixteenths have a fraction,
    5 1/2 in for 5.5 in; others stay as the writer has them, so that nothing is rounded."""
    plain = writer.write(value, kind)
    parts = value / _INCH * _PARTS
    if kind != "thickness" or writer.system != "us" or "." not in plain or abs(parts - round(parts)) > _SAME:
        return plain
    whole, part = divmod(round(parts), _PARTS)
    over = _PARTS
    while part % 2 == 0:
        part, over = part // 2, over // 2
    return f"{whole} {part}/{over} in" if whole else f"{part}/{over} in"
