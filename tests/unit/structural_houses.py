"""Plain buildings for the tests of loads and structure: models from text, facts from models. Synthetic numbers."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from compliance.facts.common.needs import Needs
from compliance.facts.derive import derive
from compliance.facts.geometry.columns import Columns, columns
from compliance.facts.geometry.subjects import Facts
from compliance.findings import Missing
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.report.words.missing_words import missing_name
from compliance.steps import Step
from compliance.units import measure

PSI, PLF, PSF, LBF = (measure(f"1 {one}", kind).si for one, kind in
                      (("psi", "stress"), ("plf", "line_load"), ("psf", "pressure"), ("lbf", "force")))  # fmt: skip
FOOT, INCH = 0.3048, 0.0254
GRAVITY = 9.80665

SITE: dict[str, Any] = {
    "asce7": "7-16", "risk_category": "II", "sds": 0.2, "sd1": 0.1, "s1": 0.05, "wind_speed": "110 mph",
    "wind_exposure": "B", "topographic_factor": 1.0, "enclosure": "enclosed", "ground_snow": "30 psf",
    "snow_sheltering": "partially exposed", "soil_bearing": "2000 psf", "frost_depth": "18 in",
}  # fmt: skip
ROOF: dict[str, Any] = {
    "kind": "framed", "span": "16 ft", "slope": "26.565051177078 deg", "rise": "4 ft", "tie_height": "0 in",
    "overhang": "2 ft", "rafter_spacing": "2 ft", "dead": "15 psf", "live": "20 psf", "snow": "25 psf",
    "warmth": "heated", "thrust_held_by": "ceiling-tie",
}  # fmt: skip
WALL: dict[str, Any] = {
    "use": "exterior", "height": "8 ft", "thickness": "16 in", "mix": "M1", "bears_load": "yes", "braces": "yes",
    "top_restraint": "bond-beam", "base_restraint": "stem", "stem": "ST1", "footing": "F1", "beam": "B1",
    "outside": [], "inside": [],
}  # fmt: skip
PARTS: dict[str, Any] = {
    "soils": {"S1": {"name": "clay"}},
    "mixes": {"M1": {"name": "mix", "parts": {"S1": 1.0}, "dry_density": "110 pcf"}},
    "stems": {"ST1": {"material": "concrete", "thickness": "16 in", "above_grade": "12 in"}},
    "footings": {"F1": {"kind": "concrete", "width": "24 in", "thickness": "12 in", "bottom": "24 in",
                        "concrete_strength": "2500 psi"}},
    "beams": {"B1": {"material": "wood", "width": "12 in", "depth": "6 in", "bending_stress": "850 psi",
                     "anchors": {"spacing": "4 ft", "embedment": "24 in", "capacity": "900 lbf"}}},
    "test_sets": {"C1": {"kind": "compression", "mix": "M1"}, "R1": {"kind": "rupture", "mix": "M1"}},
}  # fmt: skip


def run(x0: float, y0: float, x1: float, y1: float) -> dict[str, Any]:
    """A straight wall between two points in feet."""
    return {"from": [f"{_text(x0)} ft", f"{_text(y0)} ft"], "to": [f"{_text(x1)} ft", f"{_text(y1)} ft"]}


def _text(value: float) -> str:
    return f"{value:.9f}".rstrip("0").rstrip(".") if value >= 0 else f"-{_text(-value)}"


def box(length: float, width: float, **openings: Any) -> dict[str, Any]:
    """Four walls round a rectangle in feet; `openings` by mark of the wall."""
    sides = {"W1": (0, 0, length, 0), "W2": (length, 0, length, width), "W3": (length, width, 0, width),
             "W4": (0, width, 0, 0)}  # fmt: skip
    return {mark: {**WALL, "run": run(*side), "openings": openings.get(mark, {})} for mark, side in sides.items()}


def opening(start: float, width: float, sill: float = 3.0, height: float = 3.0, **more: Any) -> dict[str, Any]:
    """A window in feet with a lintel of wood."""
    lintel = {"material": "wood", "width": "12 in", "depth": "6 in", "bearing": "12 in", "bending_stress": "850 psi",
              "shear_stress": "90 psi"}  # fmt: skip
    return {"kind": "window", "start": f"{_text(start)} ft", "width": f"{_text(width)} ft",
            "sill": f"{_text(sill)} ft", "height": f"{_text(height)} ft", "lintel": lintel} | more  # fmt: skip


FREE: dict[str, Any] = {"top_restraint": "free", "beam": None}
PLAIN: dict[str, Any] = {"line_load": "0 plf", "load_eccentricity": "0 in"}
LIME = [{"material": "lime", "thickness": "1 in"}]
UNSAID = "as the project states it, without a source"


def bears(*walls: str, tributary: str = "10 ft", eccentricity: str = "0 in") -> list[dict[str, Any]]:
    return [{"wall": wall, "tributary": tributary, "eccentricity": eccentricity} for wall in walls]


def described(walls: Mapping[str, Any], roofs: Mapping[str, Any] | None = None, **sections: Any) -> Project:
    """A project of these walls and roofs; a section given by name takes the place of its own."""
    text = {
        "project": {"name": "Trial", "date": "2026-12-30", "stories": 1, "building_height": "14 ft", "units": "us"},
        "jurisdiction": {"name": "Nowhere", "rule_sets": ["structural-screening"]},
        "site": SITE, **copy.deepcopy(PARTS), "walls": dict(walls), "roofs": dict(roofs or {}),
    } | sections  # fmt: skip
    return Project.model_validate(text)


def crushed(*strengths: float, kind: str = "compression", mix: str = "M1") -> list[Specimen]:
    """Specimens with their strength in psi as the laboratory states it."""
    mark = "C1" if kind == "compression" else "R1"
    return [
        Specimen(kind, set=mark, mark=f"{mark}-{index}", mix=mix, place=Place("lab"), strength=one * PSI)  # type: ignore[arg-type]
        for index, one in enumerate(strengths, 1)
    ]


TESTED: dict[str, Sequence[Specimen]] = {"C1": crushed(120, 100, 140), "R1": crushed(60, 75, kind="rupture")}


def facts_of(project: Project, tested: Mapping[str, Sequence[Specimen]] = TESTED) -> Facts:
    tables = partial(read_action_tables, project.project.units)
    return derive(project, tested, read_support_rules(), tables=tables)


def facts(walls: Mapping[str, Any], roofs: Mapping[str, Any] | None = None, **sections: Any) -> Facts:
    return facts_of(described(walls, roofs, **sections))


def alone(roofs: Mapping[str, Any] | None = None, **changes: Any) -> Facts:
    """A wall 20 ft long by itself, with no load on it but that of its beam."""
    return facts({"W1": {**WALL, **PLAIN, "run": run(0, 0, 20, 0)} | changes}, roofs)


def number(found: Facts, name: str, mark: str = "W1") -> float:
    """A fact that must be known and a number."""
    about = name.partition(".")[0]
    subject = found.of(about)[about if about in ("site", "project") else mark]
    fact = subject.fact(name)
    assert isinstance(fact.value, float), (name, fact.missing, fact.reason)
    return fact.value


def missing(found: Facts, name: str, mark: str = "W1") -> set[str]:
    """The fields a fact lacks, as dotted paths."""
    about = name.partition(".")[0]
    fact = found.of(about)[about if about in ("site", "project") else mark].fact(name)
    assert fact.value is None
    return {missing_name(one) if isinstance(one, Missing) else ".".join(map(str, one)) for one in fact.missing}


def push(found: Facts) -> float:
    """The greater of wind and earthquake square to W1 [Pa]."""
    return max(number(found, "wall.wind_pressure"), number(found, "wall.seismic_pressure"))


def columns_of(found: Facts, mark: str = "W1") -> Columns:
    wall = found.of("wall")[mark]
    assert found.building is not None
    seen = columns(found.building, Needs(wall), wall)
    assert seen is not None
    return seen


def given(step: Step) -> dict[str, float]:
    """The numbers beside a line, by their symbols."""
    return {one.symbol: float(one.value) for one in step.given if isinstance(one.value, float)}
