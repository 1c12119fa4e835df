"""The conversation of `answer`: a question, who says so, on what day, on what evidence."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path

import typer

from compliance.checked import Checked
from compliance.commands.common.answering import enter
from compliance.commands.common.shared import ask_line, put, terminal_width
from compliance.editing.evidence_files import Evidence, day_taken
from compliance.editing.written_answers import GivenAnswer
from compliance.exit_codes import ExitCode
from compliance.files.file_kinds import refuse_wrong_kind
from compliance.model.people import Attachment, Attestation
from compliance.refused import RefusedError
from compliance.report.answer.questions_due import OpenQuestion
from compliance.report.value_words import counted
from compliance.start.conversation import BackError, Conversation, StoppedError
from compliance.start.project_files.field_help import read_field, read_word

EACH = "each"
GREETING = (
    "Enter skips a question, back begins it again, ? explains, stop ends. Each answer is written once it is whole."
)

_BEGINNING = 64


class AnswerTalk:
    """Who answered last is suggested next; `write` takes each answer as soon as it is whole."""

    def __init__(
        self, conversation: Conversation, attached: Mapping[str, Attachment], today: date,
        write: Callable[[GivenAnswer], None],
    ) -> None:  # fmt: skip
        self._conversation, self._attached, self._today, self._write = conversation, attached, today, write
        self._by = ""

    def run(self, question: OpenQuestion, count: str) -> None:
        """Asks until every mark is answered or skipped. Raises StoppedError, and what `ask` raises."""
        left = list(question.subjects)
        while left:
            self._conversation.say(
                "\n" + self._wrapped(f"{count}. {question.rule.title} ({question.rule.clause}): {question.asks}")
            )
            self._conversation.say(self._wrapped(f"   About {', '.join(left)}.{_asked_for(question)}"))
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
            self._conversation.note("this needs an answer")
        return text

    def _one(self, before: str, asks: str, read: Callable[[str], str], help: str = "", default: str = "") -> str:
        """What is typed, as `read` takes it; the default or nothing for Enter alone."""

        def take(text: str) -> str:
            bare = text.strip("'\"")
            return read(bare) if bare else default

        shown = f"{before}{asks}" + (f" [{default}]" if default else "")
        prompt = self._wrapped(f"   {shown}") + "\n   > "
        return self._conversation.answer(prompt, take, help or "Write what is asked for.")

    def _wrapped(self, text: str) -> str:
        indent = " " * (len(text) - len(text.lstrip()))
        return "\n".join(
            textwrap.wrap(text.strip(), self._conversation.width, initial_indent=indent, subsequent_indent="   ")
        )


def _day(text: str) -> str:
    return read_field(Attestation, "on", text)


def _asked_for(question: OpenQuestion) -> str:
    return f" {question.evidence_words}" if question.evidence_words else ""


def ask_all(folder: Path, checked: Checked, questions: Sequence[OpenQuestion], today: date) -> None:
    """Asks one after the other and writes each answer before the next question."""
    if not questions:
        put("No question is due. earthwall answer FOLDER --later asks those of later stages too.\n")
        return
    put(f"{counted(len(questions), 'question')}. {GREETING}\n")
    conversation = Conversation(terminal_width(), say=lambda text: put(text + "\n"), ask=ask_line)
    talk = AnswerTalk(
        conversation, dict(checked.project.attachments), today=today, write=lambda given: enter(folder, [given])
    )  # fmt: skip
    try:
        for number, question in enumerate(questions, 1):
            talk.run(question, f"{number} of {len(questions)}")
    except (StoppedError, EOFError):
        put(f"\nStopped. To go on: earthwall answer {folder}\n")
    except KeyboardInterrupt:
        put("\n")
        raise typer.Exit(ExitCode.INTERRUPTED) from None
