"""One question put to a person at a terminal until an answer is taken; back, stop and ? anywhere."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from itertools import groupby

from compliance.refused import RefusedError
from compliance.units import MeasureError

BACK, STOP, HELP = "back", "stop", "?"
_INDENT = "   "


class StoppedError(Exception):
    """The person stopped."""


class BackError(Exception):
    """The person goes back."""


class Conversation:
    """`say` prints a line, `ask` prints a prompt and gives what is typed; lines are broken at `width`."""

    def __init__(self, width: int, say: Callable[[str], None], ask: Callable[[str], str]) -> None:
        self.width, self.say, self._ask = width, say, ask

    def answer(self, prompt: str, take: Callable[[str], str], help: str) -> str:
        """What `take` makes of the line that is typed; it refuses with what to write instead, and the question stays.
        Raises StoppedError, BackError, and what `ask` raises."""
        while True:
            text = self._ask(prompt).strip()
            match text.casefold():
                case word if word == STOP:
                    raise StoppedError
                case word if word == BACK:
                    raise BackError
                case word if word == HELP:
                    self.note(help)
                    continue
            try:
                return take(text)
            except (RefusedError, MeasureError) as refused:
                self.note(f"{refused.wrong} ({refused.instead}) [{refused.code}]")

    def note(self, text: str) -> None:
        """Text below a question; lines that begin with a space are a drawing and stay as they are."""
        lines: list[str] = []
        for is_drawn, some in groupby(text.splitlines(), key=lambda line: line.startswith(" ")):
            part = list(some)
            wrapped = textwrap.wrap(" ".join(part), self.width, initial_indent=_INDENT, subsequent_indent=_INDENT)
            lines += [_INDENT + line for line in part] if is_drawn else wrapped
        self.say("\n".join(lines))
