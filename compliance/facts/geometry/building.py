"""The building as the structural facts see it: every record, every subject, and what several facts share."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, TypeVar, cast

from compliance.facts.geometry.statements import stories_of
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_views import Views
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.model.structure import Bearing
from compliance.record import record

if TYPE_CHECKING:
    from compliance.facts.common.coefficients import Screening
    from compliance.facts.site.action_tables import ActionTables

T = TypeVar("T")
Subjects = Mapping[str, Mapping[str, Subject]]


@record
class OnWall:
    """A roof's bearing on a wall: the roof's mark and the place of the bearing among those of the roof."""

    roof: str
    index: int
    bearing: Bearing


class Building:
    """`views` are the walls as built, by the mark of each piece; `pieces` as described. `supply` gives the tables and
    is first called when a fact asks for a load; `once` keeps what several facts are made from."""

    def __init__(
        self, project: Project, specimens: Mapping[str, Sequence[Specimen]], views: Views,
        subjects: Subjects, tables: Callable[[], ActionTables],
    ) -> None:  # fmt: skip
        self.project = project
        self.specimens = specimens
        self.pieces = views.pieces
        self.views = views.runs
        self.subjects = subjects
        self.supply = tables
        self._kept: dict[tuple[str, ...], object] = {}

    @property
    def tables(self) -> ActionTables:
        return self.supply()

    @property
    def screening(self) -> Screening:
        return self.supply().screening

    def cached(self, key: tuple[str, ...], work: Callable[[], T]) -> T:
        """What `work` gives, worked out the first time it is asked for under `key`."""
        if key not in self._kept:
            self._kept[key] = work()
        return cast(T, self._kept[key])

    @property
    def walls(self) -> tuple[str, ...]:
        """The marks of the walls as built: of those in pieces, the piece described first."""
        return tuple(mark for mark, view in self.views.items() if view.mark == mark)

    def subject(self, about: str, mark: str) -> Subject:
        return self.subjects[about][mark]

    def story_above(self, wall: str) -> bool:
        """Whether a story stands above the wall's own; a wall that names none stands in the lowest."""
        return (self.project.walls[wall].story or 1) < self.stories

    @property
    def stories(self) -> int:
        """As many as the project or any of its walls speaks of."""
        return self.cached(("stories",), lambda: stories_of(self.project))

    def roofs_on(self, wall: str) -> tuple[OnWall, ...]:
        """Every bearing of a roof on a wall, in the order of the project."""
        return self.cached(("roofs on walls",), self._bearings).get(wall, ())

    def _bearings(self) -> dict[str, tuple[OnWall, ...]]:
        found: dict[str, list[OnWall]] = defaultdict(list)
        for mark, roof in self.project.roofs.items():
            for index, bearing in enumerate(roof.bears_on):
                found[bearing.wall].append(OnWall(mark, index, bearing))
        return {wall: tuple(bearings) for wall, bearings in found.items()}
