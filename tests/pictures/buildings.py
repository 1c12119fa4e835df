"""The buildings whose pages are kept as pictures: the example, the smallest one, one of forty walls. The last two are
synthetic: plain numbers and findings whose outcomes take turns."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.model.project import Project
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked

ALWAYS = ("Cover", "The answer on one page", "Floor plan", "Elevations", "Sections", "Walls")
"""Bookmarks whose pages are kept, by title."""

_PARTS: dict[str, Any] = {
    "soils": {"S1": {"name": "Pit soil", "clay": "22 %", "sand": "60 %"}},
    "mixes": {"M1": {"name": "Site mix", "parts": {"S1": 2.0, "sand": 1.0}, "straw": "wheat"}},
    "test_sets": {"C1": {"kind": "compression", "mix": "M1", "made_by": "the builder"}},
    "stems": {"ST1": {"material": "stone", "thickness": "0.45 m", "above_grade": "0.4 m", "above_floor": "0.25 m",
                      "moisture_break": "bituminous"}},
    "footings": {"F1": {"kind": "rubble-trench", "width": "0.6 m", "thickness": "0.5 m", "bottom": "0.9 m",
                        "drain": "yes"}},
    "beams": {"B1": {"material": "concrete", "width": "0.3 m", "depth": "0.2 m", "continuous": "yes",
                     "anchors": {"diameter": "12 mm", "spacing": "1.2 m", "embedment": "0.4 m"}}},
    "roofs": {"R1": {"kind": "framed", "overhang": "0.6 m", "slope": "25 deg", "bears_on": [{"wall": "W1"}]}},
}  # fmt: skip


def _wall(x0: float, y0: float, x1: float, y1: float, *openings: dict[str, str], **more: Any) -> dict[str, Any]:
    return {
        "run": {"from": [f"{x0:g} m", f"{y0:g} m"], "to": [f"{x1:g} m", f"{y1:g} m"]}, "height": "2.4 m",
        "thickness": "0.4 m", "mix": "M1", "bears_load": "yes", "stem": "ST1", "footing": "F1", "beam": "B1",
        "lift_height": "0.4 m", "use": "exterior", "outside": [{"material": "lime", "thickness": "20 mm"}],
        "inside": [{"material": "clay", "thickness": "25 mm"}],
        "openings": {f"N{number}": opening for number, opening in enumerate(openings, start=1)}, **more,
    }  # fmt: skip


def _opening(kind: str, start: float, sill: float, height: float) -> dict[str, Any]:
    lintel = {"material": "wood", "depth": "0.15 m", "bearing": "0.3 m"}
    return {"kind": kind, "start": f"{start:g} m", "width": "0.9 m", "height": f"{height:g} m", "sill": f"{sill:g} m",
            "lintel": lintel}  # fmt: skip


def _project(name: str, walls: Mapping[str, Any]) -> Project:
    head = {"name": name, "date": "2026-12-30", "units": "si", "paper": "a4", "revision": "A", "number": "P-1"}
    jurisdiction = {"name": "Nowhere", "rule_sets": ["none"]}
    north = {"north": "30 deg"}
    return Project.model_validate(
        {"project": head, "jurisdiction": jurisdiction, "site": north, "walls": dict(walls), **_PARTS}
    )


def example() -> Checked:
    """With a fingerprint of its own, so that a comment in a file is no other picture."""
    return replace(check_folder(EXAMPLE), fingerprint="0" * 64)


def smallest() -> Checked:
    """A hut of 2 m by 2 m."""
    walls = {
        "W1": _wall(0, 0, 2, 0, _opening("door", 0.55, 0, 2)),
        "W2": _wall(2, 0, 2, 2, _opening("window", 0.55, 0.9, 1)),
        "W3": _wall(2, 2, 0, 2),
        "W4": _wall(0, 2, 0, 0),
    }
    return checked(of=_project("The smallest hut", walls), rules=3)


def forty_walls() -> Checked:
    """Five houses of eight walls, in two rows."""
    window = _opening("window", 1.2, 0.9, 1)
    walls = []
    for house in range(5):
        x, y = 9 * (house % 3), 8 * (house // 3)
        walls += [
            _wall(x, y, x + 6, y, window, _opening("door", 3.5, 0, 2)), _wall(x + 6, y, x + 6, y + 5),
            _wall(x + 6, y + 5, x, y + 5, window), _wall(x, y + 5, x, y),
            _wall(x + 3, y, x + 3, y + 5, use="interior"), _wall(x, y + 2.5, x + 3, y + 2.5, use="interior"),
            _wall(x + 3, y + 3, x + 6, y + 3, use="interior"), _wall(x + 4.5, y, x + 4.5, y + 3, use="interior"),
        ]  # fmt: skip
    named = {f"W{number}": wall for number, wall in enumerate(walls, start=1)}
    return checked(of=_project("Forty walls", named), rules=2)


BUILDINGS: dict[str, tuple[Callable[[], Checked], tuple[str, ...]]] = {
    "example": (example, (*ALWAYS, "Plan with the bracing shares")),
    "smallest": (smallest, ALWAYS),
    "forty-walls": (forty_walls, ALWAYS),
}
"""How each is made, and which of its pages are kept."""
