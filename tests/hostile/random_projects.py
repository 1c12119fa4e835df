"""Random projects out of the model itself: every field there is, with values that are plausible, at an edge or odd.

What the model learns is filled without a word here; only what has to fit together is put together by hand: lines of
walls, openings along them, shares of soils, marks that name other things, rows of the lab tables.
"""

from __future__ import annotations

import itertools
import math
import types
from collections.abc import Callable
from functools import cache
from random import Random
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, StringConstraints
from pydantic.fields import FieldInfo

from compliance.model.base import MeasureOf, TextOf, _IsoDate, _YesNo
from compliance.model.project import Project
from compliance.model.walls import Opening, Wall, WallBuild
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.units import KINDS

SAYS_IT = 0.55
"""How often a field that may be left out is stated."""

_TEXTS: dict[str, tuple[str, ...]] = {
    "length": ("0 in", "1/16 in", "6 in", "2 ft", "8 ft 6 in", "3 m", "12 ft", "40 ft", "5 mm"),
    "thickness": ("1/4 in", "8 in", "12 in", "16 in", "400 mm", "24 in", "1 m"),
    "pressure": ("0 psf", "12 psf", "30 psf", "1.7 kPa", "300 psf", "2000 psf"),
    "stress": ("1 psi", "30 psi", "60 psi", "0.4 MPa", "2500 psi", "20 MPa"),
    "speed": ("1 mph", "85 mph", "110 mph", "49 m/s", "200 mph"),
    "angle": ("0 deg", "3 deg", "20 deg", "45 deg", "89 deg"),
    "share": ("0 %", "0.5 %", "12 %", "50 %", "100 %"),
    "density": ("20 pcf", "74 pcf", "110 pcf", "1900 kg/m3", "160 pcf"),
    "line_load": ("0 plf", "300 plf", "600 plf", "9 kN/m", "4000 plf"),
    "force": ("0 lbf", "40 lbf", "900 lbf", "4 kN", "20000 lbf"),
}
_FITTING = {
    "load_eccentricity": ("0 in", "1/4 in"), "eccentricity": ("0 in", "1/2 in"), "tie_height": ("0 in", "2 ft"),
    "ring_radius": ("0 in", "6 in"), "radius": ("12 ft", "4 m"), "rise": ("4 ft", "2 m"),
}  # fmt: skip
"""Sizes that another one bounds."""
_REFERS = {
    "mix": "mixes", "stem": "stems", "footing": "footings", "beam": "beams", "type": "wall_types", "wall": "walls",
    "trial": "trials",
}  # fmt: skip
_LEFT_OUT = {"report", "photo", "photos", "evidence", "replaces", "field_tests", "jar", "grading", "lab", "attachments",
             "amendments", "comments", "inspections"}  # fmt: skip
_SECTION = ("thickness", "thickness_base", "thickness_top")
_MARKS = {
    "soils": "S", "trials": "TR", "mixes": "M", "batches": "BA", "test_sets": "T", "stems": "ST", "footings": "F",
    "beams": "B", "roofs": "R", "wall_types": "WT", "walls": "W", "buttresses": "BT",
}  # fmt: skip


