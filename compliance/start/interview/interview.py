"""The interview: a question, an answer, the next question; back, stop, and going on another day."""

from __future__ import annotations

import textwrap
from collections.abc import Callable

from compliance.checked import Checked
from compliance.model.project import Project
from compliance.output.terminal.answer_change import answer_change
from compliance.output.terminal.plan_text import plan_text
from compliance.problems import ProblemsFound
from compliance.refused import RefusedError
from compliance.start.conversation import BackError, Conversation
from compliance.start.interview.first_questions import MORE
from compliance.start.interview.interview_question import Answers, Question, Script
from compliance.units import MeasureError

SKIP = "skip"
GREETING = (
    "Answer each question and press Enter. Where a value stands in square brackets, Enter alone takes it; other "
    "questions that need no answer are passed over by Enter and stay blanks of the form. back goes back, ? explains, "
    "skip passes over the rest of a part, stop keeps your answers for another day."
)


class Interview:
    """`keep` is called after every answer; `count` gives how many questions there are, 0 where that is not known."""

    def __init__(
        self, answers: Answers, script: Script, conversation: Conversation, keep: Callable[[Answers], None],
        count: Callable[[Answers], int] = lambda _: 0,
    ) -> None:  # fmt: skip
        self.answers, self._script, self._conversation, self._keep = answers, script, conversation, keep
        self._count = count
        self._plan, self._skipped = script.plan, ""
        self._checked: Checked | None = None
        self._part = ""

    def run(self, known: Answers) -> Answers:
        """Asks until nothing is left to ask; what is `known` is not asked. Raises StoppedError, and what `ask`
        raises."""
        self._look_over()
        if self.answers:
            self._conversation.say(f"\nGoing on after {len(self.answers)} answers.")
        while (question := self._next()) is not None:
            self._say_change(question)
            if question.key in known and self._is_taken(question, known.pop(question.key)):
                continue
            if self._skipped and _part_of(question) != self._skipped:
                self._skipped = ""
            if self._skipped and not question.required and self._is_taken(question, ""):
                continue
            self._put(question)
        return self.answers

    def _look_over(self) -> None:
        """Kept answers that no longer hold are asked again, with all that came after them."""
        given = dict(self.answers)
        sound: Answers = {}
        for question in self._script.questions(sound):
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
        return next((one for one in self._script.questions(self.answers) if one.key not in self.answers), None)

    def _put(self, question: Question) -> None:
        self._conversation.say("\n" + "\n".join(self._question_lines(question)))
        prompt = f"[{question.default}] > " if question.default else "> "
        try:
            self._conversation.answer(prompt, lambda text: self._take(question, text), question.help or _help(question))
        except BackError:
            self._back()

    def _is_taken(self, question: Question, text: str) -> bool:
        """Whether an answer that nobody typed is taken."""
        try:
            self._take(question, text)
        except (RefusedError, MeasureError):
            return False
        return True

    def _take(self, question: Question, text: str) -> str:
        """Keeps the answer. Raises RefusedError or MeasureError with what to write instead."""
        if text.casefold() == SKIP and not question.required:
            self._skipped, text = _part_of(question), ""
        elif text.casefold() == SKIP:
            raise RefusedError("start-missing", "this needs an answer and cannot be skipped", "stop keeps the others")
        text = text or question.default
        if not text and question.required:
            instead = f"for example {question.example}" if question.example else "choose one of the list"
            raise RefusedError("start-missing", "this needs an answer", instead)
        answer = question.read(text) if text else ""
        if question.closes:
            read = self._script.read(self.answers | {question.key: answer})
            found = [RefusedError(one.code, one.wrong, f"{one.instead}; back goes back") for one in read.problems]
            for one in found[:-1]:
                self._conversation.note(f"{one.wrong} ({one.instead}) [{one.code}]")
            if found:
                raise found[-1]
            self._draw(read.project)
        self.answers[question.key] = answer
        self._keep(self.answers)
        return answer

    def _draw(self, project: Project | None) -> None:
        """The plan, where it has changed."""
        plan = plan_text(project, self._conversation.width) if project else ""
        if plan and plan != self._plan:
            self._conversation.say(f"\n{plan}")
        self._plan = plan

    def _say_change(self, question: Question) -> None:
        """What the answer became, each time a part of the questions is done."""
        part = _part_of(question)
        is_done = question.key == MORE or (self._part not in ("", part) and MORE in self.answers)
        if is_done:
            try:
                checked = self._script.check(self.answers)
            except (ProblemsFound, RefusedError):
                checked = None
            if checked is not None:
                if lines := answer_change(self._checked, checked, self._conversation.width):
                    self._conversation.say("\n" + "\n".join(lines))
                self._checked = checked
        self._part = part if "." in question.key else ""

    def _back(self) -> None:
        if not self.answers:
            self._conversation.note("this is the first question")
            return
        self.answers.pop(next(reversed(self.answers)))
        self._keep(self.answers)

    def _question_lines(self, question: Question) -> list[str]:
        width, number = self._conversation.width, len(self.answers) + 1
        count = self._count(self.answers)
        counted = f"{number} of {count}" if number <= count else str(number)
        lines = textwrap.wrap(f"{counted}. {question.asks}", width, subsequent_indent="   ")
        lines += textwrap.wrap(question.note, width, initial_indent="   ", subsequent_indent="   ")
        for index, (word, label) in enumerate(question.choices, 1):
            text = f"{index:>4}  {word}" + (f": {label}" if label else "")
            lines += textwrap.wrap(text, width, subsequent_indent="      ")
        lines += [f"   {line}" for line in question.sketch.splitlines()]
        if question.example and not question.choices:
            lines.append(f"   for example {question.example}")
        elif question.choices and question.example:
            lines.append(f"   numbers or words, for example {question.example}")
        return lines


def _part_of(question: Question) -> str:
    """What `skip` passes over with it: questions about the site, the openings, the roof; others stand alone."""
    return question.key.partition(".")[0]


def _help(question: Question) -> str:
    if question.choices:
        return "Write a number of the list, or the word itself." + (
            "" if question.required else " Enter leaves it open."
        )
    return "Write what the question asks for." + ("" if question.required else " Enter leaves it open.")
