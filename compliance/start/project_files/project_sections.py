"""Answers into the sections of a project, as they stand in its files."""

from __future__ import annotations

from datetime import date
from typing import Any

from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Standing
from compliance.start.interview.mix_parts import material_of, read_parts
from compliance.start.interview.optional_questions import PERMIT
from compliance.start.interview.place_questions import parted_place
from compliance.start.interview.structure_questions import loads_of
from compliance.start.project_files.earth_sections import earth_tree
from compliance.start.shapes.walls_so_far import walls_of

Tree = dict[str, Any]
MIX, SECOND_MIX, STEM, FOOTING, BEAM, ROOF = "M1", "M2", "ST1", "F1", "B1", "R1"
_MARKS = {"stem": ("stems", STEM), "footing": ("footings", FOOTING), "beam": ("beams", BEAM)}


def project_tree(answers: Answers, today: date, there: Standing = NOTHING_THERE) -> Tree:
    """Every section that the answers fill; what they leave open is in none. `there` is what the folder holds already.
    Raises RefusedError for a shape that its sizes do not make."""
    tree: Tree = {
        "project": {
            "name": answers["name"],
            "stage": "earth" if "soils" in answers else "design",
            "revision": "A",
            "date": today.isoformat(),
            "units": answers["units"],
            "paper": "a4" if answers["units"] == "si" else "letter",
            **_under(answers, "project"),
        },
    }
    if "soils" in answers:
        return tree | earth_tree(answers)
    tree |= {
        "people": _people(answers),
        "jurisdiction": {} if there.has_rules else _jurisdiction(answers),
        "site": _under(answers, "site"),
    }  # fmt: skip
    chosen = answers.get("mix", "")
    tree |= _mix(answers) if chosen and not there.mixes else {}
    for section, (name, mark) in _MARKS.items():
        if part := _under(answers, section):
            tree[name] = {mark: part}
    if answers.get("roof"):
        tree["roofs"] = {ROOF: _roof(answers)}
    sets = [
        {"kind": kind, "mix": mix}
        for key, mix in (("tests", chosen if there.mixes else MIX), ("tests_2", SECOND_MIX))
        for kind in answers.get(key, "").split(", ") if kind
    ]  # fmt: skip
    if sets:
        tree["test_sets"] = {f"T{number}": one for number, one in enumerate(sets, 1)}
    return {name: part for name, part in tree.items() if part} | _walls(answers, tree, chosen if there.mixes else "")


def _under(answers: Answers, section: str) -> Tree:
    """What was answered under a section, by field."""
    stem = f"{section}."
    return {key.removeprefix(stem): text for key, text in answers.items() if key.startswith(stem) and text}


def _people(answers: Answers) -> Tree:
    people: Tree = {}
    for key, path, *_ in PERMIT:
        if path[0] == "people" and answers.get(key):
            people.setdefault(path[1], {})[path[2]] = answers[key]
    return people


def _jurisdiction(answers: Answers) -> Tree:
    name, state = parted_place(answers["place"])
    found: Tree = {"name": name} | ({"state": state} if state else {})
    return found | {"rule_sets": answers["rule_sets"].split(", ")}


def _mix(answers: Answers) -> Tree:
    marks: dict[str, str] = {}
    mixes: Tree = {}
    for key, mark, name in (("mix", MIX, "Wall mix"), ("mix_2", SECOND_MIX, "Second mix")):
        if not answers.get(key):
            continue
        parts = read_parts(answers[key])
        for soil, _ in parts.soils:
            marks.setdefault(soil, f"S{len(marks) + 1}")
        mixes[mark] = {"name": name, "parts": {marks[soil]: share for soil, share in parts.soils}}
        if parts.straw_parts:
            mixes[mark] |= ({"straw": parts.straw} if parts.straw else {}) | {"straw_parts": parts.straw_parts}
    described = {
        mark: {"name": name} | ({"material": material_of(name)} if material_of(name) else {})
        for name, mark in marks.items()
    }
    return {"soils": described, "mixes": mixes}


def _roof(answers: Answers) -> Tree:
    own = {name: text for name, text in _under(answers, "roof").items() if name != "bears_on"}
    roof: Tree = roof_of(answers["roof"]) | own
    holding = under_the_roof(answers)
    return roof | ({"bears_on": [{"wall": mark} for mark in holding]} if holding else {})


def roof_of(text: str) -> Tree:
    """`framed 15 ft` as kind and span."""
    kind, _, span = text.partition(" ")
    return {"kind": kind} | ({"span": span} if span else {})


def under_the_roof(answers: Answers) -> list[str]:
    """The walls that hold up the roof, as far as they were named."""
    named = ", ".join(answers.get(key, "") for key in ("roof_walls", "roof.bears_on"))
    return [mark for mark in named.split(", ") if mark]


def carrying(answers: Answers) -> dict[str, str]:
    """Whether each wall carries more than itself: `yes` for those that hold the roof, a floor or a single load, `no`
    for all others, but only where it was said which hold the roof."""
    holding = under_the_roof(answers)
    loaded = {*holding, *answers.get("floor_walls", "").split(", "), *loads_of(answers.get("point_loads", ""))}
    carries = {mark: "yes" if mark in loaded else "no" for mark in walls_of(answers)}
    return carries if holding else {mark: text for mark, text in carries.items() if text == "yes"}


def _walls(answers: Answers, tree: Tree, chosen: str) -> Tree:
    """Walls of one type share what was said of the outer walls; every wall is of the mix, or of the one `chosen` from
    those that are there."""
    walls = walls_of(answers)
    shared: Tree = {name: answers[name] for name in ("height", "thickness") if answers.get(name)}
    shared = {"use": "exterior"} | shared | _under(answers, "outer")
    mix = {"mix": chosen or MIX} if chosen or "mixes" in tree else {}
    shared |= mix | {section: mark for section, (name, mark) in _MARKS.items() if name in tree}
    loads, carries = loads_of(answers.get("point_loads", "")), carrying(answers)
    outer = [mark for mark, wall in walls.items() if wall.get("type") == "outer"]
    if outer and len({carries.get(mark, "") for mark in outer}) == 1 and outer[0] in carries:
        shared["bears_load"] = carries[outer[0]]
    standing = {section: mark for section, (name, mark) in _MARKS.items() if name in tree and section != "beam"}
    for mark, wall in walls.items():
        if mark in carries and (mark not in outer or "bears_load" not in shared):
            wall.setdefault("bears_load", carries[mark])
        if mark in loads:
            wall["loads"] = {f"L{number}": one for number, one in enumerate(loads[mark], 1)}
        if wall.get("type") != "outer":
            wall |= mix
        if mark not in outer and "yes" in (wall.get("bears_load"), wall.get("braces")):
            wall |= standing
    for mark in answers.get("mix_2_walls", "").split(", "):
        if mark in walls:
            walls[mark]["mix"] = SECOND_MIX
    return ({"wall_types": {"outer": shared}} if outer else {}) | {"walls": walls}
