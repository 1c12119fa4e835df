"""The stages of a building, from the first soil to the finished house: when the answer of a rule is due."""

from __future__ import annotations

from enum import StrEnum


class Stage(StrEnum):
    """In the order in which a building passes through them."""

    EARTH = "earth"  # soils and trials, before there is a plan
    DESIGN = "design"  # the plan, before it is taken to the building official
    APPLICATION = "application"  # the submittal, with its test results
    BEFORE_PLACING = "before-placing"  # tests shown, trench and stem wall inspected
    DURING_THE_WORK = "during-the-work"  # walls going up
    COMPLETION = "completion"  # walls finished

    @property
    def rank(self) -> int:
        return _STAGES.index(self)

    @property
    def words(self) -> str:
        """The stage as a reader sees it."""
        return self.value.replace("-", " ")

    def asks_for(self, due: Stage) -> bool:
        """Whether a project that stands here owes the answers that are due at a stage."""
        return due.rank <= self.rank


_STAGES = list(Stage)

UNSTATED = Stage.COMPLETION
"""Where a project is taken to stand that does not say so: nothing it lacks is put off."""
UNSTAGED = Stage.EARTH
"""When the answer of a rule is due that names no stage: always."""
