"""A text that a reader cannot take, before anyone knows where it stands in which file."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from compliance.problems import Place, Problem

MOST_PROBLEMS = 100


class RefusedError(ValueError):
    """A text that is refused. `code`, `wrong` and `instead` go into a Problem once its place is known."""

    def __init__(self, code: str, wrong: str, instead: str) -> None:
        self.code, self.wrong, self.instead = code, wrong, instead
        super().__init__(f"{wrong} ({instead})")

    def at(self, place: Place) -> Problem:
        """The same as a problem at `place`."""
        return Problem(place, self.code, self.wrong, self.instead)


def shortened(text: str, most: int = 60) -> str:
    """`text` in quotes with escapes for what does not print, cut where it is too long for a message."""
    return repr(text if len(text) <= most else text[:most] + "…")


def one_of(words: Iterable[str]) -> str:
    """A list of words to choose from, as a sentence says it."""
    return "write one of " + ", ".join(words)


def nearest(text: str, words: Iterable[str], likeness: float = 0.6) -> str:
    """The word closest to `text`, capitals not counted; empty where none is as close as `likeness`, from 0 to 1."""
    by_folded = {word.casefold(): word for word in words}
    near = get_close_matches(text.casefold(), by_folded, n=1, cutoff=likeness)
    return by_folded[near[0]] if near else ""


def at_most(problems: Iterable[Problem], code: str) -> list[Problem]:
    """The first `MOST_PROBLEMS` by place. Where that leaves some out, a last one with `code` says so."""
    ordered = sorted(set(problems))
    if len(ordered) <= MOST_PROBLEMS:
        return ordered
    kept = ordered[:MOST_PROBLEMS]
    wording = f"more problems than the {MOST_PROBLEMS} above were found in this file"
    return [*kept, Problem(kept[-1].place, code, wording, "mend these first, then read the file again")]
