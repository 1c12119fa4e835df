"""Subjects: the things rules are about, each with its facts and the subjects it may look to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from compliance.facts.fact import Fact, FieldPath, lacking, without_meaning
from compliance.facts.wall_facts import WallView


@dataclass(slots=True)
class Subject:
    """One wall, opening, mix ... `facts` by full name ("wall.height"). `parents` holds, for each other kind
    of subject it may look to, that subject, or the path of the field that would name it."""

    about: str
    mark: str
    path: FieldPath
    facts: dict[str, Fact]
    parents: Mapping[str, Subject | FieldPath] = field(default_factory=dict)
    wall: str = ""

    def fact(self, name: str) -> Fact:
        """The fact called `name`, of this subject or of one it looks to. Raises KeyError for no such name."""
        about = name.partition(".")[0]
        if about == self.about:
            return self.facts[name]
        parent = self.parents[about]
        if isinstance(parent, Subject):
            return parent.facts[name]
        return lacking(parent) if parent else without_meaning(f"there is no {about}")


@dataclass(slots=True)
class Facts:
    """All subjects, by kind and mark, in the order of the project. `views` are the walls as they stand in the plan,
    with what meets them and the piers between their openings: what drawings are made from."""

    subjects: dict[str, dict[str, Subject]]
    views: Mapping[str, WallView] = field(default_factory=dict)

    def of(self, about: str) -> dict[str, Subject]:
        return self.subjects.get(about, {})

    def __iter__(self) -> Iterator[Subject]:
        for subjects in self.subjects.values():
            yield from subjects.values()
