"""Lines and areas as operators of a PDF page (ISO 32000-1, 8.5), in hundredths of a point.

A bundle has some hundred thousand of them, and reportlab writes each number by a call of its own. What is given back
goes to the page by `canvas.addLiteral`; nothing here touches the canvas, so `canvas.saveState` still brackets it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

STROKE, FILL, CLIP = "S", "f*", "W* n"
_ROUND = 0.5522847498
"""How far the handles of four Bézier curves reach, of the radius of the circle that they make."""


@lru_cache(maxsize=256)
def pen(weight: float, colour: Any, dashes: tuple[float, ...] = ()) -> str:
    """Sets the pen, a width in points and a colour of reportlab."""
    parts = " ".join(f"{one:g}" for one in dashes)
    return f"{weight:.3f} w {_rgb(colour)} RG [{parts}] 0 d"


@lru_cache(maxsize=256)
def filling(colour: Any) -> str:
    """Sets the colour of areas."""
    return f"{_rgb(colour)} rg"


def _rgb(colour: Any) -> str:
    return f"{colour.red:.4f} {colour.green:.4f} {colour.blue:.4f}"


def segments(lines: Iterable[tuple[float, float, float, float]]) -> str:
    """Each from its first point to its second."""
    return " ".join([f"{x0:.2f} {y0:.2f} m {x1:.2f} {y1:.2f} l" for x0, y0, x1, y1 in lines])


def outline(points: Sequence[tuple[float, float]], closed: bool) -> str:
    """Through all points."""
    (x, y), *rest = points
    through = " ".join([f"{x:.2f} {y:.2f} l" for x, y in rest])
    return f"{x:.2f} {y:.2f} m {through}{' h' if closed else ''}"


def box(left: float, bottom: float, width: float, height: float) -> str:
    return f"{left:.2f} {bottom:.2f} {width:.2f} {height:.2f} re"


def circle(x: float, y: float, radius: float) -> str:
    reach = _ROUND * radius
    left, right, low, high = x - radius, x + radius, y - radius, y + radius
    return (
        f"{right:.2f} {y:.2f} m "
        f"{right:.2f} {y + reach:.2f} {x + reach:.2f} {high:.2f} {x:.2f} {high:.2f} c "
        f"{x - reach:.2f} {high:.2f} {left:.2f} {y + reach:.2f} {left:.2f} {y:.2f} c "
        f"{left:.2f} {y - reach:.2f} {x - reach:.2f} {low:.2f} {x:.2f} {low:.2f} c "
        f"{x + reach:.2f} {low:.2f} {right:.2f} {y - reach:.2f} {right:.2f} {y:.2f} c h"
    )
