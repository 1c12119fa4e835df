"""The nearest change that meets one finding, found with few trials: for the screen of a check, which cannot wait.

`search.remedies` looks at every kind of change and at what each makes worse. Here the first that meets is taken, the
number of steps is estimated from how the margin moves, and the number of trials is limited.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from compliance.findings import Finding, Outcome
from compliance.remedies.changes import Change
from compliance.remedies.choosing import options_for
from compliance.remedies.search import MOST_STEPS, Trying
from compliance.remedies.trial_judging import ChangeTester

_MOST_GUESSES = 4
_LITTLE = 1e-6


def go_on() -> None:
    """For whoever has nothing else to do."""


class NearestChanges:
    """Looks for changes of a checked building until `most` trials are made; then it finds none. `pause` is called
    before each trial, which takes a moment: whoever must go on with something else does it there."""

    def __init__(self, tester: ChangeTester, most: int, pause: Callable[[], None] = go_on) -> None:
        self._tester, self._left, self._pause = tester, most, pause

    def look_for(self, finding: Finding) -> Change | None:
        """The first change of the plan with which the finding meets and with one step less would not; None where none
        was found."""
        if finding.outcome not in (Outcome.REVISE, Outcome.ENGINEER):
            return None
        for option in options_for(self._tester, finding):
            trying = Trying(self._tester, finding, (option,))
            for direction in option.directions:
                count = self._fewest(trying, direction)
                if count is not None and (value := trying.value(option, count)) is not None:
                    return option.change(value)
                if self._left <= 0 or not self._falls(trying, direction):
                    break
        return None

    def _falls(self, trying: Trying, direction: int) -> bool:
        """Whether a step brings the finding farther off, or cannot be made: only then the other direction may help."""
        judged, now = trying.judged((direction,)), trying.finding.margin
        if judged is None or judged.margin is None or now is None:
            return True
        return judged.margin < now - _LITTLE

    def _judged(self, trying: Trying, count: int) -> Finding | None:
        """None where the trials are used up, or the change goes too far."""
        if self._left <= 0 or trying.value(trying.options[0], count) is None:
            return None
        self._pause()
        self._left -= 1
        return trying.judged((count,))

    def _fewest(self, trying: Trying, direction: int) -> int | None:
        """The steps, with their sign, that meet where one less does not."""
        fails = 0
        for count in self._guesses(trying, direction):
            if count is None:
                return None
            judged = self._judged(trying, direction * count)
            if judged is None:
                return None
            if judged.outcome is Outcome.MEETS:
                return self._narrowed(trying, direction, fails, count)
            fails = max(fails, count)
        return None

    def _guesses(self, trying: Trying, direction: int) -> Iterator[int | None]:
        """Numbers of steps, each from how far the one before came; None where steps bring nothing nearer."""
        count, now = 1, trying.finding.margin
        yield count
        for _ in range(_MOST_GUESSES):
            judged = trying.judged((direction * count,))
            margin = judged.margin if judged else None
            if now is None or margin is None or margin <= now + _LITTLE or not math.isfinite(margin - now):
                yield None
                return
            count = min(max(count + 1, math.ceil(count * -now / (margin - now) - _LITTLE)), MOST_STEPS)
            yield count

    def _narrowed(self, trying: Trying, direction: int, fails: int, meets: int) -> int | None:
        """Halves what lies between a number of steps that fails and one that meets, the last of it step by step."""
        near = max(fails, meets - 1)
        while meets - fails > 1:
            judged = self._judged(trying, direction * near)
            if judged is None:
                return None
            fails, meets = (fails, near) if judged.outcome is Outcome.MEETS else (near, meets)
            near = (fails + meets) // 2
        return direction * meets
