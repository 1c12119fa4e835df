"""Rows of a set that are alike where no two tests are, marks that skip a number, and batches unlike their mix."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.doubts.doubt import Doubt, DoubtKind
from compliance.facts.specimens.specimen_results import density, measured
from compliance.model.materials import Mix
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.model.trials import Batch
from compliance.record import record
from compliance.steps import Given

_NUMBERED = re.compile(r"(.*?)([0-9]{1,6})")
_FEW = 3
"""So many rows with the same figures are no chance: two tests of one load happen in a sound set."""

Rows = Mapping[str, Sequence[Specimen]]


@record
class _Figures:
    """What tells one test from another."""

    kind: str
    values: tuple[float | None, ...]


def rows_alike(specimens: Rows) -> Iterator[Doubt]:
    """The same figures in several rows of one set, and rows of one set that stand in another once more. Bars are left
    out: read to a sixteenth of an inch, many are alike."""
    by_figures: dict[str, dict[_Figures, list[str]]] = {}
    for mark, rows in specimens.items():
        found: dict[_Figures, list[str]] = defaultdict(list)
        for one in rows:
            if one.kind != "shrinkage" and measured(one).value is not None:
                found[_figures(one)].append(one.mark)
        by_figures[mark] = found
        for marks in found.values():
            if len(marks) >= _FEW:
                says = f"{len(marks)} specimens of {mark} have the same figures ({', '.join(marks[:_FEW])} ...)"
                yield Doubt(
                    DoubtKind.ALIKE, set=mark, specimen=marks[0], says=(says,), cure="enter what was measured of each"
                )
    marks_of_sets = list(by_figures)
    for index, mark in enumerate(marks_of_sets):
        for other in marks_of_sets[:index]:
            shared = [figures for figures in by_figures[mark] if figures in by_figures[other]]
            least = min(len(by_figures[mark]), len(by_figures[other]))
            if len(shared) >= _FEW or (least >= 2 and len(shared) == least):
                yield from _once_more(mark, other, len(shared))


def _once_more(mark: str, other: str, count: int) -> Iterator[Doubt]:
    for one, beside in ((mark, other), (other, mark)):
        says = f"{count} rows of set {one} have the same figures as rows of set {beside}"
        yield Doubt(
            DoubtKind.ALIKE,
            set=one,
            specimen="",
            says=(says,),
            cure="a test stands for one set of one mix: correct one of them",
        )


def _figures(one: Specimen) -> _Figures:
    values = (one.width, one.depth, one.height, one.span, one.mass, one.peak_load, one.strength)
    return _Figures(one.kind, tuple(None if value is None else float(f"{value:.9g}") for value in values))


def gaps_in_marks(specimens: Rows, project: Project) -> Iterator[Doubt]:
    """Numbers that the marks of a set skip: only named, for a piece may have broken before its test."""
    of_kind: dict[tuple[str, str], str] = {
        (one.kind, one.mark): mark for mark, rows in specimens.items() for one in rows
    }
    for mark, rows in specimens.items():
        numbers: dict[str, set[int]] = defaultdict(set)
        for one in rows:
            if match := _NUMBERED.fullmatch(one.mark):
                numbers[match[1]].add(int(match[2]))
        for prefix, found in numbers.items():
            skipped = sorted(set(range(min(found), max(found) + 1)) - found)
            if not 0 < len(skipped) <= min(_FEW, len(found) // 2):
                continue
            for number in skipped:
                yield _skipped(mark, skipped=f"{prefix}{number}", kind=rows[0].kind, of_kind=of_kind, project=project)


def _skipped(
    mark: str, skipped: str, kind: str, of_kind: Mapping[tuple[str, str], str], project: Project
) -> Doubt:  # fmt: skip
    elsewhere = of_kind.get((kind, skipped))
    if elsewhere is not None and elsewhere in project.test_sets:
        says = f"{skipped} stands in set {elsewhere} of mix {project.test_sets[elsewhere].mix}, not in {mark}"
    else:
        says = f"the marks of {mark} skip {skipped}"
    cure = "enter its row; where it has no result, say why in its note"
    return Doubt(DoubtKind.GAP, set=mark, specimen="", says=(says,), cure=cure, grave=False)


def batches_unlike(specimens: Rows, project: Project, tolerance: float) -> Iterator[Doubt]:
    """Specimens cast from a batch whose straw is not that of its mix."""
    for mark, rows in specimens.items():
        for name in dict.fromkeys(one.batch for one in rows if one.batch in project.batches):
            batch = project.batches[name]
            mix = project.mixes.get(batch.mix)
            if mix is None:
                continue
            says = _other_straw(name, batch, mix, tolerance)
            if says:
                cure = "correct one of them; specimens of another mix need a set of their own"
                yield Doubt(DoubtKind.BATCH, set=mark, specimen="", says=(says,), cure=cure)


def _other_straw(name: str, batch: Batch, mix: Mix, tolerance: float) -> str:
    if batch.straw and mix.straw and batch.straw != mix.straw:
        return f"batch {name} has straw of {batch.straw}, its mix {batch.mix} of {mix.straw}"
    parts, of = batch.straw_parts, mix.straw_parts
    if parts is None or of is None or abs(parts - of) <= tolerance * of * (1 + 1e-9):
        return ""
    return f"batch {name} has {parts:g} parts of straw, its mix {batch.mix} {of:g}"


def densities_unlike(specimens: Rows, project: Project, tolerance: float) -> Iterator[Doubt]:
    """A stated dry density lower than what the specimens of the mix weigh: the loads would be too small."""
    for mark, rows in specimens.items():
        stated = project.mixes[project.test_sets[mark].mix].dry_density
        found = [value for value in map(density, rows) if value is not None]
        if stated is None or not found:
            continue
        mean = sum(found) / len(found)
        if stated.si < mean * (1 - tolerance):
            stated_density, weighed = Given("", stated.si, "density"), Given("", mean, "density")
            says = (
                f"mix {project.test_sets[mark].mix} is said to have ",
                stated_density,
                f", and {mark} weighs ",
                weighed,
            )
            cure = "correct dry_density of the mix, or the masses"
            yield Doubt(DoubtKind.GAP, set=mark, specimen="", says=says, cure=cure, grave=False)


def sets_of_unused_mixes(specimens: Rows, project: Project) -> Iterator[Doubt]:
    """Beside each tested set of a mix that a wall uses: those of the same kind whose mix no wall uses."""
    used = {wall.mix for wall in project.walls.values()}
    tested = [mark for mark, rows in specimens.items()
              if mark in project.test_sets and any(measured(one).value is not None for one in rows)]  # fmt: skip
    for mark in tested:
        test = project.test_sets[mark]
        if test.mix not in used:
            continue
        for other in tested:
            beside = project.test_sets[other]
            if beside.kind == test.kind and beside.mix not in used:
                says = f"set {other} is of mix {beside.mix}, which no wall uses, and does not count"
                yield Doubt(
                    DoubtKind.GAP,
                    set=mark,
                    specimen="",
                    says=(says,),
                    cure="give the rows to the mix they were cast from",
                    grave=False,
                )