class Making:
    """One project in the making: `marks` are those of each section, decided before anything names them."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.marks = {
            section: [f"{mark}{number}" for number in range(1, chance.randint(1, 3) + 1)]
            for section, mark in _MARKS.items()
        }
        self.adopted = chance.sample(shipped_rule_sets(), chance.randint(1, 4))
        self.rules = [rule for name in self.adopted for rule in _rules_of(name)]
        self._by_hand: dict[str, Callable[[], Any]] = {
            "jurisdiction": lambda: {"name": "Nowhere", "rule_sets": self.adopted},
            "soils": lambda: {mark: self._soil() for mark in self.marks["soils"]},
            "walls": self._walls,
            "buttresses": self._buttresses,
            "parts": lambda: {mark: chance.choice((0.5, 1, 2, 7.25)) for mark in self.marks["soils"]},
            "bears_on": self._bearings,
            "mixed": lambda: "2026-01-02",
            "digest": lambda: f"{chance.getrandbits(256):064x}",
        }

    def project(self) -> dict[str, Any]:
        made = self.record(Project)
        made["project"]["name"] = "Random"
        return made

    def record(self, model: type[BaseModel], path: str = "") -> dict[str, Any]:
        """A record of the model: what it must have, and some of what it may."""
        made: dict[str, Any] = {}
        for name, field in model.model_fields.items():
            key = field.alias or name
            wanted = field.is_required() or (not path and name in _MARKS) or self.chance.random() < SAYS_IT
            if name in _LEFT_OUT or not wanted:
                continue
            by_hand = name in self._by_hand and (not path or name not in _MARKS)
            value = self._by_hand[name]() if by_hand else self._field(name, field, f"{path}.{key}")
            if value is not None:
                made[key] = value
        return made

    def _field(self, name: str, field: FieldInfo, path: str) -> Any:
        if name in _FITTING:
            return self.chance.choice(_FITTING[name])
        if name in _REFERS:
            return self.chance.choice(self.marks[_REFERS[name]])
        if name == "rule":
            return self.chance.choice(self.rules)
        if name in _MARKS and get_origin(field.annotation) is dict:
            return {mark: self.value(get_args(field.annotation)[1], [], path) for mark in self.marks[name]}
        if name in _MARKS:
            return []
        return self.value(field.annotation, field.metadata, path)

    def value(self, annotation: Any, metadata: list[Any], path: str) -> Any:
        """A value for an annotation of the model; None where there is none to give."""
        chance, origin = self.chance, get_origin(annotation)
        if origin is Annotated:
            marks = [part.metadata if isinstance(part, FieldInfo) else [part] for part in get_args(annotation)[1:]]
            return self.value(get_args(annotation)[0], [*itertools.chain(*marks), *metadata], path)
        if origin in (Union, types.UnionType):
            return self.value(next(part for part in get_args(annotation) if part is not type(None)), metadata, path)
        if origin is Literal:
            return chance.choice(get_args(annotation))
        if origin is list:
            return [self.value(get_args(annotation)[0], [], path) for _ in range(chance.randint(0, 2))]
        if origin is dict:
            return {f"X{n}": self.value(get_args(annotation)[1], [], path) for n in range(chance.randint(0, 2))}
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            made = self.record(annotation, path)
            return {name: one for name, one in made.items() if annotation is not WallBuild or name not in _SECTION}
        return self._plain(annotation, metadata, path)

    def _plain(self, annotation: Any, metadata: list[Any], path: str) -> Any:
        chance = self.chance
        for mark in metadata:
            if isinstance(mark, MeasureOf):
                return self._measure(mark)
            if isinstance(mark, _YesNo):
                return chance.choice((True, False))
            if isinstance(mark, _IsoDate):
                return f"2026-0{chance.randint(1, 9)}-1{chance.randint(0, 9)}"
            if isinstance(mark, TextOf):
                return chance.choice(("plain", "two words", "Zoë — 12 × 3 ≤ 40", "x" * 60, f"as in {path[-20:]}"))
            if isinstance(mark, StringConstraints):
                return None
        if annotation in (int, float):
            return self._number(annotation, metadata)
        raise TypeError(f"{path}: {annotation} has no random value")

    def _measure(self, mark: MeasureOf) -> str:
        kind = KINDS[mark.kind.name]
        texts = _TEXTS.get(kind.name) or tuple(text.strip() for text in kind.example.split(", or "))
        return self.chance.choice([text for text in texts if not (mark.above_zero and text.startswith("0 "))])

    def _number(self, kind: type, metadata: list[Any]) -> float:
        """Anywhere within its bounds, at either of them now and then."""
        bounds = [
            (name, getattr(mark, name)) for mark in metadata for name in ("ge", "gt", "le", "lt") if hasattr(mark, name)
        ]
        least = max((bound for name, bound in bounds if name in ("ge", "gt") and bound is not None), default=0)
        most = min((bound for name, bound in bounds if name in ("le", "lt") and bound is not None), default=100)
        open_at = {name for name, bound in bounds if name in ("gt", "lt") and bound is not None}
        inner = self.chance.uniform(least, most)
        choices = [inner, inner, *([least] if "gt" not in open_at else []), *([most] if "lt" not in open_at else [])]
        found = self.chance.choice(choices)
        return int(found) if kind is int else round(found, 3) or float(most)

    def _soil(self) -> dict[str, Any]:
        clay, silt = self.chance.choice(((10, 20), (33, 33), (0, 0), (60, 35), (5, 90)))
        shares = {"clay": f"{clay} %", "silt": f"{silt} %", "sand": f"{100 - clay - silt} %"}
        more = {"bulk_density": "74 pcf", "depth": "3 ft", "organic": self.chance.choice((True, False))}
        told = {name: value for name, value in more.items() if self.chance.random() < SAYS_IT}
        return {"name": "Soil", **(shares if self.chance.random() < SAYS_IT else {}), **told}

    def _walls(self) -> dict[str, Any]:
        """A chain of straight and curved walls, closed or not."""
        chance, walls, at, turned = self.chance, {}, (0.0, 0.0), 0.0
        for mark in self.marks["walls"] + [f"W{number}" for number in range(4, 4 + chance.randint(0, 5))]:
            reach = chance.choice((1.5, 3.0, 5.0, 9.0, 22.0))
            end = (at[0] + reach * math.cos(turned), at[1] + reach * math.sin(turned))
            walls[mark] = self._wall(at, end, reach)
            at, turned = end, turned + chance.choice((math.pi / 2, math.pi / 2, 1.1, -0.4))
        return walls

    def _wall(self, start: tuple[float, float], end: tuple[float, float], reach: float) -> dict[str, Any]:
        chance, ends = self.chance, {"from": _point(start), "to": _point(end)}
        wall = {
            name: value for name, value in self.record(Wall, "walls").items()
            if name not in ("run", "arc", "openings", "loads", "type", *_SECTION)
        }  # fmt: skip
        height = chance.choice((1.2, 2.4, 3.0, 4.8))
        wall |= {"height": f"{height} m"}
        base = chance.choice((0.2, 0.4, 0.6, 1.0))
        wall |= (
            {"thickness_base": f"{base} m", "thickness_top": f"{0.6 * base:.3f} m"}
            if chance.random() < 0.4
            else {"thickness": f"{base} m"}
        )
        if chance.random() < 0.2:
            middle = (
                (start[0] + end[0]) / 2 + 0.2 * (end[1] - start[1]),
                (start[1] + end[1]) / 2 - 0.2 * (end[0] - start[0]),
            )
            wall["arc"] = ends | {"through": _point(middle)}
        else:
            wall["run"] = ends
        return wall | {"openings": self._openings(reach, height)}

    def _openings(self, reach: float, height: float) -> dict[str, Any]:
        found, at = {}, self.chance.choice((0.1, 0.6))
        for number in range(self.chance.randint(0, 4)):
            width, tall = self.chance.choice((0.4, 0.9, 1.8)), min(height - 0.1, self.chance.choice((0.5, 1.2, 2.1)))
            if at + width > reach:
                break
            sill = self.chance.choice((0.0, 0.5, 1.0)) * (height - tall)
            own = {"start": f"{at:.3f} m", "width": f"{width} m", "height": f"{tall:.3f} m", "sill": f"{sill:.3f} m"}
            found[f"N{number}"] = self.record(Opening, "openings") | own
            at += width + self.chance.choice((0.15, 0.6, 1.5))
        return found

    def _buttresses(self) -> dict[str, Any]:
        if self.chance.random() < 0.5:
            return {}
        sizes = {"at": "0.7 m", "projection": "0.6 m", "width": "0.4 m", "height": "1.5 m"}
        return {"BT1": {"wall": self.chance.choice(self.marks["walls"]), **sizes}}

    def _bearings(self) -> list[dict[str, Any]]:
        walls = self.chance.sample(self.marks["walls"], self.chance.randint(1, len(self.marks["walls"])))
        return [{"wall": wall, "tributary": "8 ft"} for wall in walls]


@cache
def _rules_of(name: str) -> tuple[str, ...]:
    return tuple(rule.id for rule in read_shipped(name).rules)


def _point(at: tuple[float, float]) -> list[str]:
    return [f"{at[0]:.4f} m", f"{at[1]:.4f} m"]


def lab_tables(project: dict[str, Any], chance: Random) -> dict[str, str]:
    """Rows for some of the sets of a project: sound, few, or scattered."""
    heads = {
        "compression": "shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],strength [psi]",
        "rupture": "shape,width [in],depth [in],height [in],span [in],mass [lb],peak_load [lbf],strength [psi]",
        "shrinkage": "form_length [in],dried_length [in]",
    }
    rows: dict[str, list[str]] = {}
    for mark, one in project.get("test_sets", {}).items():
        for number in range(chance.randint(0, 6)):
            load = chance.choice((0, 900, 1500, 2000 + 50 * number))
            cells = {
                "compression": f"cube,4,4,4,,{load},",
                "rupture": f"prism,4,16,4,12,,{load / 10:g},",
                "shrinkage": f"24,{24 - number / 8:g}",
            }[one["kind"]]
            rows.setdefault(one["kind"], []).append(
                f"{mark},{mark}-{number},{one['mix']},2026-01-03,2026-03-01,air,{cells}"
            )
    start = "set,specimen,mix,cast,tested,dried,"
    return {f"lab/{kind}.csv": "\n".join([start + heads[kind], *found, ""]) for kind, found in rows.items()}
