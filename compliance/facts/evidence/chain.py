"""The way of the earth into a wall, as data: pit, soil, trial, mix, batch, set, specimen, wall."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from functools import cached_property
from typing import Literal

from compliance.model.materials import Mix, Soil
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.model.trials import Batch, Trial
from compliance.record import record
from compliance.steps import Given, Named, Step

LinkKind = Literal["pit", "soil", "trial", "mix", "batch", "set", "specimen", "wall"]


@record
class Link:
    """One link. `mark` as in the project (a pit has that of its soil), `says` in words, `of` the mark of what the
    link belongs to: a pit to its soil, a soil to the mix, a specimen to its set. `day` is that on which it was `done`:
    dug, made, mixed, tested."""

    kind: LinkKind
    mark: str
    says: str
    of: str = ""
    day: date | None = None
    done: str = ""

    @property
    def step(self) -> Step:
        on = f", {self.done} {self.day.isoformat()}" if self.day else ""
        return Step(Named(f"{self.kind.capitalize()} {{}}", self.mark), "", (), Given("", f"{self.says}{on}"))


class Chain:
    """All links of one wall in the order of the work, and what breaks the chain; put together when first asked for."""

    def __init__(self, wall: str, project: Project, specimens: Mapping[str, Sequence[Specimen]]) -> None:
        self.wall, self._project, self._specimens = wall, project, specimens

    @cached_property
    def _linked(self) -> tuple[tuple[Link, ...], tuple[str, ...]]:
        wall = self._project.walls[self.wall]
        name = wall.name or "described without a name"
        own = Link("wall", mark=self.wall, says=name, of=wall.mix or "", day=wall.placed_from, done="placed from")
        if wall.mix is None:  # A mix that is named is described: reading sees to it.
            return (own,), (f"wall {self.wall} names no mix",)
        linked = list(_links(wall.mix, self.wall, self._project, self._specimens))
        links = (*(one for one in linked if isinstance(one, Link)), own)
        return links, tuple(one for one in linked if isinstance(one, str))

    @property
    def links(self) -> tuple[Link, ...]:
        return self._linked[0]

    @property
    def gaps(self) -> tuple[str, ...]:
        """What is lacking between the links, one sentence each."""
        return self._linked[1]

    def of_kind(self, kind: LinkKind) -> tuple[Link, ...]:
        return tuple(link for link in self.links if link.kind == kind)

    def steps(self, without: tuple[LinkKind, ...] = ()) -> tuple[Step, ...]:
        """A line for each link, and one for each gap."""
        lines = [link.step for link in self.links if link.kind not in without]
        return (*lines, *(Step("Not told", "", (), Given("", gap)) for gap in self.gaps))


def _links(
    mix_mark: str, wall: str, project: Project, specimens: Mapping[str, Sequence[Specimen]]
) -> Iterator[Link | str]:
    """Links in the order of the work, and as plain text what is lacking between them."""
    mix = project.mixes[mix_mark]
    for soil_mark in mix.parts:
        yield from _soil(soil_mark, mix_mark, project.soils.get(soil_mark))
    if mix.trial in project.trials:
        assert mix.trial is not None
        yield _trial(mix.trial, mix_mark, project.trials[mix.trial])
    else:
        yield f"mix {mix_mark} names no trial it was chosen from"
    yield _mix(mix_mark, mix)
    batches = {mark: batch for mark, batch in project.batches.items() if batch.mix == mix_mark}
    yield from (_batch(mark, batch) for mark, batch in batches.items() if not batch.walls or wall in batch.walls)
    sets = {mark: test for mark, test in project.test_sets.items() if test.mix == mix_mark}
    if not sets:
        yield f"mix {mix_mark} has no set of specimens"
    for mark, test in sets.items():
        rows = specimens.get(mark, ())
        who = f", tested by {test.tested_by}" if test.tested_by else ""
        shown = f", shown to the official {test.shown_to_official.isoformat()}" if test.shown_to_official else ""
        yield Link("set", mark, f"{test.kind}, {test.title or 'without a title'}{who}{shown}", mix_mark)
        if not rows:
            yield f"set {mark} has no rows of specimens"
        for one in rows:
            batch = f", of batch {one.batch}" if one.batch else ""
            cast = f"cast {one.cast.isoformat()}" if one.cast else "cast on a day not given"
            yield Link("specimen", mark=one.mark, says=f"{cast}{batch}", of=mark, day=one.tested, done="tested")


def _soil(mark: str, mix: str, soil: Soil | None) -> Iterator[Link | str]:
    if soil is None:
        yield f"soil {mark} of mix {mix} is not described"
        return
    if soil.place is None:
        yield f"soil {mark} does not say where it comes from"
    else:
        deep = f", {soil.depth} deep" if soil.depth else ""
        yield Link("pit", mark=mark, says=f"{soil.place}{deep}", of=mark, day=soil.dug, done="dug")
    yield Link("soil", mark, soil.name, mix)


def _trial(mark: str, mix: str, trial: Trial) -> Link:
    return Link("trial", mark=mark, says=f"{_parts(trial.parts)}{_straw(trial)}", of=mix, day=trial.made, done="made")


def _mix(mark: str, mix: Mix) -> Link:
    version = f", version {mix.version}" if mix.version else ""
    replaces = f", in place of {mix.replaces}" if mix.replaces else ""
    return Link("mix", mark, f"{mix.name}{version}{replaces}: {_parts(mix.parts)}{_straw(mix)}")


def _batch(mark: str, batch: Batch) -> Link:
    phrases = [str(batch.volume) if batch.volume else "", f"by {batch.by}" if batch.by else ""]
    return Link(
        "batch",
        mark=mark,
        says=" ".join(filter(None, phrases)) or batch.mix,
        of=batch.mix,
        day=batch.mixed,
        done="mixed",
    )


def _parts(parts: Mapping[str, float]) -> str:
    return " : ".join(f"{part:g} {mark}" for mark, part in parts.items())


def _straw(record: Trial | Mix) -> str:
    if record.straw == "none":
        return ", no straw"
    return f", {record.straw_parts:g} straw" if record.straw_parts else ""
