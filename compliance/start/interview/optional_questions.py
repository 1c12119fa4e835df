"""The questions beyond a first check. Each may be passed over; what is not answered stays a blank of the form."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.model.base import Described
from compliance.model.people import Person
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.walls import WallBuild
from compliance.refused import RefusedError, shortened
from compliance.start.interview.building_shapes import WALLS_WORD
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.mix_parts import read_parts
from compliance.start.interview.wall_questions import field_question, opening_questions, wall_questions
from compliance.start.interview.walls_so_far import is_of_a_wall, walls_of
from compliance.start.project_files.field_help import read_word, read_words

FieldQuestions = tuple[tuple[str, str], ...]

OUTER: FieldQuestions = (
    ("bears_load", "Do the outer walls carry a roof or a floor"),
    ("braces", "Are they counted on against wind and earthquake along their length"),
    ("method", "The wall type of the code's table, where it has one, such as A or 1"),
    ("top_restraint", "What holds their tops"),
    ("retains_soil", "Does any of them hold back soil"),
)
SITE: FieldQuestions = (
    ("seismic_category", "Seismic design category of the site"),
    ("wind_speed", "Design wind speed, as the official gives it"),
    ("wind_exposure", "Wind exposure"),
    ("ground_snow", "Ground snow load"),
    ("frost_depth", "Depth of frost"),
    ("soil_bearing", "Allowable bearing of the soil under the footings"),
    ("expansive_soil", "Is the soil expansive"),
    ("rain_exposure", "Exposure to driven rain"),
    ("flood_zone", "Does it stand in a flood zone"),
)
STEM: FieldQuestions = (
    ("material", "The stem wall between footing and earth: its material. Enter when there is none yet"),
    ("thickness", "Its thickness"), ("above_grade", "Its least height above the ground outside"),
    ("above_floor", "Its height above the floor"), ("moisture_break", "What keeps damp from rising through it"),
)  # fmt: skip
FOOTING: FieldQuestions = (
    ("kind", "The footing: its kind. Enter when there is none yet"), ("width", "Its width"),
    ("thickness", "Its depth of concrete or stone"), ("bottom", "Its underside below the ground"),
    ("bar_count", "How many bars run along it"), ("drain", "Is there a drain at it"),
)  # fmt: skip
BEAM: FieldQuestions = (
    ("material", "The bond beam on top of the walls: its material. Enter when there is none"), ("width", "Its width"),
    ("depth", "Its depth"), ("continuous", "Does it run round without a break"),
)  # fmt: skip
ROOF: FieldQuestions = (
    ("slope", "Slope of the roof"), ("overhang", "Its overhang"), ("rafter_spacing", "Spacing of its rafters"),
    ("dead", "Its dead load"), ("live", "Its live load"), ("snow", "Its snow load"),
    ("thrust_held_by", "What holds the thrust of its rafters"),
)  # fmt: skip
PEOPLE: FieldQuestions = (("owner", "Who owns it"), ("builder", "Who builds it"), ("designer", "Who designs it"))
TESTS = ("compression", "rupture", "shrinkage")
_MOST_SETS = 40


def more_questions(answers: Answers, units: str, known_mixes: bool = False) -> Iterator[Question]:
    """Openings, more walls, then what surrounds them, ending with people and tests."""
    one_by_one = answers["length"] == WALLS_WORD
    walls = walls_of(answers if one_by_one else {key: one for key, one in answers.items() if not is_of_a_wall(key)})
    marks = list(walls)
    for mark in marks:
        yield from opening_questions(answers, units, mark, _called(mark, walls[mark]))
    if not one_by_one:
        yield from wall_questions(answers, units, first=False)
        walls = walls_of(answers)
        for mark in (mark for mark in walls if mark not in marks):
            yield from opening_questions(answers, units, mark, _called(mark, walls[mark]))
    if any(wall.get("type") == "outer" for wall in walls.values()):
        yield from _fields("outer", OUTER, WallBuild, units)
    yield from _fields("site", SITE, Site, units)
    yield from _part(answers, section="stem", fields=STEM, model=Stem, units=units)
    yield from _part(answers, section="footing", fields=FOOTING, model=Footing, units=units)
    yield from _part(answers, section="beam", fields=BEAM, model=BondBeam, units=units)
    if answers["roof"]:
        yield from _fields("roof", ROOF, Roof, units)
        known = tuple(walls)
        yield Question("roof.bears_on", "Which walls carry the roof", lambda text: read_words(text, known),
                       choices=tuple((mark, str(walls[mark].get("name", ""))) for mark in known))  # fmt: skip
    for name, asks in PEOPLE:
        yield field_question(f"people.{name}", asks, Person, "name", units, example="Ana Diaz")
    if not answers["mix"]:
        return
    yield _tests("tests", "the mix")
    if known_mixes:
        return
    yield Question("mix_2", "A second mix, in parts by loose volume. Enter when there is none",
                   lambda text: (read_parts(text), text)[1], "1 clay soil, 1 sand, 1 wheat straw")  # fmt: skip
    if answers["mix_2"]:
        known = tuple(walls)
        yield Question("mix_2_walls", "Which walls are built of the second mix", lambda text: read_words(text, known),
                       required=True, example=known[-1],
                       choices=tuple((mark, str(walls[mark].get("name", ""))) for mark in known))  # fmt: skip
        yield _tests("tests_2", "the second mix")


def _tests(key: str, of: str) -> Question:
    return Question(
        key, f"Sets of specimens of {of}, tested or to be tested; a number before a word for several sets", read_tests,
        "2 compression, shrinkage", choices=tuple((kind, "") for kind in TESTS), closes=True,
    )  # fmt: skip


def read_tests(text: str) -> str:
    """`2 compression, shrinkage` as a kind for each set. Raises RefusedError: `start-choice`."""
    found: list[str] = []
    for part in (part.strip() for part in text.split(",") if part.strip()):
        number, _, word = part.partition(" ")
        several = number.isdigit() and word.strip()
        kinds = [read_word(word.strip() if several else part, TESTS)] * (int(number[:3]) if several else 1)
        found += kinds
    if not 0 < len(found) <= _MOST_SETS:
        raise RefusedError("start-choice", f"{shortened(text)} names no set, or too many", f"write up to {_MOST_SETS}")
    return ", ".join(found)


def _called(mark: str, wall: dict[str, Any]) -> str:
    return f"{mark}, {wall['name']}" if wall.get("name") else mark


def _fields(section: str, fields: FieldQuestions, model: type[Described], units: str) -> Iterator[Question]:
    for name, asks in fields:
        yield field_question(f"{section}.{name}", asks, model, name, units)


def _part(
    answers: Answers, section: str, fields: FieldQuestions, model: type[Described], units: str
) -> Iterator[Question]:
    """Something that may not be there: its first question says whether it is."""
    for name, asks in fields:
        yield field_question(f"{section}.{name}", asks, model, name, units)
        if not answers[f"{section}.{fields[0][0]}"]:
            return
