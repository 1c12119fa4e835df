"""The order of the questions: fifteen for a first check of a rectangular building, the rest only when asked for; or the
earth first, before there is a building."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from compliance.model.people import ProjectHead
from compliance.model.structure import Roof
from compliance.model.walls import WallBuild
from compliance.problems import ProblemsFound
from compliance.refused import RefusedError
from compliance.start.interview.earth_questions import earth_questions
from compliance.start.interview.help_drawings import (
    HEIGHT_PICTURE,
    MIX_PICTURE,
    PATH_PICTURE,
    RECTANGLE_PICTURE,
    ROOF_PICTURE,
    SHAPE_PICTURES,
    THICKNESS_PICTURE,
)
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Question, Standing
from compliance.start.interview.mix_parts import read_parts
from compliance.start.interview.optional_questions import more_questions
from compliance.start.interview.place_questions import COB_IN_THE_US, place_questions
from compliance.start.interview.structure_questions import (
    ground_question,
    point_loads_question,
    roof_walls_question,
    wall_type_questions,
)
from compliance.start.interview.wall_questions import wall_questions
from compliance.start.project_files.field_help import read_field, read_word, words_of
from compliance.start.shapes.building_shapes import LINES, SHAPES, SIZES, WALLS_WORD
from compliance.start.shapes.outline_path import read_path
from compliance.start.shapes.wall_table import read_wall_table
from compliance.start.shapes.walls_so_far import is_table, walls_of
from compliance.units import MeasureError, measure

MORE = "more"
"""The question after the first check."""

_UNITS = (("us", "feet, inches, pounds"), ("si", "meters, millimeters, kilonewtons"))
_YES_NO = ("yes", "no")
BUILDING, EARTH = "building", "earth"
_BEGINNINGS = (
    (BUILDING, "its walls are checked against rule sets"),
    (EARTH, "soils, jars and trial bricks, before there is a plan; the building can follow"),
)


def script(answers: Answers, there: Standing = NOTHING_THERE) -> Iterator[Question]:
    """The questions in order, as the answers so far have it. `there` is what stands in the folder already.

    Whoever walks through stops at the first question whose key has no answer.
    """
    yield from _first()
    if answers["begin"] == EARTH:
        yield _units()
        yield from earth_questions(answers, answers["units"])
        return
    if not there.has_rules:
        yield from place_questions(answers)
    yield _units()
    units = answers["units"]
    yield _shape(units)
    if answers["length"] == WALLS_WORD:
        yield from _section(units)
        yield from wall_questions(answers, units, first=True)
    elif answers["length"] == LINES:
        yield Question(
            "path", "Its corners on the centerlines, in order round the building, as east, north; semicolons between "
            "them, and through before a point on an arc", read_path,
            _size(units, "0 ft, 0 ft; 20 ft, 0 ft; through 27 ft, 7 ft; 20 ft, 14 ft; 0 ft, 14 ft",
                  "0 m, 0 m; 6 m, 0 m; through 8 m, 2 m; 6 m, 4 m; 0 m, 4 m"), required=True,
            help=PATH_PICTURE,
        )  # fmt: skip
        yield from _section(units)
    elif answers["length"] in SIZES:
        for key, asks, (us, si) in SIZES[answers["length"]]:
            yield Question(key, asks, _length, _size(units, us, si), required=True, help=SHAPE_PICTURES)
        yield from _section(units)
    elif not is_table(answers["length"]):
        yield Question("width", "Width of the building, outside to outside", _length, _size(units, "16 ft", "5 m"),
                       required=True, help=RECTANGLE_PICTURE)  # fmt: skip
        yield from _section(units)
    yield _mix(there)
    yield roof_question(units)
    if answers["roof"]:
        yield roof_walls_question("roof_walls", walls_of(answers))
    yield point_loads_question("point_loads", units, walls_of(answers))
    rule_sets = (answers.get("rule_sets") or there.rule_sets).split(", ")
    yield from wall_type_questions("outer.method", rule_sets, which="the outer walls")
    yield ground_question()
    yield Question(
        MORE, "That is enough for a first check. Describe openings, more walls, the site, footings and tests now?",
        lambda text: read_word(text, _YES_NO), default="no", choices=(("yes", "go on"), ("no", "write the folder")),
        closes=True, help="no writes the folder as it is. The rest can be described any day: earthwall start on the "
        "same folder goes on part by part, or open its files, which read like forms.",
    )  # fmt: skip
    if answers[MORE] == "yes":
        yield from more_questions(answers, units, bool(there.mixes))


_ANY = {"place": "Quillmoor County", "rule_sets": COB_IN_THE_US, "length": "24 ft", "path": "0 ft, 0 ft; 9 ft, 0 ft"}


def first_count(answers: Answers) -> int:
    """How many questions a first check takes, as far as the answers so far say; 0 past it, and for the earth."""
    if MORE in answers or answers.get("begin") == EARTH or answers.get("length") == WALLS_WORD:
        return 0
    tried = dict(answers)
    try:
        for question in script(tried):
            if question.key == MORE:
                break
            if question.key not in tried:
                text = question.default or _ANY.get(question.key) or question.example
                tried[question.key] = question.read(text) if question.required or question.key == "roof" else ""
    except (RefusedError, MeasureError):  # sizes that go with none of the others
        return 0
    return len(tried)


def _first() -> Iterator[Question]:
    yield Question(
        "name", "What is the project called?", lambda text: read_field(ProjectHead, "name", text), "Clay Cottage",
        required=True, help="It stands on the cover of every paper: a name, or the street and what is built, such as "
        "garden studio, 12 Mill Lane.",
    )  # fmt: skip
    words = tuple(word for word, _ in _BEGINNINGS)
    yield Question(
        "begin", "Begin with the building or with the earth?", lambda text: read_word(text, words), default=BUILDING,
        choices=_BEGINNINGS, help="Soils are dug and bricks dropped long before there is a plan. Whoever begins with "
        "the earth goes on with the building in the same folder, whenever there is one.",
    )  # fmt: skip


def _units() -> Question:
    return Question(
        "units", "Units for what is printed", lambda text: read_word(text, ("us", "si")), default="us", choices=_UNITS,
        help="Only what is printed follows it. You may write any measure in either: 16 in and 40 cm, 8 ft and 2.4 m.",
    )  # fmt: skip


def _shape(units: str) -> Question:
    return Question(
        "length", "Length of the building, outside to outside. For another shape than a rectangle write "
        + ", ".join(SHAPES) + " (? explains)",
        _length_or_walls, _size(units, "24 ft", "7.3 m"), required=True,
        help=f"{SHAPE_PICTURES}\nwalls asks for wall after wall. A list of walls can also come from a table: write the "
        "name of a file that ends in .csv or .xlsx, with the columns mark, from x [ft], from y [ft], to x [ft], "
        "to y [ft], height [ft] and thickness [in].",
    )  # fmt: skip


def _section(units: str) -> Iterator[Question]:
    yield Question("height", "Height of the earth walls, from the top of the stem wall to the bond beam or roof",
                   lambda text: read_field(WallBuild, "height", text), _size(units, "8 ft", "2.4 m"),
                   required=True, help=HEIGHT_PICTURE)  # fmt: skip
    yield Question("thickness", "Thickness of the outer walls, finishes not counted",
                   lambda text: read_field(WallBuild, "thickness", text), _size(units, "16 in", "400 mm"),
                   required=True, help=THICKNESS_PICTURE, closes=True)  # fmt: skip


def _mix(there: Standing) -> Question:
    if there.mixes:
        marks = tuple(mark for mark, _ in there.mixes)
        return Question(
            "mix", "Which mix are the walls built of?", lambda text: read_word(text, marks), default=marks[0],
            choices=there.mixes,
            help="The mixes of this folder. A changed proportion is another mix, with its own tests.",
        )  # fmt: skip
    return Question(
        "mix", "What the walls are built of, in parts by loose volume. Enter where it is not known yet",
        lambda text: (read_parts(text), text)[1], "1 clay soil, 2 sand, 0.6 wheat straw",
        help=MIX_PICTURE,
    )  # fmt: skip


def roof_question(units: str) -> Question:
    kinds = words_of(Roof, "kind")

    def read(text: str) -> str:
        kind, _, span = text.partition(" ")
        read_word(kind, kinds)
        if span.strip():
            read_field(Roof, "span", span.strip())
        return f"{read_word(kind, kinds)} {span.strip()}".strip()

    return Question(
        "roof", "The roof: its kind and its clear span. Enter where it is not known yet", read,
        f"framed {_size(units, '15 ft', '4.5 m')}", help=ROOF_PICTURE,
    )  # fmt: skip


def _size(units: str, us: str, si: str) -> str:
    return si if units == "si" else us


def _length(text: str) -> str:
    try:
        found = measure(text, "length")
    except MeasureError as error:
        raise RefusedError(error.code, error.wrong, error.instead) from None
    if found.si <= 0:
        raise RefusedError("measure-zero", f"{text!r} is not above zero", "write for example 24 ft, or 7.3 m")
    return text


def _length_or_walls(text: str) -> str:
    for word in SHAPES:
        if text.casefold() == word.casefold():
            return word
    if not is_table(text):
        return _length(text)
    try:
        read_wall_table(Path(text))
    except ProblemsFound as found:
        first = found.problems[0]
        more = f"; {len(found.problems) - 1} more problems" if len(found.problems) > 1 else ""
        raise RefusedError(first.code, f"{first.place}: {first.wrong}", first.instead + more) from None
    return text
