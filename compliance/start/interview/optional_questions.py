"""The questions beyond a first check. Each may be passed over; what is not answered stays a blank of the form."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.model.base import Described
from compliance.model.people import Person, ProjectHead
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.walls import WallBuild
from compliance.refused import RefusedError, shortened
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.mix_parts import read_parts
from compliance.start.interview.structure_questions import floor_walls_question, named, roof_walls_question
from compliance.start.interview.wall_questions import field_question, opening_questions, wall_questions
from compliance.start.project_files.field_help import read_word, read_words
from compliance.start.shapes.building_shapes import WALLS_WORD
from compliance.start.shapes.walls_so_far import is_of_a_wall, walls_of

FieldQuestions = tuple[tuple[str, str], ...]

OUTER: FieldQuestions = (
    ("bears_load", "Do the outer walls carry a roof or a floor"),
    ("braces", "Do the outer walls brace the building in-plane against wind and earthquake"),
    ("top_restraint", "What holds the tops of the outer walls"),
    ("retains_soil", "Does any of the outer walls hold back soil"),
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
PERMIT: tuple[tuple[str, tuple[str, ...], type[Described], str], ...] = (
    ("project.parcel", ("project", "parcel"), ProjectHead, "Number of the lot or parcel"),
    ("project.occupancy", ("project", "occupancy"), ProjectHead, "Occupancy group, as the office classes the building"),
    ("project.construction_type", ("project", "construction_type"), ProjectHead,
     "Type of construction, as the office classes it"),
    ("project.floor_area", ("project", "floor_area"), ProjectHead, "Floor area of all floors"),
    ("site.rain_intensity", ("site", "rain_intensity"), Site, "Rain intensity that the office gives for drainage"),
    ("people.owner", ("people", "owner", "name"), Person, "Who owns it"),
    ("people.builder", ("people", "builder", "name"), Person, "Who builds it"),
    ("people.designer", ("people", "designer", "name"), Person, "Who designs it"),
    ("people.lab", ("people", "lab", "name"), Person, "Which laboratory tests the specimens"),
    ("people.lab_accreditation", ("people", "lab", "accreditation"), Person,
     "Accreditation of the laboratory: the number, and who gave it"),
    ("people.inspection_agency", ("people", "inspection_agency", "name"), Person,
     "Which agency the owner hires for special inspections"),
)  # fmt: skip
"""What an application for the permit asks besides: key, path in the project, model and question of each."""
TESTS = ("compression", "rupture", "shrinkage")
_TEST_WORDS = ("cubes or cylinders pressed until they fail", "beams bent until they break",
               "bars measured wet and dry")  # fmt: skip
_MOST_SETS = 40


def more_questions(answers: Answers, units: str, known_mixes: bool = False) -> Iterator[Question]:
    """Openings, more walls, then what surrounds them, ending with the permit and tests."""
    one_by_one = answers["length"] == WALLS_WORD
    walls = walls_of(answers if one_by_one else {key: one for key, one in answers.items() if not is_of_a_wall(key)})
    marks = list(walls)
    for mark in marks:
        yield from opening_questions(answers, units, mark, called(mark, walls[mark]))
    if not one_by_one:
        yield from wall_questions(answers, units, first=False)
        walls = walls_of(answers)
        for mark in (mark for mark in walls if mark not in marks):
            yield from opening_questions(answers, units, mark, called(mark, walls[mark]))
    holding = list(filter(None, answers.get("roof_walls", "").split(", ")))
    if answers["roof"]:
        added = {mark: wall for mark, wall in walls.items() if not holding or mark not in marks}
        if added:
            yield roof_walls_question("roof.bears_on", added, "Which walls hold up the roof as well?" if holding
                                      else "Which walls hold up the roof?")  # fmt: skip
            holding += filter(None, answers["roof.bears_on"].split(", "))
    free = {mark: wall for mark, wall in walls.items() if mark not in holding}
    if holding and free:
        yield floor_walls_question("floor_walls", free)
    if any(wall.get("type") == "outer" for wall in walls.values()):
        yield from _fields("outer", OUTER[1:] if holding else OUTER, WallBuild, units)
    yield from _fields("site", SITE, Site, units)
    yield from _part(answers, section="stem", fields=STEM, model=Stem, units=units)
    yield from _part(answers, section="footing", fields=FOOTING, model=Footing, units=units)
    yield from _part(answers, section="beam", fields=BEAM, model=BondBeam, units=units)
    if answers["roof"]:
        yield from _fields("roof", ROOF, Roof, units)
    yield permit_question()
    if answers["permit"] == "yes":
        for key, path, model, asks in PERMIT:
            if not key.endswith("accreditation") or answers["people.lab"]:
                yield permit_field(key, path, model, asks, units=units)
    if not answers["mix"]:
        return
    yield tests_question("tests", "the mix")
    if known_mixes:
        return
    yield Question("mix_2", "A second mix, in parts by loose volume. Enter when there is none",
                   lambda text: (read_parts(text), text)[1], "1 clay soil, 1 sand, 1 wheat straw",
                   help=_SECOND_MIX)  # fmt: skip
    if answers["mix_2"]:
        known = tuple(walls)
        yield Question("mix_2_walls", "Which walls are built of the second mix", lambda text: read_words(text, known),
                       required=True, example=known[-1], choices=named(walls), help=_SECOND_MIX)  # fmt: skip
        yield tests_question("tests_2", "the second mix")


def permit_question() -> Question:
    words = ("yes", "no")
    return Question(
        "permit", "More about the permit: lot, occupancy, type of construction, floor area, laboratory, agency for "
        "special inspections?", lambda text: read_word(text, words), default="no",
        help="An office asks for these on the cover of an application. None of them changes what is checked, so they "
        "can wait until you apply.",
    )  # fmt: skip


def permit_field(key: str, path: tuple[str, ...], model: type[Described], asks: str, units: str) -> Question:
    return field_question(key, asks, model, path[-1], units, example=_PERMIT_EXAMPLES.get(path[-1], ""))


_PERMIT_EXAMPLES = {
    "parcel": "12-0487", "occupancy": "R-3", "construction_type": "V-B", "rain_intensity": "3 in per hour",
    "accreditation": "No. 1234, by its accrediting body", "name": "Ana Diaz", "floor_area": "480 ft2",
}  # fmt: skip
_SECOND_MIX = """\
Another proportion in some of the walls, such as more straw in an inside wall, is a mix of its own with its own tests.
   M1  [clay][sand][sand]          the outer walls
   M2  [clay][sand][straw]         the wall between"""


def tests_question(key: str, of: str, what: str = "Sets") -> Question:
    return Question(
        key, f"{what} of specimens of {of}, tested or to be tested; a number before a word for several sets",
        read_tests, "2 compression, shrinkage", choices=tuple(zip(TESTS, _TEST_WORDS, strict=True)), closes=True,
        help="A set is the specimens that are cast on one day from one mix and tested together, five cubes or three "
        "beams. Adopted codes say how many sets a volume of wall needs: the check lists them.",
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


def called(mark: str, wall: dict[str, Any]) -> str:
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
