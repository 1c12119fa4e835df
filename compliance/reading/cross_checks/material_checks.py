"""What soils, trials, mixes, batches and specimens say of each other and of themselves, looked over after reading."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence

from compliance.facts.soil.field_tests import read_field_test
from compliance.facts.soil.fractions import SoilError
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.soil_record import soil_record, stated_shares
from compliance.model.materials import Soil
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Problem
from compliance.reading.cross_checks.jar_checks import jar_advice
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.refused import nearest
from compliance.units import Writer

Path = tuple[str | int, ...]


def material_problems(
    project: Project, specimens: Sequence[Specimen], tree: PlacedDict, practice: MaterialPractice
) -> list[Problem]:
    """Every problem of the materials that no single record shows by itself."""
    problems = [problem for check in (_marks, _replacing, _batch_walls) for problem in check(project, tree)]
    problems += _batches_of(project, specimens)
    for mark, soil in project.soils.items():
        problems += _soil(mark, soil=soil, tree=tree, practice=practice, writer=Writer(project.project.units))
    return problems


def _marks(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """Marks that name something else must name something that is there."""
    for path, mark, section in _named(project):
        known: Collection[str] = getattr(project, section)
        if mark is not None and mark not in known:
            near = nearest(mark, known)
            names = ", ".join(sorted(known))
            advice = (
                f"did you mean {near}?" if near else f"known: {names}" if names else f"describe it under {section}:"
            )
            yield Problem(place_of(tree, path), "mark-unknown", f"there is no {mark!r} under {section}:", advice)


def _named(project: Project) -> Iterator[tuple[Path, str | None, str]]:
    """Every mark of another record: where it stands, the mark, and the section it must be found in."""
    for mark, soil in project.soils.items():
        for index, test in enumerate(soil.field_tests):
            yield ("soils", mark, "field_tests", index, "photo"), test.photo, "attachments"
        if soil.jar:
            yield ("soils", mark, "jar", "photo"), soil.jar.photo, "attachments"
        if soil.grading:
            yield ("soils", mark, "grading", "report"), soil.grading.report, "attachments"
    for mark, trial in project.trials.items():
        yield from ((("trials", mark, "parts", soil), soil, "soils") for soil in trial.parts)
        yield ("trials", mark, "photo"), trial.photo, "attachments"
    for mark, mix in project.mixes.items():
        yield ("mixes", mark, "trial"), mix.trial, "trials"
        yield ("mixes", mark, "replaces"), mix.replaces, "mixes"
    for mark, batch in project.batches.items():
        yield ("batches", mark, "mix"), batch.mix, "mixes"
        yield ("batches", mark, "photo"), batch.photo, "attachments"
        yield from ((("batches", mark, "walls", index), wall, "walls") for index, wall in enumerate(batch.walls))


def _replacing(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """A mix cannot take the place of one that in turn takes its own."""
    followed: set[str] = set()
    for mark in project.mixes:
        steps_back: dict[str, None] = {}
        at: str | None = mark
        while at in project.mixes and at not in followed and at not in steps_back:
            steps_back[at] = None
            at = project.mixes[at].replaces
        followed.update(steps_back)
        if at in steps_back:
            marks = list(steps_back)
            yield from _circle(marks[marks.index(at) :], tree)


def _circle(marks: list[str], tree: PlacedDict) -> Iterator[Problem]:
    for mark, older in zip(marks, [*marks[1:], marks[0]], strict=True):
        wrong = (
            f"{mark} replaces {older}, which in turn replaces {mark}" if older != mark else f"{mark} replaces itself"
        )
        yield Problem(place_of(tree, ("mixes", mark, "replaces")), "mix-replaces", wrong, "name the older mix only")


def _batch_walls(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """A batch goes into walls of its own mix."""
    for mark, batch in project.batches.items():
        for index, name in enumerate(batch.walls):
            wall = project.walls.get(name)
            if wall is not None and wall.mix is not None and wall.mix != batch.mix:
                wrong = f"batch {mark} is of mix {batch.mix}, but wall {name} is of mix {wall.mix}"
                advice = "correct one of them; a wall of two mixes is described as two walls"
                yield Problem(place_of(tree, ("batches", mark, "walls", index)), "batch-mix", wrong, advice)


def _batches_of(project: Project, specimens: Sequence[Specimen]) -> Iterator[Problem]:
    """Specimens are cast from a batch that is described, of their mix, and not before it was mixed."""
    for one in specimens:
        batch = project.batches.get(one.batch)
        if not one.batch:
            continue
        if batch is None:
            near = nearest(one.batch, project.batches)
            advice = f"did you mean {near}?" if near else "describe it under batches:, or leave the cell empty"
            yield Problem(
                one.place, "lab-batch", f"{one.mark} names the batch {one.batch!r}, which is not described", advice
            )
        elif batch.mix != one.mix:
            wrong = f"{one.mark} is of mix {one.mix}, but batch {one.batch} is of mix {batch.mix}"
            yield Problem(one.place, "lab-batch", wrong, "correct one of them")
        elif batch.mixed and one.cast and one.cast < batch.mixed:
            wrong = f"{one.mark} was cast on {one.cast}, before batch {one.batch} was mixed on {batch.mixed}"
            yield Problem(one.place, "lab-batch", wrong, "correct one of the two days")


def _soil(mark: str, soil: Soil, tree: PlacedDict, practice: MaterialPractice, writer: Writer) -> Iterator[Problem]:
    """Each test of a soil by itself, so that each slip is told at its own place."""
    bare = soil.model_copy(update={"jar": None, "grading": None, "field_tests": []})
    parts: list[tuple[Path, Callable[[], object]]] = [(("clay",), lambda: stated_shares(bare, practice))]
    if soil.jar:
        only_jar = Soil(name=soil.name, jar=soil.jar)
        parts.append((("jar",), lambda: soil_record(only_jar, practice)))
    if soil.grading:
        only_grading = Soil(name=soil.name, grading=soil.grading)
        parts.append((("grading",), lambda: soil_record(only_grading, practice)))
    for index, test in enumerate(soil.field_tests):
        path: Path = ("field_tests", index, "reading")
        parts.append((path, lambda test=test: read_field_test(test, practice.field_tests)))  # type: ignore[misc]
    for below, check in parts:
        try:
            check()
        except SoilError as error:
            advice = (
                jar_advice(soil.jar, writer) if below == ("jar",) and soil.jar else "correct the record of the test"
            )
            yield Problem(place_of(tree, ("soils", mark, *below)), "soil-test", str(error), advice)
