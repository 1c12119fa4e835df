"""A drawing before it has its place on a page: how low it can be made, and how it is made at a given height."""

from __future__ import annotations

from collections.abc import Callable

from compliance.drawings.primitives import Drawing
from compliance.record import record

PLAN_KEY = "plan"
"""The place in a document where the plan stands."""


@record
class Draft:
    """`least` is the height in points below which the drawing does not fit; `draw` makes it at any greater height."""

    key: str
    name: str
    least: float
    draw: Callable[[float], Drawing]
    notes: tuple[str, ...] = ()


@record
class Flag:
    """A finding that is marked at its place: the short code of its rule, the name of its outcome's mark, the place in
    the document that reports it. `about` and `subject` are those of the finding ("pier", "P2")."""

    about: str
    subject: str
    code: str
    mark: str
    link: str
    fact: str = ""


def elevation_key(wall: str) -> str:
    """The place in a document where the elevation of a wall stands."""
    return f"elevation-{wall}"
