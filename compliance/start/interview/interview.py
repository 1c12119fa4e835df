"""The interview: a question, an answer, the next question; back, stop, and going on another day."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from datetime import date

from compliance.model.project import Project
from compliance.output.terminal.plan_text import plan_text
from compliance.refused import RefusedError
from compliance.start.interview.first_questions import EARTH, FIRST, script
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Question, Standing
from compliance.start.interview.trial_reading import trial_reading
from compliance.units import MeasureError

BACK, STOP, SKIP, HELP = "back", "stop", "skip", "?"
GREETING = (
    "Answer each question and press Enter. Where a value stands in square brackets, Enter alone takes it; other "
    "questions that need no answer are passed over by Enter and stay blanks of the form. back goes back, ? explains, "
    "skip passes over the rest of a part, stop keeps your answers for another day."
)


class Stopped(Exception):  # noqa: N818 (nothing went wrong)
    """The person stopped; the answers are kept."""


class Talk:
    """`say` prints a line, `ask` prints a prompt and gives what is typed, `keep` is called after every answer."""

    def __init__(
        self, answers: Answers, titles: dict[str, str], today: date, width: int,
        say: Callable[[str], None], ask: Callable[[str], str], keep: Callable[[Answers], None],
        there: Standing = NOTHING_THERE,
    ) -> None:  # fmt: skip
        self._there, self._plan, self._skipped = there, "", ""
        self.answers, self._titles, self._today, self._width = answers, titles, today, width
        self._say, self._ask, self._keep = say, ask, keep

    def hold(self, known: Answers) -> Answers:
        """Asks until nothing is left to ask; what is `known` is not asked. Raises Stopped, and what `ask` raises."""
        self._say("\n".join(textwrap.wrap(GREETING, self._width)))
        self._look_over()
        if self.answers:
            self._say(f"\nGoing on after {len(self.answers)} answers.")
        while (question := self._next()) is not None:
            if question.key in known and self._take(question, known.pop(question.key)):
                continue
            if self._skipped and _part_of(question) != self._skipped:
                self._skipped = ""
            if self._skipped and not question.required and self._take(question, ""):
                continue
            self._put(question)
        return self.answers

    def _look_over(self) -> None:
        """Kept answers that no longer hold are asked again, with all that came after them."""
        given = dict(self.answers)
        sound: Answers = {}
        for question in script(sound, self._titles, self._there):
            text = given.get(question.key)
            if text is None or (question.required and not text):
                break
            try:
                sound[question.key] = question.read(text) if text else ""
            except (RefusedError, MeasureError):
                break
        self.answers.clear()
        self.answers |= sound

    def _next(self) -> Question | None:
        return next(
            (one for one in script(self.answers, self._titles, self._there) if one.key not in self.answers), None
        )

    def _put(self, question: Question) -> None:
        self._say("\n" + "\n".join(self._question_lines(question)))
        while True:
            text = self._ask(f"[{question.default}] > " if question.default else "> ").strip()
            if text.casefold() == STOP:
                raise Stopped
            if text.casefold() == BACK:
                self._back()
                return
            if text.casefold() == SKIP and not question.required:
                self._skipped = _part_of(question)
                if self._take(question, ""):
                    return
            elif text == HELP:
                self._say(self._wrapped(question.help or _no_help(question)))
            elif self._take(question, text):
                return

    def _take(self, question: Question, text: str) -> bool:
        """Whether the answer is taken; says what to write instead where it is not."""
        text = text or question.default
        if not text and question.required:
            self._say(self._wrapped(f"this needs an answer (for example {question.example})"))
            return False
        try:
            answer = question.read(text) if text else ""
        except (RefusedError, MeasureError) as refused:
            self._say(self._wrapped(f"{refused.wrong} ({refused.instead}) [{refused.code}]"))
            return False
        tried = self.answers | {question.key: answer}
        if question.closes:
            read = trial_reading(tried, self._today, self._there)
            for one in read.problems:
                self._say(self._wrapped(f"{one.wrong} ({one.instead}; back goes back) [{one.code}]"))
            if read.problems:
                return False
            self._draw(read.project)
        self.answers[question.key] = answer
        self._keep(self.answers)
        return True

    def _draw(self, project: Project | None) -> None:
        """The plan, where it has changed."""
        plan = plan_text(project, self._width) if project else ""
        if plan and plan != self._plan:
            self._say(f"\n{plan}")
        self._plan = plan

    def _back(self) -> None:
        if not self.answers:
            self._say(self._wrapped("this is the first question"))
            return
        self.answers.pop(next(reversed(self.answers)))
        self._keep(self.answers)

    def _question_lines(self, question: Question) -> list[str]:
        number = len(self.answers) + 1
        counted = number <= FIRST and self.answers.get("begin") != EARTH
        count = f"{number} of {FIRST}" if counted else str(number)
        lines = textwrap.wrap(f"{count}. {question.asks}", self._width, subsequent_indent="   ")
        for index, (word, label) in enumerate(question.choices, 1):
            text = f"{index:>4}  {word}" + (f": {label}" if label else "")
            lines += textwrap.wrap(text, self._width, subsequent_indent="      ")
        if question.example and not question.choices:
            lines.append(f"   for example {question.example}")
        elif question.choices and question.example:
            lines.append(f"   numbers or words, for example {question.example}")
        return lines

    def _wrapped(self, text: str) -> str:
        return "\n".join(textwrap.wrap(text, self._width, initial_indent="   ", subsequent_indent="   "))


def _part_of(question: Question) -> str:
    """What `skip` passes over with it: questions about the site, the openings, the roof; others stand alone."""
    return question.key.partition(".")[0]


def _no_help(question: Question) -> str:
    if question.choices:
        return "write a number of the list, or the word itself"
    example = f", as in {question.example}" if question.example else ""
    return f"write what the question asks for{example}" + ("" if question.required else "; Enter leaves it open")
