"""The questions that begin with the earth: soils, what was seen of each, trial bricks and how they broke, the mix."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.model.materials import Soil
from compliance.model.soil_tests import JarRecord
from compliance.model.trials import Trial as TrialRecord
from compliance.refused import RefusedError, shortened
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.mix_parts import material_of
from compliance.start.project_files.field_help import read_field, read_record, read_word
from compliance.units import parse_number

LAYERS = ("sand", "silt", "clay")
_DUG = "write the depth, then yes or no, as in 3 ft, no"
_JAR = "write the tops of sand, silt and clay above the bottom of the jar, as in 3 in, 3 5/8 in, 4 1/8 in"
_ROW = "write parts in the order of the soils, as in 1:1, 1:2, 1:2 + 0.5 straw"
_BROKE = "write how much the largest piece kept and how many pieces there were, as in 80 %, 3"


def earth_questions(answers: Answers, units: str) -> Iterator[Question]:
    """Five questions for two soils and a sand, two for a row of bricks, one for each brick, one for the mix."""
    yield Question(
        "soils", "Which soils and sands are there? Names, separated by commas", read_names,
        "pit clay, bank clay, river sand", required=True,
        help="A name that ends in sand or gravel is taken for an aggregate, any other for a soil dug for its clay. "
        "Call them what you call them on site: roof-terrace clay, Miller's pit, masonry sand.",
    )  # fmt: skip
    names = answers["soils"].split(", ")
    for number, name in enumerate(names, 1):
        yield from soil_questions(f"soil.{number}", name, units)
    yield row_question("trials", "Trial bricks", names)
    if answers["trials"]:
        yield drop_question(units)
    for number, brick in enumerate(filter(None, answers["trials"].split(", ")), 1):
        yield broke_question(f"trial.{number}", f"P{number}", brick)
    marks = [f"P{number}" for number, _ in broken_bricks(answers)]
    if marks:
        yield mix_question("mix", tuple((mark, row_of(answers, mark)) for mark in marks))


def soil_questions(stem: str, name: str, units: str) -> Iterator[Question]:
    """How a soil was dug, and its jar."""
    if not material_of(name):
        yield dug_question(f"{stem}.dug", name, units)
    yield jar_question(f"{stem}.jar", name, units)


def dug_question(key: str, name: str, units: str) -> Question:
    return Question(
        key, f"{name}: how deep was it dug, and is there organic matter in it (roots, a smell "
        "of mold): yes or no? Enter where neither is known", _read_dug, _size(units, "3 ft, no", "900 mm, no"),
        help=_DUG_PICTURE,
    )  # fmt: skip


def jar_question(key: str, name: str, units: str) -> Question:
    return Question(
        key, f"{name} in a jar: the tops of sand, silt and clay above the bottom. Enter where no "
        "jar was shaken", _read_jar, _size(units, "3 in, 3 5/8 in, 4 1/8 in", "75 mm, 92 mm, 105 mm"),
        help=_JAR_PICTURE,
    )  # fmt: skip


def row_question(key: str, what: str, names: list[str]) -> Question:
    """Bricks by their parts of the soils `names`, in that order."""
    return Question(
        key, f"{what}, their parts of {' : '.join(names)} by loose volume, one brick "
        "after the other, separated by commas. Enter where none was made", lambda text: _read_row(text, len(names)),
        ", ".join(_example_row(len(names))),
        help="Each brick has as many numbers as there are soils, 0 where one is left out. Straw stands behind a plus: "
        "1:2 + 0.5 straw, or 0.5 rye straw; + no straw says that there is none.\n"
        "   one bucket of clay, two of sand, half a bucket of straw:  [c] [s][s] [/   = 1:2 + 0.5 straw",
    )  # fmt: skip


def drop_question(units: str) -> Question:
    return Question(
        "drop_height", "How high were the bricks dropped from? Enter where it is not known",
        lambda text: read_field(TrialRecord, "drop_height", text), _size(units, "6 ft", "1.8 m"),
        help="From the underside of the brick to the ground it fell on. Bricks are compared only when all fell from "
        "the same height.\n   [brick]  <\n      |      measure this\n   ______  <  hard ground",
    )  # fmt: skip


def broke_question(key: str, mark: str, brick: str) -> Question:
    return Question(
        key, f"Brick {mark}, {brick}: how much of it the largest piece kept, and how many pieces. "
        "Enter where it is not broken yet", _read_broke, "80 %, 3",
        help="Weigh the largest piece, or judge it by eye. Either number may stand alone; whole means that it did not "
        "break.\n   [=====]           whole\n   [====|:]          95 %, 2: a corner came off\n"
        "   [==|==]           50 %, 2: broke in half\n   [=|:|.|..|=]      20 %, 8: went to pieces",
    )  # fmt: skip


def mix_question(key: str, bricks: tuple[tuple[str, str], ...]) -> Question:
    marks = tuple(mark for mark, _ in bricks)
    return Question(
        key, "Which brick is the mix to go on with? Enter where that is not decided",
        lambda text: read_word(text, marks), choices=bricks, closes=True,
        help="Usually the brick that kept most in one piece. Its proportions become a mix, which is then tested; "
        "the other bricks stay on record.",
    )  # fmt: skip


_DUG_PICTURE = """\
Measure from the grass down to where this soil was taken. Topsoil is dark, full of roots, and smells of a garden or of
mold when wet: that is yes. Subsoil smells of nothing: that is no.
   ~~~~~~~~ grass          >
   ######## dark topsoil   |  depth
   ........ subsoil    <---+  taken here"""


_JAR_PICTURE = """\
Measure all three from the bottom of the jar, not each layer by itself.
   |~~~~~~|  water
   |......|  < top of the clay, all that settled: 4 1/8 in
   |------|  < top of the silt: 3 5/8 in
   |::::::|  < top of the sand: 3 in
   |______|  < the bottom
