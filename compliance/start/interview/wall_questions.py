"""Questions about walls, one after the other, and about the openings in each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from compliance.model.base import Described
from compliance.model.walls import Lintel, Opening, Wall, WallBuild
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.project_files.field_help import (
    example_of,
    is_yes_or_no,
    read_field,
    read_point,
    read_word,
    words_of,
)
from compliance.start.shapes.walls_so_far import SAME, like

_MOST = 500
LINTEL = (("bearing", "Its bearing length on the wall at each end"), ("depth", "Its depth"), ("width", "Its width"))


def wall_questions(answers: Answers, units: str, first: bool) -> Iterator[Question]:
    """Walls until Enter is pressed; with `first` at least one."""
    for number in range(1, _MOST):
        stem = f"walls.{number}."
        which = "The first wall" if number == 1 and first else "Another wall" if number > 1 or not first else "A wall"
        yield Question(
            f"{stem}from", f"{which}: where its centerline begins, as east, north"
            + ("" if first else ", from the south-west corner of the plan, which the centerlines span")
            + ("" if number == 1 and first else ". Enter when there is none"),
            _point, _size(units, "0 ft, 0 ft", "0 m, 0 m"), required=number == 1 and first,
            help=_POINT_PICTURE,
        )  # fmt: skip
        if not answers[f"{stem}from"]:
            return
        yield Question(f"{stem}to", "Where it ends", _point, _size(units, "24 ft, 0 ft", "7.3 m, 0 m"), required=True,
                       help=_POINT_PICTURE)  # fmt: skip
        yield field_question(
            f"{stem}use", asks="Where it stands", model=WallBuild, name="use", units=units, default="exterior"
        )
        yield field_question(
            f"{stem}height",
            asks="Its height",
            model=WallBuild,
            name="height",
            units=units,
            default=answers.get("height", ""),
            required=True,
        )
        yield field_question(f"{stem}thickness", asks="Its thickness", model=WallBuild, name="thickness", units=units,
                     default=answers.get("thickness", ""), required=True)  # fmt: skip
        yield field_question(
            f"{stem}name",
            asks="What to call it, if anything",
            model=Wall,
            name="name",
            units=units,
            example="north wall",
            closes=True,
        )


def opening_questions(answers: Answers, units: str, wall: str, called: str) -> Iterator[Question]:
    """Openings of one wall until Enter is pressed."""
    for number in range(1, _MOST):
        stem = f"openings.{wall}.{number}."
        yield _opening_kind(answers, stem, f"{'An opening' if number == 1 else 'Another opening'} in {called}")
        if not answers[f"{stem}kind"]:
            return
        if answers[f"{stem}kind"] == SAME:
            yield field_question(f"{stem}start", asks="From the beginning of the wall to its near edge", model=Opening,
                         name="start", units=units, required=True, closes=True)  # fmt: skip
            continue
        for name, asks in (
            ("start", "From the beginning of the wall to its near edge"), ("width", "Its width"),
            ("sill", "Its bottom above the top of the stem wall"), ("height", "Its height"),
        ):  # fmt: skip
            yield field_question(
                f"{stem}{name}",
                asks=asks,
                model=Opening,
                name=name,
                units=units,
                required=True,
                closes=name == "height",
            )
        yield field_question(
            f"{stem}lintel", asks="What carries the wall over it", model=Lintel, name="material", units=units
        )
        if answers[f"{stem}lintel"]:
            for name, asks in LINTEL:
                yield field_question(f"{stem}lintel_{name}", asks=asks, model=Lintel, name=name, units=units)


def _opening_kind(answers: Answers, stem: str, which: str) -> Question:
    """With `same` among the words as soon as an opening was described."""
    words = words_of(Opening, "kind")
    choices = tuple((word, "") for word in words)
    if like(answers | {f"{stem}kind": SAME}, stem) != stem:
        words, choices = (*words, SAME), (*choices, (SAME, "as the last one; only its place is asked"))
    return Question(f"{stem}kind", f"{which}? Enter when there is none", lambda text: read_word(text, words),
                    choices=choices, help=_OPENING_PICTURE)  # fmt: skip


_POINT_PICTURE = """\
Points lie on the centerlines of walls and are measured from the south-west corner, first east, then north. A wall that
is to support another sideways reaches its centerline.
 north
  |      * 12 ft, 9 ft
  |
  *------------ east
 the corner where both begin"""
_OPENING_PICTURE = """\
Whatever goes through the wall; a niche does not. An arch carries the earth over it by its shape, a vent is a small
hole.
 first end |---[ D1 ]------[ N1 ]---[ N2 ]--| other end
            openings are asked from the first end on; same takes the sizes of the last one"""


def _point(text: str) -> str:
    return ", ".join(read_point(text))


def _size(units: str, us: str, si: str) -> str:
    return si if units == "si" else us


def field_question(
    key: str, asks: str, model: type[Described], name: str, units: str, default: str = "", required: bool = False,
    closes: bool = False, example: str = "",
) -> Question:  # fmt: skip
    """A question that a field of the model answers."""
    words = words_of(model, name)
    asks += ": yes or no" if is_yes_or_no(model, name) else ""
    return Question(
        key,
        asks=asks,
        read=lambda text: read_field(model, name, text),
        example=example or example_of(model, name, units),
        default=default,
        required=required,
        choices=tuple((word, "") for word in words),
        closes=closes,
        help=explanation_of(model.__name__, name),
    )


@cache
def _explanations() -> Mapping[str, Any]:
    return read_yaml(Path(__file__).with_name("explanations.yaml"), "explanations")


def explanation_of(model: str, name: str) -> str:
    """What `?` shows at a question that a field answers; empty where nothing is written of it."""
    return str(_explanations().get(model, {}).get(name, "")).rstrip()
