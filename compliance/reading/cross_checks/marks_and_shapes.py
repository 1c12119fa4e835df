"""What one part of a project says about another: marks that must exist, shapes that must be possible."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path

from compliance.facts.geometry.wall_plan import too_crowded, wall_line
from compliance.files.safe_paths import inside
from compliance.model.lines import Line, line_of
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.model.walls import Wall
from compliance.problems import Problem
from compliance.reading.cross_checks.joint_checks import buttress_problems
from compliance.reading.cross_checks.overlap_checks import overlap_problems
from compliance.reading.cross_checks.structure_checks import single_load_problems, structure_problems
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.refused import RefusedError, nearest

_SAME = 1e-9
_LONGEST = 10_000.0  # of a wall, in metres
_MARKED = (
    "soils", "trials", "mixes", "batches", "test_sets", "stems", "footings", "beams", "roofs", "wall_types", "walls",
    "buttresses", "attachments",
)  # fmt: skip
_PRESENT = {"mix": "mixes", "stem": "stems", "footing": "footings", "beam": "beams", "type": "wall_types"}


def cross_checks(project: Project, specimens: Sequence[Specimen], tree: PlacedDict, folder: Path) -> list[Problem]:
    """Every problem between the parts of a project that are each sound by themselves."""
    problems: list[Problem] = []
    for check in (_alike, _marks, _mix_parts, _walls, _buttresses, buttress_problems, overlap_problems,
                  structure_problems):  # fmt: skip
        problems += check(project, tree)
    problems += _specimens(project, specimens)
    problems += _attachments(project, tree, folder)
    return problems


def shape_problems(project: Project, tree: PlacedDict) -> list[Problem]:
    """What cannot be built as described: walls without a line, openings, buttresses and loads outside their wall."""
    checks = (_walls, _buttresses, buttress_problems, overlap_problems, single_load_problems)
    return [problem for check in checks for problem in check(project, tree)]


def _unknown(tree: PlacedDict, path: tuple[str | int, ...], mark: str, section: str, known: Collection[str]) -> Problem:
    names = sorted(known)
    near = nearest(mark, names)
    instead = (
        f"did you mean {near}?" if near else f"known: {', '.join(names)}" if names else f"describe it under {section}:"
    )
    return Problem(place_of(tree, path), "mark-unknown", f"there is no {mark!r} under {section}:", instead)


def _marks(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """Marks that name something else must name something that is there."""
    for mark, wall in project.walls.items():
        for field, section in _PRESENT.items():
            named, known = getattr(wall, field), getattr(project, section)
            if named and named not in known:
                yield _unknown(tree, path=("walls", mark, field), mark=named, section=section, known=known)
    for mark, test in project.test_sets.items():
        if test.mix not in project.mixes:
            yield _unknown(tree, path=("test_sets", mark, "mix"), mark=test.mix, section="mixes", known=project.mixes)
        if test.report and test.report not in project.attachments:
            yield _unknown(
                tree,
                path=("test_sets", mark, "report"),
                mark=test.report,
                section="attachments",
                known=project.attachments,
            )
    for mark, buttress in project.buttresses.items():
        if buttress.wall not in project.walls:
            yield _unknown(
                tree, path=("buttresses", mark, "wall"), mark=buttress.wall, section="walls", known=project.walls
            )
    for mark, roof in project.roofs.items():
        for index, bearing in enumerate(roof.bears_on):
            if bearing.wall not in project.walls:
                yield _unknown(
                    tree,
                    path=("roofs", mark, "bears_on", index, "wall"),
                    mark=bearing.wall,
                    section="walls",
                    known=project.walls,
                )
        for beam, each in roof.beams.items():
            for index, one in enumerate(each.bears_on):
                if one.wall is not None and one.wall not in project.walls:
                    at = ("roofs", mark, "beams", beam, "bears_on", index, "wall")
                    yield _unknown(tree, path=at, mark=one.wall, section="walls", known=project.walls)
    for section in ("attestations", "inspections"):
        for index, record in enumerate(getattr(project, section)):
            for place, mark in enumerate(record.evidence):
                if mark not in project.attachments:
                    path = (section, index, "evidence", place)
                    yield _unknown(tree, path=path, mark=mark, section="attachments", known=project.attachments)
    for mark, soil in project.soils.items():
        for place, photo in enumerate(soil.photos):
            if photo not in project.attachments:
                yield _unknown(
                    tree,
                    path=("soils", mark, "photos", place),
                    mark=photo,
                    section="attachments",
                    known=project.attachments,
                )


def _alike(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """No two marks of a section that are told apart by capitals alone: on paper, and said aloud, they are one."""
    for section in _MARKED:
        seen: dict[str, str] = {}
        for mark in getattr(project, section):
            first = seen.setdefault(mark.lower(), mark)
            if first != mark:
                wrong = f"{mark} and {first} differ in capitals alone"
                advice = "give one of them another mark, here and wherever it is meant"
                yield Problem(place_of(tree, (section, mark), at_key=True), "marks-alike", wrong, advice)


def _mix_parts(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    for mark, mix in project.mixes.items():
        for soil in mix.parts:
            if soil not in project.soils:
                yield _unknown(
                    tree, path=("mixes", mark, "parts", soil), mark=soil, section="soils", known=project.soils
                )


def _walls(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    seen: dict[tuple[object, ...], str] = {}
    for mark, wall in project.walls.items():
        line = line_of(wall)
        if line is None:
            field = "arc" if wall.arc else "run"
            wrong = (
                f"the three points of {mark} lie on one straight line, or its arc is shorter than half its thickness"
                if wall.arc
                else f"{mark} is shorter than half its own thickness"
            )
            yield Problem(place_of(tree, ("walls", mark, field)), "wall-line", wrong, "correct its points")
            continue
        if line.length > _LONGEST:
            wrong = f"{mark} is {line.length / 1000:.0f} km long"
            yield Problem(place_of(tree, ("walls", mark)), "wall-line", wrong, "correct its points")
            continue
        first = seen.setdefault((wall.story, *_trace(line)), mark)
        if first != mark:
            wrong = f"{mark} stands in the very place of {first}"
            advice = "remove one of them, correct its points, or give each its story:"
            yield Problem(place_of(tree, ("walls", mark), at_key=True), "walls-alike", wrong, advice)
        yield from _openings(mark, wall, line.length, tree)
    in_plan = [found for mark, wall in project.walls.items() if (found := wall_line(mark, wall))]
    if too_crowded(in_plan):
        wrong = "so many walls lie across one another that no check could be made of them"
        yield Problem(place_of(tree, ("walls",)), "walls-crowded", wrong, "check the points of the walls")


def _trace(line: Line) -> tuple[tuple[float, float], ...]:
    """Its ends, whichever comes first, and its middle, to a tenth of a millimetre."""
    points = (line.start, line.end, line.point(line.length / 2))
    start, end, middle = ((round(x, 4), round(y, 4)) for x, y in points)
    return (min(start, end), max(start, end), middle)


def _openings(mark: str, wall: Wall, length: float, tree: PlacedDict) -> Iterator[Problem]:
    """Openings lie within the face of their wall and do not overlap. One that begins where the face ends is outside,
    however small it is."""
    assert wall.height is not None
    height, slack = wall.height.si * (1 + _SAME), length * (1 + _SAME)
    for name, opening in wall.openings.items():
        path = ("walls", mark, "openings", name)
        if opening.width.si > slack:
            wrong = f"{name} is {opening.width} wide, wider than {mark} is long"
            yield Problem(place_of(tree, (*path, "width")), "opening-wider", wrong, "narrow it, or correct the wall")
        elif opening.start.si + opening.width.si > slack or opening.start.si >= length:
            wrong = f"{name} ends {opening.start} + {opening.width} from the start of {mark}, beyond the wall's end"
            yield Problem(place_of(tree, (*path, "width")), "opening-outside", wrong, "move or narrow it")
        if opening.sill.si + opening.height.si > height or opening.sill.si >= wall.height.si:
            wrong = f"{name} reaches {opening.sill} + {opening.height} up, above the top of {mark} at {wall.height}"
            yield Problem(place_of(tree, (*path, "height")), "opening-outside", wrong, "lower its sill or its height")
    names = list(wall.openings)
    for index, other in enumerate(names):
        one = next((one for one in names[:index] if _overlap(wall, one, other)), None)
        if one is not None:
            place = place_of(tree, ("walls", mark, "openings", other), at_key=True)
            yield Problem(place, "openings-overlap", f"{other} overlaps {one} in {mark}", "move one of them")


def _overlap(wall: Wall, one: str, other: str) -> bool:
    a, b = wall.openings[one], wall.openings[other]

    def clear(s: float, width: float, t: float, other_width: float) -> bool:
        slack = _SAME * (abs(s) + abs(t) + width + other_width)
        return s + width <= t + slack or t + other_width <= s + slack

    beside = clear(a.start.si, a.width.si, b.start.si, b.width.si)
    above = clear(a.sill.si, a.height.si, b.sill.si, b.height.si)
    return not (beside or above)


def _buttresses(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    for mark, buttress in project.buttresses.items():
        line = line_of(project.walls[buttress.wall]) if buttress.wall in project.walls else None
        if line and buttress.at.si > line.length * (1 + _SAME):
            wrong = f"{mark} stands {buttress.at} along {buttress.wall}, beyond the wall's end"
            yield Problem(place_of(tree, ("buttresses", mark, "at")), "buttress-outside", wrong, "correct at:")


def _specimens(project: Project, specimens: Sequence[Specimen]) -> Iterator[Problem]:
    """Rows belong to a described set of their kind and mix, each under its own mark."""
    seen = Counter((one.kind, one.set, _as_spoken(one.mark)) for one in specimens)
    for one in specimens:
        test = project.test_sets.get(one.set)
        if seen[one.kind, one.set, _as_spoken(one.mark)] > 1:
            wrong = f"{one.mark} of set {one.set} stands in the table more than once"
            yield Problem(one.place, "lab-repeated", wrong, "give each specimen its own mark")
        if test is None:
            near = nearest(one.set, project.test_sets)
            instead = f"did you mean {near}?" if near else "describe the set under test_sets: in project.yaml"
            yield Problem(one.place, "lab-set", f"the set {one.set!r} is not described", instead)
        elif test.kind != one.kind:
            wrong = f"{one.set} is described as a {test.kind} set but stands in the {one.kind} table"
            yield Problem(one.place, "lab-kind", wrong, "move the row, or correct kind: of the set")
        elif test.mix != one.mix:
            wrong = f"{one.mark} is said to be of mix {one.mix}, but set {one.set} is of mix {test.mix}"
            yield Problem(one.place, "lab-mix", wrong, "correct one of them; another mix needs its own set")


def _as_spoken(mark: str) -> str:
    """A mark without what nobody hears: capitals, and blanks and dashes between its parts."""
    return re.sub(r"[\s_-]+", "", mark).casefold()


def _attachments(project: Project, tree: PlacedDict, folder: Path) -> Iterator[Problem]:
    """Attached files are there, inside the folder."""
    listed: list[tuple[tuple[str | int, ...], str]] = [
        (("attachments", mark, "file"), attachment.file) for mark, attachment in project.attachments.items()
    ]
    listed += [(("amendments", index), name) for index, name in enumerate(project.amendments)]
    for path, name in listed:
        try:
            if not inside(folder, name).is_file():
                raise RefusedError(
                    "file-missing", f"there is no file {name!r} in the folder", "add it or correct the name"
                )
        except RefusedError as refused:
            yield refused.at(place_of(tree, path))
