"""A building before a change: facts that nothing has changed are kept, for a search that judges it again and again."""

from __future__ import annotations

from collections.abc import Callable

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Facts
from compliance.facts.geometry.wall_views import Views
from compliance.model.project import Project
from compliance.record import record

_OF_WALLS = frozenset({"walls", "wall_types", "buttresses", "stems", "footings", "beams"})


@record
class Before:
    """A building and its facts, made by the same specimens, rules and evidence as those of the changed one.

    `only` is the mark of the one wall whose facts are wanted, empty for all walls.
    """

    project: Project
    facts: Facts
    only: str = ""

    def near(self, project: Project) -> bool:
        """Whether all that facts of a wall follow from is the very same, but for walls and what they stand on."""
        return all(
            getattr(project, name) is getattr(self.project, name)
            for name in Project.model_fields if name not in _OF_WALLS
        )  # fmt: skip

    def same_wall(self, mark: str, views: Views) -> bool:
        """Whether a wall is the very same, with all pieces of it, in the same place among the same supports."""
        old, new = self.facts.runs.get(mark), views.runs[mark]
        if old is new:
            return True
        return (
            old is not None and old.pieces == new.pieces
            and all(views.pieces[one].wall is self.facts.views[one].wall for one in new.pieces)
            and (old.placed.stretch, old.span, old.turned) == (new.placed.stretch, new.span, new.turned)
        )  # fmt: skip

    def same_height(self, project: Project) -> bool:
        """Whether nothing is another that the height or the stories of the building follow from."""
        parts = ("project", "walls", "stems", "beams", "roofs")
        return all(getattr(project, name) is getattr(self.project, name) for name in parts)

    def same_plan(self, project: Project) -> bool:
        """Whether no wall and no buttress is another."""
        return project.walls is self.project.walls and project.buttresses is self.project.buttresses


def kept(
    before: Before | None, same: bool, about: str, mark: str, make: Callable[[], dict[str, Fact]]
) -> dict[str, Fact]:
    """The facts that a subject had before where what they follow from is the `same`; else made anew."""
    old = before.facts.of(about).get(mark) if before is not None and same else None
    return make() if old is None else old.facts
