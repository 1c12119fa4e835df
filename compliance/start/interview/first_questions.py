"""The order of the questions: eleven for a first check of a rectangular building, the rest only when asked for; or the
earth first, before there is a building."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from compliance.model.people import Jurisdiction, ProjectHead
from compliance.model.structure import Roof
from compliance.model.walls import WallBuild
from compliance.problems import ProblemsFound
from compliance.reading.reference_files.packs_reference import read_packs
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.refused import RefusedError
from compliance.start.interview.building_shapes import LINES, SHAPES, SIZES, WALLS_WORD
from compliance.start.interview.earth_questions import earth_questions
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Question, Standing
from compliance.start.interview.mix_parts import read_parts
from compliance.start.interview.optional_questions import more_questions
from compliance.start.interview.outline_path import read_path
from compliance.start.interview.wall_questions import wall_questions
from compliance.start.interview.wall_table import read_wall_table
from compliance.start.interview.walls_so_far import is_table
from compliance.start.project_files.field_help import read_field, read_word, read_words, words_of
from compliance.units import MeasureError, measure

__all__ = ["FIRST", "script"]

FIRST = 11
"""Answers to a first check of a rectangular building."""

_UNITS = (("us", "feet, inches, pounds"), ("si", "metres, millimetres, kilonewtons"))
_YES_NO = ("yes", "no")
BUILDING, EARTH = "building", "earth"
_BEGINNINGS = (
    (BUILDING, "its walls are checked against rule sets"),
    (EARTH, "soils, jars and trial bricks, before there is a plan; the building can follow"),
)


def script(answers: Answers, titles: dict[str, str], there: Standing = NOTHING_THERE) -> Iterator[Question]:
    """The questions in order, as the answers so far have it. `titles` of the shipped rule sets by name; `there` is what
    stands in the folder already.

    Whoever walks through stops at the first question whose key has no answer.
    """
    yield from _first(there)
    if answers["begin"] == EARTH:
        yield _units()
        yield from earth_questions(answers, answers["units"])
        return
    if not there.has_rules:
        yield from _of_the_place(titles)
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
            help=_PATH_PICTURE,
        )  # fmt: skip
        yield from _section(units)
    elif answers["length"] in SIZES:
        for key, asks, (us, si) in SIZES[answers["length"]]:
            yield Question(key, asks, _length, _size(units, us, si), required=True)
        yield from _section(units)
    elif not is_table(answers["length"]):
        yield Question("width", "Width of the building, outside to outside", _length, _size(units, "16 ft", "5 m"),
                       required=True)  # fmt: skip
        yield from _section(units)
    yield _mix(there)
    yield _roof(units)
    yield Question(
        "more", "That is enough for a first check. Describe openings, more walls, the site, footings and tests now?",
        lambda text: read_word(text, _YES_NO), default="no", choices=(("yes", "go on"), ("no", "write the folder")),
        closes=True,
    )  # fmt: skip
    if answers["more"] == "yes":
        yield from more_questions(answers, units, bool(there.mixes))


def _first(there: Standing) -> Iterator[Question]:
    yield Question("name", "What is the project called?", lambda text: read_field(ProjectHead, "name", text),
                   "Clay Cottage", required=True)  # fmt: skip
    words = tuple(word for word, _ in _BEGINNINGS)
    yield Question(
        "begin", "Begin with the building or with the earth?", lambda text: read_word(text, words), default=BUILDING,
        choices=_BEGINNINGS, help="Soils are dug and bricks dropped long before there is a plan. Whoever begins with "
        "the earth goes on with the building in the same folder, whenever there is one.",
    )  # fmt: skip


def _of_the_place(titles: dict[str, str]) -> Iterator[Question]:
    yield Question("place", "Where will it stand: the town or county whose building official decides?",
                   lambda text: read_field(Jurisdiction, "name", text), "Quillmoor County", required=True)  # fmt: skip
    names = tuple(shipped_rule_sets())
    yield Question(
        "rule_sets",
        "Which rule sets apply? Enter us-cob for cob in the United States, another pack (? lists them), or one or more "
        "numbers, separated by commas",
        lambda text: _rule_sets(text, names), "us-cob", required=True,
        choices=tuple((name, titles.get(name, "")) for name in names),
        help=f"Ask the building official which code is adopted. A pack is rule sets that go together: {_packs()}.",
    )  # fmt: skip


def _rule_sets(text: str, names: tuple[str, ...]) -> str:
    """Those of a pack in the order to adopt them, or each that is named or numbered."""
    for pack in read_packs():
        if text.strip().casefold() == pack.id:
            return ", ".join(pack.rule_sets)
    return read_words(text, names)


def _packs() -> str:
    return "; ".join(f"{one.id} ({one.material}, {one.place})" for one in read_packs())


def _units() -> Question:
    return Question("units", "Units for what is printed", lambda text: read_word(text, ("us", "si")), default="us",
                    choices=_UNITS, help="You may write any measure in either.")  # fmt: skip


def _shape(units: str) -> Question:
    return Question(
        "length", "Length of the building, outside to outside. For another shape than a rectangle write "
        + ", ".join(SHAPES) + " (? explains)",
        _length_or_walls, _size(units, "24 ft", "7.3 m"), required=True,
        help=f"{_PICTURES} walls asks for wall after wall. A list of walls can also come from a table: write the name "
        "of a file that ends in .csv or .xlsx, with the columns mark, from x [ft], from y [ft], to x [ft], to y [ft], "
        "height [ft] and thickness [in].",
    )  # fmt: skip


def _section(units: str) -> Iterator[Question]:
    yield Question("height", "Height of the earth walls, from the top of the stem wall to the bond beam or roof",
                   lambda text: read_field(WallBuild, "height", text), _size(units, "8 ft", "2.4 m"),
                   required=True)  # fmt: skip
    yield Question("thickness", "Thickness of the outer walls, finishes not counted",
                   lambda text: read_field(WallBuild, "thickness", text), _size(units, "16 in", "400 mm"),
                   required=True, closes=True)  # fmt: skip


_PICTURES = (
    "Seen from above, north up: "
    + "; ".join(f"{word} is {says}" for word, says in SHAPES.items())
    + ". All sizes are from outside to outside; center lines are worked out."
)


_PATH_PICTURE = (
    "Seen from above, north up: a wall from each corner to the next, the last one back to the first unless you end "
    "with ; open. 0 ft, 0 ft; 20 ft, 0 ft; through 27 ft, 7 ft; 20 ft, 14 ft; 0 ft, 14 ft is [ ), a rectangle whose "
    "east end is round. Corners lie on the centerlines: half the thickness inside the outer faces."
)


def _mix(there: Standing) -> Question:
    if there.mixes:
        marks = tuple(mark for mark, _ in there.mixes)
        return Question(
            "mix", "Which mix are the walls built of?", lambda text: read_word(text, marks), default=marks[0],
            choices=there.mixes,
        )  # fmt: skip
    return Question(
        "mix", "What the walls are built of, in parts by loose volume. Enter where it is not known yet",
        lambda text: (read_parts(text), text)[1], "1 clay soil, 2 sand, 0.6 wheat straw",
    )  # fmt: skip


def _roof(units: str) -> Question:
    kinds = words_of(Roof, "kind")

    def read(text: str) -> str:
        kind, _, span = text.partition(" ")
        read_word(kind, kinds)
        if span.strip():
            read_field(Roof, "span", span.strip())
        return f"{read_word(kind, kinds)} {span.strip()}".strip()

    return Question(
        "roof", "The roof: its kind and its clear span. Enter where it is not known yet", read,
        f"framed {_size(units, '15 ft', '4.5 m')}", help=f"Kinds: {', '.join(kinds)}.",
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
