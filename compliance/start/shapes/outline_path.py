"""An outline of straight walls and arcs, written on one line: its corners, and `through` a point of each arc."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.refused import RefusedError, shortened
from compliance.start.project_files.field_help import read_point

THROUGH, OPEN = "through", "open"
_FORM = "write corners as east, north, separated by semicolons, as in 0 ft, 0 ft; 20 ft, 0 ft; 20 ft, 14 ft"
_FEWEST, _MOST = 2, 200


def read_path(text: str) -> str:
    """`text` as given, when it is an outline. Raises RefusedError: `start-path`, and the codes of points."""
    list(_legs(text))
    return text


def path_walls(text: str) -> dict[str, dict[str, Any]]:
    """Walls of the outer type along the lines, the last one back to the first corner unless the outline ends `open`."""
    return {f"W{number}": {"type": "outer"} | leg for number, leg in enumerate(_legs(text), 1)}


def _legs(text: str) -> Iterator[dict[str, Any]]:
    parts = [part.strip() for part in text.split(";") if part.strip()]
    closed = bool(parts) and parts[-1].casefold() != OPEN
    points = [_point(part) for part in (parts if closed else parts[:-1])]
    if not points or points[0][0] or len([one for one in points if not one[0]]) < _FEWEST or len(points) > _MOST:
        raise RefusedError("start-path", f"{shortened(text)} is no outline of two corners or more", _FORM)
    if closed and points[-1] != points[0]:
        points.append(points[0])
    start, through = points[0][1], None
    for is_through, point in points[1:]:
        if not is_through:
            named = (
                {"from": start, "to": point} if through is None else {"from": start, "through": through, "to": point}
            )
            yield {"run" if through is None else "arc": named}
            start, through = point, None
        elif through is None:
            through = point
        else:
            raise RefusedError("start-path", "two points of one arc stand together", "write one, then its end")
    if through is not None:
        raise RefusedError("start-path", "the last arc has no end", "write the corner at which it ends")


def _point(part: str) -> tuple[bool, list[str]]:
    """Whether an arc passes through it, and the point."""
    word, _, rest = part.partition(" ")
    is_through = word.casefold() == THROUGH
    return is_through, read_point(rest if is_through else part)
