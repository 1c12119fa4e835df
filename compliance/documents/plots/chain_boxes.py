"""The chain of evidence of a mix as boxes: soils and trial into the mix, the mix into specimens and into walls."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from compliance.checked import Checked
from compliance.facts.evidence.chain import Chain, Link
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.record import record

MOST_SOILS = 6
MOST_SETS = 4
_MOST_WALLS = 6
_MOST_LINES, _LETTERS = 34, 36
"""Lines of the boxes of walls in one figure, and how many letters a line surely holds."""


@record
class Box:
    """One box: what it is, its mark or marks, and lines of text. `given` is False where the project leaves it open."""

    kind: str
    marks: str
    says: tuple[str, ...] = ()
    given: bool = True


@record
class Tested:
    """Sets of specimens cast from the same batches, each set with its specimens."""

    batch: Box
    sets: tuple[tuple[Box, Box], ...]


@record
class Flow:
    """What one figure shows. `sources` are soils, each under its pit. `built` are batches with their walls.
    `speaks`: there are results that speak for the walls."""

    mix: Box
    sources: tuple[tuple[Box, Box], ...]
    trial: Box
    tested: tuple[Tested, ...]
    built: tuple[tuple[Box, Box], ...]
    speaks: bool
    gaps: tuple[str, ...]

    @property
    def alt_text(self) -> str:
        """The figure in words."""
        soils = [f"{one.kind} {one.marks}" for _, one in self.sources]
        trial = [f"trial {self.trial.marks}"] if self.sources else []
        sets = [f"set {one.marks} of {specimens.marks}" for group in self.tested for one, specimens in group.sets]
        walls = [f"{head.kind} {head.marks} for {wall.kind} {wall.marks}" for head, wall in self.built]
        origin = f" comes from {', '.join([*soils, *trial])};" if self.sources else ""
        speaks = " Its specimens speak for these walls." if self.speaks and walls else ""
        tested, built = "; ".join(sets) or "no set of specimens", "; ".join(walls) or "no wall"
        return f"Chain of evidence: mix {self.mix.marks}{origin} tested by {tested}; built with: {built}.{speaks}"


def flows(checked: Checked) -> Iterator[tuple[str, list[Flow]]]:
    """For each mix that a wall is built of: its mark and its figures, more than one where there are many sets."""
    chains = [chain for chain in checked.evidence.chains.values() if chain.of_kind("mix")]
    for mix in checked.project.mixes:
        of_mix = [chain for chain in chains if chain.of_kind("mix")[0].mark == mix]
        if of_mix:
            yield mix, list(_figures(mix, of_mix, checked))


def _figures(mix: str, chains: Sequence[Chain], checked: Checked) -> Iterator[Flow]:
    project, first = checked.project, chains[0]
    sources = tuple(_sources(first))
    trial = next((_box(link) for link in first.of_kind("trial")), Box("trial", "not told", given=False))
    rows = {link.mark: checked.specimens.get(link.mark, ()) for link in first.of_kind("set")}
    tested = list(_tested(first.of_kind("set"), rows))
    built = tuple(_built([chain.wall for chain in chains], project, mix))
    gaps = tuple(dict.fromkeys(gap for chain in chains for gap in chain.gaps))
    parts = list(_parts(tested)) or [()]
    for number, (part, walls) in enumerate(product(parts, list(_high_enough(built)) or [()])):
        of_mix = _box(first.of_kind("mix")[0])
        if number:
            of_mix = Box("mix", f"{mix}, continued", of_mix.says)
        speaks = any(rows[one.marks] for group in part for one, _ in group.sets)
        yield Flow(
            of_mix,
            sources=() if number else sources,
            trial=trial,
            tested=part,
            built=walls,
            speaks=speaks,
            gaps=gaps if not number else (),
        )


def _box(link: Link) -> Box:
    day = (f"{link.done} {link.day.isoformat()}",) if link.day else ()
    return Box(link.kind, link.mark, (link.says, *day))


def _sources(chain: Chain) -> Iterator[tuple[Box, Box]]:
    pits = {link.mark: link for link in chain.of_kind("pit")}
    soils = chain.of_kind("soil")
    kept = soils if len(soils) <= MOST_SOILS else soils[: MOST_SOILS - 1]
    for soil in kept:
        pit = pits.get(soil.mark)
        yield _box(pit) if pit else Box("pit", "not told", given=False), _box(soil)
    if len(kept) < len(soils):
        rest = [soil.mark for soil in soils[len(kept) :]]
        yield Box("pits", "as in the table of soils"), Box("soils", ", ".join(rest))


def _tested(sets: Iterable[Link], rows: dict[str, Sequence[Specimen]]) -> Iterator[Tested]:
    """Sets in their order, gathered by the batches that their specimens name."""
    groups: dict[tuple[str, ...], list[Link]] = {}
    for link in sets:
        batches = tuple(dict.fromkeys(one.batch for one in rows[link.mark]))
        groups.setdefault(batches, []).append(link)
    for batches, links in groups.items():
        named = [batch for batch in batches if batch]
        open_ones = ("and others not told",) if named and "" in batches else ()
        head = Box("batch", ", ".join(named), open_ones) if named else Box("batch", "not told", given=False)
        yield Tested(head, tuple((_set_box(link), _specimens(rows[link.mark])) for link in links))


def _set_box(link: Link) -> Box:
    return Box("set", link.mark, (link.says,))


def _specimens(rows: Sequence[Specimen]) -> Box:
    if not rows:
        return Box("specimens", "no rows yet", given=False)
    days = sorted({one.tested for one in rows if one.tested})
    phrases = (
        [f"tested {days[0].isoformat()}" + (f" to {days[-1].isoformat()}" if len(days) > 1 else "")] if days else []
    )
    cast = sorted({one.cast for one in rows if one.cast})
    phrases = (
        [f"cast {cast[0].isoformat()}" + (f" to {cast[-1].isoformat()}" if len(cast) > 1 else "")] if cast else []
    ) + phrases
    marks = rows[0].mark if len(rows) == 1 else f"{rows[0].mark} to {rows[-1].mark}"
    return Box("specimens", marks, (f"{len(rows)} in all", *phrases))


def _built(walls: Sequence[str], project: Project, mix: str) -> Iterator[tuple[Box, Box]]:
    """Walls gathered by the batches that name them."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for wall in walls:
        batches = tuple(mark for mark, one in project.batches.items() if one.mix == mix and wall in one.walls)
        groups.setdefault(batches, []).append(wall)
    for batches, marks in groups.items():
        mixed = [project.batches[mark].mixed for mark in batches]
        days = tuple(f"mixed {day.isoformat()}" for day in mixed if day)
        head = Box("batch", ", ".join(batches), days) if batches else Box("batch", "not told", given=False)
        for start in range(0, len(marks), _MOST_WALLS):
            named = [_wall(mark, project) for mark in marks[start : start + _MOST_WALLS]]
            yield (
                head,
                Box("walls" if len(named) > 1 else "wall", ", ".join(marks[start : start + _MOST_WALLS]), tuple(named)),
            )


