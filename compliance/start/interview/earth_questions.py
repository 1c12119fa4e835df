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
        "soils", "Which soils and sands are there? Names, separated by commas", _read_names,
        "pit clay, bank clay, river sand", required=True,
        help="A name that ends in sand or gravel is taken for an aggregate, any other for a soil dug for its clay.",
    )  # fmt: skip
    for number, name in enumerate(answers["soils"].split(", "), 1):
        if not material_of(name):
            yield Question(
                f"soil.{number}.dug", f"{name}: how deep was it dug, and is there organic matter in it (roots, a smell "
                "of mold): yes or no? Enter where neither is known", _read_dug, _size(units, "3 ft, no", "900 mm, no"),
            )  # fmt: skip
        yield Question(
            f"soil.{number}.jar", f"{name} in a jar: the tops of sand, silt and clay above the bottom. Enter where no "
            "jar was shaken", _read_jar, _size(units, "3 in, 3 5/8 in, 4 1/8 in", "75 mm, 92 mm, 105 mm"),
            help=_JAR_PICTURE,
        )  # fmt: skip
    yield Question(
        "trials", f"Trial bricks, their parts of {' : '.join(answers['soils'].split(', '))} by loose volume, one brick "
        "after the other, separated by commas. Enter where none was made", lambda text: _read_row(text, answers),
        ", ".join(_example_row(answers)),
        help="Each brick has as many numbers as there are soils, 0 where one is left out. Straw stands behind a plus: "
        "1:2 + 0.5 straw, or 0.5 rye straw; + no straw says that there is none.",
    )  # fmt: skip
    if answers["trials"]:
        yield Question(
            "drop_height", "How high were the bricks dropped from? Enter where it is not known",
            lambda text: read_field(TrialRecord, "drop_height", text), _size(units, "6 ft", "1.8 m"),
        )  # fmt: skip
    for number, brick in enumerate(filter(None, answers["trials"].split(", ")), 1):
        yield Question(
            f"trial.{number}", f"Brick P{number}, {brick}: how much of it the largest piece kept, and how many pieces. "
            "Enter where it is not broken yet", _read_broke, "80 %, 3",
            help="80 %, 3 says that the largest of three pieces is four fifths of the brick. Either may stand alone; "
            "whole says that it did not break.",
        )  # fmt: skip
    marks = [f"P{number}" for number, _ in broken_bricks(answers)]
    if marks:
        yield Question(
            "mix", "Which brick is the mix to go on with? Enter where that is not decided",
            lambda text: read_word(text, tuple(marks)), choices=tuple((mark, row_of(answers, mark)) for mark in marks),
            closes=True,
        )  # fmt: skip


_JAR_PICTURE = """\
Measure all three from the bottom of the jar: |~~~~~| water; |.....| < top of the clay, all that settled: 4 1/8 in;
|-----| < top of the silt: 3 5/8 in; |:::::| < top of the sand: 3 in; |_____| the bottom. Where times were written down,
put them behind at: 3 in at 40 s, 3 5/8 in at 2 h, 4 1/8 in at 2 days."""


def broken_bricks(answers: Answers) -> list[tuple[int, str]]:
    """Bricks with their number and how they broke."""
    row = list(filter(None, answers.get("trials", "").split(", ")))
    return [(number, text) for number in range(1, len(row) + 1) if (text := answers.get(f"trial.{number}", ""))]


def row_of(answers: Answers, mark: str) -> str:
    """The parts of a brick, as they were written."""
    return answers["trials"].split(", ")[int(mark[1:]) - 1]


def _size(units: str, us: str, si: str) -> str:
    return si if units == "si" else us


def _example_row(answers: Answers) -> list[str]:
    more = ":0" * (len(answers["soils"].split(", ")) - 2)
    if len(answers["soils"].split(", ")) < 2:
        return ["1", "1 + 0.2 straw"]
    return [f"1:1{more}", f"1:2{more}", f"1:3{more}", f"1:2{more} + 0.5 straw"]


def _read_names(text: str) -> str:
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


def _read_row(text: str, answers: Answers) -> str:
    bricks = [part.strip() for part in text.split(",") if part.strip()]
    for brick in bricks:
        brick_of(brick, len(answers["soils"].split(", ")))
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
