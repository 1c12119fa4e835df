"""Subjects: the things rules are about, each with its facts and the subjects it may look to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from compliance.facts.common.fact import Fact, FieldPath, lacking, without_meaning
from compliance.facts.geometry.wall_facts import WallView
from compliance.findings import own_mark
from compliance.record import record

if TYPE_CHECKING:
    from compliance.facts.geometry.building import Building


def _nothing_later(name: str, subject: Subject) -> Fact:
    raise KeyError(name)


@dataclass(eq=False)
class Subject:
    """One wall, opening, mix ... `facts` by full name ("wall.height"). `parents` holds, for each other kind
    of subject it may look to, that subject, or the path of the field that would name it. `later` works out a fact that
    is not among `facts`; what it gave so far is kept in `worked_out`."""

    about: str
    mark: str
    path: FieldPath
    facts: dict[str, Fact]
    parents: Mapping[str, Subject | FieldPath] = field(default_factory=dict)
    wall: str = ""
    later: Callable[[str, Subject], Fact] = field(default=_nothing_later, repr=False)
    worked_out: dict[str, Fact] = field(default_factory=dict, repr=False)

    @property
    def own_mark(self) -> str:
        """The mark within its wall."""
        return own_mark(self.mark, self.wall)

    def fact(self, name: str) -> Fact:
        """The fact called `name`, of this subject or of one it looks to. Raises KeyError for no such name."""
        about = name.partition(".")[0]
        if about == self.about:
            return self._own(name)
        parent = self.parents[about]
        if isinstance(parent, Subject):
            return parent._own(name)
        return lacking(parent) if parent else without_meaning(f"there is no {about}")

    def _own(self, name: str) -> Fact:
        fact = self.facts.get(name) or self.worked_out.get(name)
        if fact is None:
            fact = self.worked_out[name] = self.later(name, self)
        return fact


@record
class Facts:
    """All subjects, by kind and mark, in the order of the project. `views` are the walls as they stand in the plan,
    with what meets them and the piers between their openings: what drawings are made from. `runs` are the same by the
    same marks, where walls described in pieces are whole. `building` is what loads
    and structure are worked out from; None where no tables were given for them."""

    subjects: dict[str, dict[str, Subject]]
    views: Mapping[str, WallView] = field(default_factory=dict)
    runs: Mapping[str, WallView] = field(default_factory=dict)
    building: Building | None = None

    def of(self, about: str) -> dict[str, Subject]:
        return self.subjects.get(about, {})

    def __iter__(self) -> Iterator[Subject]:
        for subjects in self.subjects.values():
            yield from subjects.values()
