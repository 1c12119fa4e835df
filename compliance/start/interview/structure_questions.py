"""What holds what: the walls under the roof, single loads, the type of the walls, the ground below them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from compliance.model.site import Site
from compliance.model.structure import Bearing
from compliance.model.walls import PointLoad
from compliance.reading.reference_files.wall_sketches_reference import read_wall_sketches
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.refused import RefusedError, shortened
from compliance.start.interview.interview_question import Question
from compliance.start.project_files.field_help import read_field, read_record, read_word, read_words, words_of

Walls = Mapping[str, Mapping[str, Any]]

_ROOF_PICTURE = """\
Rafters, trusses or beams rest on these walls. A gable roof on a rectangle usually rests on its two long walls and not
on the two under the gables:
     _______N_______
    |  |  |  |  |  |   | rafters run north-south:
    W  |  |  |  |  E   they rest on N and S; W and E carry themselves
    |__|__|__|__|__|
            S
A reciprocal or cone roof on a round room rests on all of its walls. A wall that you do not name is written down as one
that carries no load but its own."""
_LOADS_PICTURE = """\
A ridge beam, a header or a post that stands on one spot of a wall. Write the wall, how far from where the wall begins,
and what comes down there: dead load, live load, snow load, the last two 0 lb where there is none.
       | ridge beam
       v
   ____V_________________  W2
   <-->  at, along the center line
W2 at 7 ft: 800 lb, 0 lb, 950 lb. Several are separated by semicolons."""
_GROUND_PICTURE = """\
What the footings will stand on, below the topsoil. In a pit, with a wet handful:
    will not hold together, grains seen and felt      sand (S) or gravel (G); clean W or P, dirty M or C
    holds together, a thread breaks at once, dusty    silt (ML, MH)
    rolls into a thread that bends, sticky, shines    clay (CL, CH)
    black, fibrous, smells                            organic (OL, OH, PT)
Fill, or ground that nobody has dug into: leave it open. The letters are those of the Unified Soil Classification
System; a soils report states them."""
GROUNDS: tuple[tuple[str, str], ...] = (
    ("rock", "sound rock"), ("GW", "gravel of all sizes, clean"), ("GP", "gravel of one size, clean"),
    ("GM", "silty gravel"), ("GC", "clayey gravel"), ("SW", "sand of all sizes, clean"),
    ("SP", "sand of one size, clean"), ("SM", "silty sand"), ("SC", "clayey sand"), ("ML", "silt"),
    ("CL", "lean clay"), ("MH", "elastic silt"), ("CH", "fat clay, which swells"), ("OL", "organic silt or lean clay"),
    ("OH", "organic fat clay or silt"), ("PT", "peat"),
)  # fmt: skip


def roof_walls_question(key: str, walls: Walls, asks: str = "Which walls hold up the roof?") -> Question:
    marks = tuple(walls)
    return Question(
        key, f"{asks} Enter where that is not known yet", lambda text: read_words(text, marks), choices=named(walls),
        help=_ROOF_PICTURE, closes=True,
    )  # fmt: skip


def floor_walls_question(key: str, walls: Walls) -> Question:
    marks = tuple(walls)
    return Question(
        key, "Do other walls carry a floor, a loft or a beam? Enter when none does",
        lambda text: read_words(text, marks), choices=named(walls),
        help="Joists of a loft, a stair landing, a header from the next wall: whatever ends on the wall and is not the "
        "roof. Shelves and a sink do not count.",
    )  # fmt: skip


def point_loads_question(key: str, units: str, walls: Walls) -> Question:
    marks = tuple(walls)
    return Question(
        key, "Does a beam or a post put a single load on a wall? The wall, where, and its dead, live and snow load. "
        "Enter when none does", lambda text: _read_loads(text, marks),
        "W1 at 3.6 m: 4 kN, 0 kN, 6 kN" if units == "si" else "W1 at 12 ft: 900 lb, 0 lb, 1300 lb",
        help=_LOADS_PICTURE, closes=True,
    )  # fmt: skip


def ground_question() -> Question:
    words = words_of(Site, "soil_group")
    return Question(
        "site.soil_group", "What is the ground that the footings stand on? Enter where nobody has dug yet",
        lambda text: read_word(text, words), choices=GROUNDS, help=_GROUND_PICTURE,
    )  # fmt: skip


def wall_type_questions(key: str, rule_sets: Sequence[str], which: str) -> Iterator[Question]:
    """One question where an adopted rule set has types of walls."""
    found = wall_types(tuple(rule_sets))
    if not found:
        return
    words = tuple(word for word, _ in found)
    sketches = [one for one in read_wall_sketches() if one.rule_set in rule_sets]
    drawn = "\n".join(f"{', '.join(one.types)}:\n{one.drawing.rstrip()}" for one in sketches)
    yield Question(
        key, f"Of which type of the code's table are {which}? Enter where it is not decided",
        lambda text: read_word(text, words), choices=found, sketch=drawn,
        help="The type decides how high and slender the wall may be, in which seismic category and wind, and how it is "
        "anchored. A type with no reinforcement is simplest to build and is allowed in the fewest places. Whoever does "
        "not know yet sees at the check what each type would need.",
    )  # fmt: skip


@cache
def wall_types(rule_sets: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The types that shipped rule sets name, each with what it has as far as that is known."""
    says = {(one.rule_set, word): one.says for one in read_wall_sketches() for word in one.types}
    found: dict[str, str] = {}
    for name in rule_sets:
        for rule in read_shipped(name).rules if name in shipped_rule_sets() else ():
            if rule.question == "wall-type":
                for limit in rule.limits.values():
                    for word in limit.written.split(", ") if limit.kind == "words" else ():
                        found.setdefault(word, says.get((name, word), ""))
    return tuple(found.items())


def _read_loads(text: str, marks: tuple[str, ...]) -> str:
    """`text` as given, where it says single loads on walls. Raises RefusedError: `start-load`, `start-choice`."""
    for mark in loads_of(text):
        read_word(mark, marks)
    return text


def loads_of(text: str) -> dict[str, list[dict[str, str]]]:
    """By wall, each load as `loads:` takes it."""
    found: dict[str, list[dict[str, str]]] = {}
    for part in filter(None, (part.strip() for part in text.split(";"))):
        where, colon, forces = part.partition(":")
        mark, at, place = where.partition(" at ")
        loads = [one.strip() for one in forces.split(",")]
        if not colon or not at or len(loads) != 3 or not all(loads):
            wrong = f"{shortened(part)} does not say a wall, a place and three loads"
            raise RefusedError("start-load", wrong, "write it as in W1 at 12 ft: 900 lb, 0 lb, 1300 lb")
        load = {"at": place.strip(), **dict(zip(("dead", "live", "snow"), loads, strict=True))}
        read_record(PointLoad, load)
        found.setdefault(read_field(Bearing, "wall", mark.strip()), []).append(load)
    return found


def named(walls: Walls) -> tuple[tuple[str, str], ...]:
    """Marks with what each is called."""
    return tuple((mark, str(wall.get("name", ""))) for mark, wall in walls.items())
