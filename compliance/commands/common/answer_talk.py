"""The conversation of `answer`: a question, who says so, on what day, on what evidence."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

from compliance.editing.evidence_files import Evidence, day_taken
from compliance.editing.written_answers import GivenAnswer
from compliance.files.file_kinds import refuse_wrong_kind
from compliance.model.people import Attachment, Attestation
from compliance.refused import RefusedError
from compliance.report.answer.questions_due import OpenQuestion
from compliance.start.project_files.field_help import read_field, read_word

EACH = "each"
GREETING = (
    "Enter skips a question, back begins it again, ? explains, stop ends. Each answer is written once it is whole."
)

_BEGINNING = 64


class StoppedError(Exception):
    """The person stopped."""


class BackError(Exception):
    """The question is to be asked again."""


class AnswerTalk:
    """`say` prints a line, `ask` prints a prompt and gives what is typed. Who answered last is suggested next."""

    def __init__(
        self, attached: Mapping[str, Attachment], today: date, width: int,
        say: Callable[[str], None], ask: Callable[[str], str], write: Callable[[GivenAnswer], None],
    ) -> None:  # fmt: skip
        self._attached, self._today, self._width = attached, today, width
        self._say, self._ask, self._write = say, ask, write
        self._by = ""

    def hold(self, question: OpenQuestion, count: str) -> None:
        """Asks until every mark is answered or skipped; `write` takes each answer as soon as it is whole. Raises
        StoppedError, and what `ask` raises."""
        left = list(question.subjects)
        while left:
            self._say("\n" + self._wrapped(f"{count}. {question.rule.title} ({question.rule.clause}): {question.asks}"))
            self._say(self._wrapped(f"   About {', '.join(left)}.{_asked_for(question)}"))
            try:
                self._answer(question, left)
                return
            except BackError:
                continue

    def _answer(self, question: OpenQuestion, left: list[str]) -> None:
        """Takes from `left` what is answered."""
        words = ("yes", "no", EACH) if len(left) > 1 else ("yes", "no")
        more = ", each (one after the other)" if len(words) > 2 else ""
        answer = self._one("", f"yes or no{more}; Enter skips", lambda text: read_word(text, words), question.rule.say)
        if answer and answer != EACH:
            self._write(self._given(question, tuple(left), answer == "yes"))
            left.clear()
        for mark in list(left) if answer == EACH else ():
            one = self._one(f"{mark}: ", "yes or no; Enter skips", lambda text: read_word(text, words[:2]))
            if one:
                self._write(self._given(question, (mark,), one == "yes"))
                left.remove(mark)

    def _given(self, question: OpenQuestion, marks: tuple[str, ...], answer: bool) -> GivenAnswer:
        by = self._needed("Who says so", self._by, lambda text: read_field(Attestation, "by", text))
        self._by = by
        on = self._needed("On which day", self._today.isoformat(), _day)
        evidence = self._evidence(question, date.fromisoformat(on))
        note = (
            ""
            if answer
            else self._one("", "A note; Enter for none", lambda text: read_field(Attestation, "note", text))
        )
        return GivenAnswer(
            question.section,
            rule=question.name,
            about=marks,
            answer=answer,
            by=by,
            on=date.fromisoformat(on),
            evidence=evidence,
            note=note,
        )

    def _evidence(self, question: OpenQuestion, on: date) -> tuple[Evidence, ...]:
        """Photos and papers until Enter is pressed."""
        found: list[Evidence] = []
        known = f", or of these: {', '.join(self._attached)}" if self._attached else ""
        while True:
            asks = f"{'More evidence' if found else 'Evidence'}: the path of a photo or paper{known}; Enter for none"
            text = self._one(
                "", asks, self._file, f"It is copied into the folder and named under attachments.{_asked_for(question)}"
            )
            if not text:
                return tuple(found)
            if text in self._attached:
                found.append(Evidence(text))
                continue
            path = Path(text).expanduser()
            title = self._needed(
                "Its title", path.stem.replace("_", " "), lambda one: read_field(Attachment, "title", one)
            )
            taken = day_taken(path)
            dated = self._one(
                "",
                "Its day, as 2026-05-14; Enter where it is not known",
                _day,
                default=taken.isoformat() if taken else "",
            )
            found.append(Evidence(text, title, date.fromisoformat(dated) if dated else None))

    def _file(self, text: str) -> str:
        path = Path(text).expanduser()
        if text in self._attached:
            return text
        if not path.is_file():
            raise RefusedError("file-missing", f"there is no file {text}", "write its path, as in ~/Pictures/wall.jpg")
        with path.open("rb") as file:
            refuse_wrong_kind(path.name, file.read(_BEGINNING))
        return text

    def _needed(self, asks: str, default: str, read: Callable[[str], str]) -> str:
        while not (text := self._one("", asks, read, default=default)):
            self._say(self._wrapped("   this needs an answer"))
        return text

    def _one(self, before: str, asks: str, read: Callable[[str], str], help: str = "", default: str = "") -> str:
        """What is typed, as `read` takes it; the default or nothing for Enter alone."""
        while True:
            shown = f"{before}{asks}" + (f" [{default}]" if default else "")
            text = self._ask(self._wrapped(f"   {shown}") + "\n   > ").strip().strip("'\"")
            match text.casefold():
                case "stop":
                    raise StoppedError
                case "back":
                    raise BackError
                case "?":
                    self._say(self._wrapped(f"   {help or 'Write what is asked for.'}"))
                    continue
                case "":
                    return default
            try:
                return read(text)
            except RefusedError as refused:
                self._say(self._wrapped(f"   {refused.wrong} ({refused.instead}) [{refused.code}]"))

    def _wrapped(self, text: str) -> str:
        indent = " " * (len(text) - len(text.lstrip()))
        return "\n".join(textwrap.wrap(text.strip(), self._width, initial_indent=indent, subsequent_indent="   "))


def _day(text: str) -> str:
    return read_field(Attestation, "on", text)


def _asked_for(question: OpenQuestion) -> str:
    return f" {question.evidence_words}" if question.evidence_words else ""