def _high_enough(built: Sequence[tuple[Box, Box]]) -> Iterator[tuple[tuple[Box, Box], ...]]:
    """Walls cut so that no figure is taller than a page."""
    part: list[tuple[Box, Box]] = []
    lines = 0
    for pair in built:
        needed = sum(2 + sum(1 + len(text) // _LETTERS for text in box.says) for box in pair)
        if part and lines + needed > _MOST_LINES:
            yield tuple(part)
            part, lines = [], 0
        part.append(pair)
        lines += needed
    if part:
        yield tuple(part)


def _wall(mark: str, project: Project) -> str:
    wall = project.walls[mark]
    placed = f", placed from {wall.placed_from.isoformat()}" if wall.placed_from else ""
    return f"{mark} {wall.name or 'without a name'}{placed}"


def _parts(groups: Sequence[Tested]) -> Iterator[tuple[Tested, ...]]:
    """Groups cut so that no figure has more than `MOST_SETS` sets side by side."""
    part: list[Tested] = []
    room = MOST_SETS
    for group in groups:
        sets = list(group.sets)
        while sets:
            taken, sets = sets[:room], sets[room:]
            part.append(Tested(group.batch, tuple(taken)))
            room -= len(taken)
            if not room:
                yield tuple(part)
                part, room = [], MOST_SETS
    if part:
        yield tuple(part)