Where times were written down, put them behind at: 3 in at 40 s, 3 5/8 in at 2 h, 4 1/8 in at 2 days."""


def broken_bricks(answers: Answers) -> list[tuple[int, str]]:
    """Bricks with their number and how they broke."""
    row = list(filter(None, answers.get("trials", "").split(", ")))
    return [(number, text) for number in range(1, len(row) + 1) if (text := answers.get(f"trial.{number}", ""))]


def row_of(answers: Answers, mark: str) -> str:
    """The parts of a brick, as they were written."""
    return answers["trials"].split(", ")[int(mark[1:]) - 1]


def _size(units: str, us: str, si: str) -> str:
    return si if units == "si" else us


def _example_row(soils: int) -> list[str]:
    more = ":0" * (soils - 2)
    if soils < 2:
        return ["1", "1 + 0.2 straw"]
    return [f"1:1{more}", f"1:2{more}", f"1:3{more}", f"1:2{more} + 0.5 straw"]


def read_names(text: str) -> str:
    names = [name.strip() for name in text.split(",") if name.strip()]
    if not names or len(names) > 20 or len({name.casefold() for name in names}) != len(names):
        raise RefusedError(
            "start-soils", f"{shortened(text)} does not name soils, each once", "as in pit clay, river sand"
        )
    return ", ".join(read_field(Soil, "name", name) for name in names)


def dug_of(text: str) -> dict[str, str]:
    """`3 ft, no` as depth and organic."""
    found: dict[str, str] = {}
    for part in (part.strip() for part in text.split(",") if part.strip()):
        name = "organic" if part.casefold() in ("yes", "no") else "depth"
        if name in found:
            raise RefusedError("start-soil-dug", f"{shortened(text)} says {name} twice", _DUG)
        found[name] = read_field(Soil, name, part.casefold() if name == "organic" else part)
    return found


def _read_dug(text: str) -> str:
    dug_of(text)
    return text


def jar_of(text: str) -> dict[str, object]:
    """`3 in, 3 5/8 in, 4 1/8 in`, each with `at 40 s` behind it where its time is known, as a jar of the project."""
    parts = [part.strip() for part in text.split(",")]
    if len(parts) != len(LAYERS) or not all(parts):
        raise RefusedError("start-jar", f"{shortened(text)} is not three heights", _JAR)
    jar: dict[str, object] = {}
    for layer, part in zip(LAYERS, parts, strict=True):
        height, at, time = part.partition(" at ")
        jar[layer] = {"height": height.strip(), "time": time.strip()} if at else height.strip()
    return jar


def _read_jar(text: str) -> str:
    found = read_record(JarRecord, jar_of(text))
    tops = [found.sand.height.si, found.silt.height.si, found.top.height.si]
    if tops != sorted(tops) or tops[0] < 0 or tops[-1] <= 0:
        instead = f"{_JAR}: each from the bottom, so that they rise"
        raise RefusedError("start-jar", f"the tops {shortened(text)} do not rise", instead)
    return text


def _read_row(text: str, soils: int) -> str:
    bricks = [part.strip() for part in text.split(",") if part.strip()]
    for brick in bricks:
        brick_of(brick, soils)
    return ", ".join(bricks)


def brick_of(text: str, soils: int) -> tuple[list[float], dict[str, object]]:
    """`1:2 + 0.5 rye straw` as parts in the order of the soils, and what it says of straw. Raises RefusedError:
    `start-brick`."""
    row, plus, straw = text.partition("+")
    parts = [parse_number(part.strip()) for part in row.split(":")]
    numbers = [part for part in parts if part is not None and 0 <= part <= 1000]
    if len(numbers) != len(parts) or len(parts) != soils or not any(numbers):
        wrong = f"{shortened(text)} does not give {soils} {'part' if soils == 1 else 'parts'}, one to a soil"
        raise RefusedError("start-brick", wrong, _ROW)
    return numbers, _straw_of(straw.strip(), text) if plus else {}


def _straw_of(text: str, whole: str) -> dict[str, object]:
    if text in ("no straw", "none", "0 straw"):
        return {"straw": "none"}
    number, _, name = text.partition(" ")
    dose, kind = parse_number(number), name.strip().removesuffix("straw").strip()
    if dose is None or not 0 < dose <= 1000 or not name.strip().endswith("straw"):
        raise RefusedError("start-brick", f"{shortened(whole)} does not say how much straw", _ROW)
    found: dict[str, object] = {"straw_parts": f"{dose:g}"}
    return found | ({"straw": read_field(TrialRecord, "straw", kind)} if kind else {})


def broke_of(text: str) -> dict[str, str]:
    """`80 %, 3` as the share of the largest piece and the number of pieces."""
    if text.strip().casefold() == "whole":
        return {"largest_piece": "100 %", "pieces": "1"}
    found: dict[str, str] = {}
    for part in (part.strip() for part in text.split(",") if part.strip()):
        bare = part.removesuffix("pieces").removesuffix("piece").strip()
        name = "largest_piece" if "%" in bare else "pieces"
        if name in found:
            raise RefusedError("start-broke", f"{shortened(text)} says the same twice", _BROKE)
        found[name] = read_field(TrialRecord, name, bare)
    return found


def _read_broke(text: str) -> str:
    found = broke_of(text)
    if found.get("pieces") == "1" and found.get("largest_piece", "100 %").replace(" ", "") != "100%":
        raise RefusedError("start-broke", f"{shortened(text)}: one piece is the whole brick", _BROKE)
    return text
