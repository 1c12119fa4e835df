"""A project folder gone on with: the section that is chosen, its questions, its answers written in their places."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.file_edits import ValueEdit, digests, edit_tree, write_edits
from compliance.model.project import Project
from compliance.output.terminal.answer_change import answer_change
from compliance.output.terminal.plan_text import plan_text
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.record import record, replace
from compliance.start.continuing.earth_section import EARTH_SECTION
from compliance.start.continuing.openings_section import OPENINGS_SECTION
from compliance.start.continuing.parts_sections import GROUND_SECTION, PERMIT_SECTION, ROOF_SECTION, TESTS_SECTION
from compliance.start.continuing.section import Section
from compliance.start.continuing.walls_section import WALLS_SECTION
from compliance.start.interview.first_questions import script
from compliance.start.interview.interview_question import Answers, Question, Script, TrialReading
from compliance.start.interview.trial_reading import trial_reading
from compliance.start.project_files.added_building import add_building, known_answers, standing
from compliance.start.project_files.field_help import read_word

SECTIONS = (EARTH_SECTION, WALLS_SECTION, OPENINGS_SECTION, ROOF_SECTION, GROUND_SECTION, TESTS_SECTION, PERMIT_SECTION)
"""In the order in which they are proposed."""
_OF_THE_EARTH = (EARTH_SECTION, TESTS_SECTION)
CHOICE, BUILDING, ANSWERS, DONE = "section", "building", "answers", "done"
"""The key of the choice, and what may be chosen besides a section."""


def round_script(folder: Path, project: Project, proposed: str, today: date) -> Script:
    """One round: which section, then its questions. Raises ProblemsFound where the folder does not read."""
    return Script(
        lambda answers: _questions(project, answers, proposed),
        read=lambda answers: _reading(folder, project, answers, today),
        check=lambda answers: None,
    )


def _questions(project: Project, answers: Answers, proposed: str) -> Iterator[Question]:
    sections = _sections(project)
    choices = [(one.name, f"{one.title} ({one.says(project)})") for one in sections]
    choices += [(BUILDING, "the building itself, in a file of its own")] if project.is_earth_only else []
    choices += [] if project.is_earth_only else [(ANSWERS, "what only a person can answer, with evidence")]
    words = tuple(word for word, _ in (*choices, (DONE, "")))
    yield Question(
        CHOICE, "Which part goes on?", lambda text: read_word(text, words), default=proposed,
        choices=(*choices, (DONE, "nothing more today")),
        help="A part asks for what its files do not say yet, and never for what they say. Answers are written where "
        "they belong; your own comments and changes stay. What is written already is changed in the files themselves.",
    )  # fmt: skip
    chosen = next((one for one in sections if one.name == answers[CHOICE]), None)
    if chosen is not None:
        yield from chosen.questions(project, answers)
    elif answers[CHOICE] == BUILDING:
        yield from script(answers, standing(project))


def _sections(project: Project) -> tuple[Section, ...]:
    return _OF_THE_EARTH if project.is_earth_only else SECTIONS


def proposed_after(project: Project, name: str) -> str:
    """The section after the one that was done; after the last that there is nothing more to do."""
    if project.is_earth_only:
        return BUILDING if not name else DONE
    names = [*(one.name for one in SECTIONS), ANSWERS, DONE]
    return names[min(names.index(name) + 1, len(names) - 1)] if name in names else names[0]


def _reading(folder: Path, project: Project, answers: Answers, today: date) -> TrialReading:
    """What the folder would read as with the answers so far."""
    if answers.get(CHOICE) == BUILDING:
        return trial_reading(answers, today, standing(project))
    edits = section_edits(project, answers)
    try:
        return TrialReading(project=read_project(folder, lambda tree: edit_tree(tree, edits)).project)
    except ProblemsFound as found:
        return TrialReading(tuple(found.problems))


def section_edits(project: Project, answers: Answers) -> list[ValueEdit]:
    """What the answers of a round write."""
    chosen = next((one for one in SECTIONS if one.name == answers.get(CHOICE)), None)
    return list(chosen.edits(project, answers)) if chosen else []


def write_round(
    folder: Path, project: Project, answers: Answers, seen: Mapping[str, str], today: date
) -> Checked | None:
    """Writes what a round came to and gives the project with it; None where there is nothing to write. Raises
    ProblemsFound, EditRefusedError, SpliceError, EntryError or OSError: nothing is written then."""
    if answers.get(CHOICE) == BUILDING:
        add_building(folder, answers, standing(project), today)
        return check_folder(folder)
    edits = section_edits(project, answers)
    if not edits:
        return None
    checked = check_folder(folder, lambda tree: edit_tree(tree, edits))
    write_edits(folder, edits, seen)
    return checked


@record
class Rounds:
    """What rounds need of the terminal: `hold` asks a script through, what is known of it already left out, `say`
    prints lines, `answer_questions` asks what only a person can answer, `forget` takes kept answers away once they are
    written."""

    hold: Callable[[Script, Answers], Answers]
    say: Callable[[Sequence[str]], None]
    answer_questions: Callable[[Checked], None]
    forget: Callable[[], None]
    width: int


def go_on(folder: Path, today: date, rounds: Rounds) -> Checked:
    """Rounds until nothing more is chosen; the last check. Raises as `write_round` does, and what `hold` raises."""
    done, before = "", check_folder(folder)
    if plan := plan_text(before.project, rounds.width):
        rounds.say([plan])
    while True:
        project, seen = before.project, digests(folder)
        plan = plan_text(project, rounds.width)
        this = replace(round_script(folder, project, proposed_after(project, done), today), plan=plan)
        answers = rounds.hold(this, known_answers(project))
        done = answers[CHOICE]
        if done == ANSWERS:
            rounds.forget()
            rounds.answer_questions(before)
            before = check_folder(folder)
            continue
        after = None if done == DONE else write_round(folder, project, answers, seen=seen, today=today)
        rounds.forget()
        if after is not None:
            change = answer_change(before, after, rounds.width) or ["   Nothing changed in the answer."]
            rounds.say([f"Written to {folder}.", *change])
            before = after
        elif done != DONE:
            rounds.say(["Nothing was added."])
        if done in (DONE, BUILDING):
            return before
