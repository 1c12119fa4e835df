"""The command that begins a project: an interview, or a file of answers."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import ask_line, put, stop, stop_with, terminal_width
from compliance.exit_codes import ExitCode

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from compliance.checked import Checked
    from compliance.start.interview.interview_question import Answers, Script


def start(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make, or to go on with.")],
    answers: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A YAML file of answers: nothing is asked then.")
    ] = None,
    walls: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A table of walls, .csv or .xlsx, in place of their questions.")
    ] = None,
) -> None:
    """Asks about the building, or first about the earth, and writes a project folder that reads like a form.

    A project folder that is there goes on part by part: what its files do not say yet is asked and written in place.

    Example: earthwall start my_house
    """
    from compliance.editing.file_edits import EditRefusedError
    from compliance.editing.file_entries import EntryError
    from compliance.editing.yaml_splice import SpliceError
    from compliance.problems import ProblemsFound
    from compliance.start.project_files.created_folder import is_project

    try:
        if is_project(folder):
            _go_on(folder, answers, walls)
        else:
            _begin(folder, answers, walls)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (EntryError, EditRefusedError, SpliceError) as error:
        raise stop(f"{error}; nothing was written") from None
    except OSError as error:
        raise stop(f"{folder}: not written: {error.strerror or error}") from None


def _begin(folder: Path, answers: Path | None, walls: Path | None) -> None:
    from compliance.output.terminal.answer_change import answer_change
    from compliance.start.interview.first_questions import MORE, first_count
    from compliance.start.interview.trial_reading import new_project
    from compliance.start.project_files.created_folder import refusal, write_project
    from compliance.start.project_files.kept_answers import kept_file

    kept = kept_file(folder)
    if why := refusal(folder, kept):
        raise stop(f"{folder}: {why}")
    script = new_project(date.today())
    if answers:
        given = _from_file(answers, walls, script, {})
    else:
        _greet()
        given = _ask(folder, script, _of_the_table(walls), first_count)
    checked = write_project(folder, given, kept, date.today())
    is_said = given.get(MORE) == "no"  # right after the answer
    change = [] if is_said else answer_change(None, checked, terminal_width())
    put("\n".join(["", f"Wrote {folder}.", *change]) + "\n")
    put(_next_steps(folder, checked))


def _go_on(folder: Path, answers: Path | None, walls: Path | None) -> None:
    """A project that is there: with a file of answers one round, else round after round."""
    from compliance.checking import check_folder
    from compliance.editing.file_edits import digests
    from compliance.output.terminal.answer_change import answer_change
    from compliance.reading.yaml.strict_yaml import read_yaml
    from compliance.start.continuing.going_on import CHOICE, Rounds, go_on, proposed_after, round_script, write_round
    from compliance.start.project_files.added_building import known_answers
    from compliance.start.project_files.kept_answers import kept_file

    today, kept = date.today(), kept_file(folder)
    if answers:
        before, seen = check_folder(folder), digests(folder)
        script = round_script(folder, before.project, proposed_after(before.project, ""), today)
        if not before.project.is_earth_only and CHOICE not in read_yaml(answers, answers.as_posix()):
            raise stop(
                f"{folder}: its building is described already; a file of answers names the part that goes on, as in "
                f"{CHOICE}: openings; nothing was written"
            )
        given = _from_file(answers, walls, script, known_answers(before.project))
        after = write_round(folder, before.project, given, seen=seen, today=today)
        changed = answer_change(before, after, terminal_width()) if after else []
        put("\n".join([f"Wrote {folder}." if after else "Nothing was added.", *changed]) + "\n")
        return

    def say(lines: Sequence[str]) -> None:
        put("\n" + "\n".join(lines) + "\n")

    rounds = Rounds(
        hold=lambda script, known: _ask(folder, script, known | _of_the_table(walls)), say=say,
        answer_questions=lambda checked: _answer_questions(folder, checked),
        forget=lambda: kept.unlink(missing_ok=True), width=terminal_width(),
    )  # fmt: skip
    _greet()
    put(_next_steps(folder, go_on(folder, today, rounds)))


def _greet() -> None:
    from textwrap import fill

    from compliance.start.interview.interview import GREETING

    put(fill(GREETING, terminal_width()) + "\n")


def _of_the_table(walls: Path | None) -> Answers:
    return {"length": str(walls)} if walls else {}


def _answer_questions(folder: Path, checked: Checked) -> None:
    from compliance.commands.common.answer_talk import ask_all
    from compliance.report.answer.questions_due import questions_due

    ask_all(folder, checked, questions_due(checked), date.today())


def _next_steps(folder: Path, checked: Checked) -> str:
    lines = [f"The whole check: earthwall check {folder}\n"]
    if checked.project.is_earth_only:
        lines.append(f"A batch in buckets: earthwall blend {folder}\n")
        lines.append(f"Blank records to print: earthwall sheets {folder}\n")
        lines.append(f"More soils or bricks, or the building when there is a plan: earthwall start {folder}\n")
    else:
        lines.append(f"To go on another day: earthwall start {folder}\n")
    return "".join(lines)


def _from_file(path: Path, walls: Path | None, script: Script, known: Answers) -> Answers:
    from compliance.reading.yaml.strict_yaml import read_yaml
    from compliance.start.interview.unattended import answers_of

    tree = read_yaml(path, path.as_posix())
    if walls:
        tree["length"] = str(walls)
        tree.key_places["length"] = tree.value_places["length"] = tree.at
    return answers_of(tree, script, known=known)


def _ask(
    folder: Path, script: Script, known: Answers, count: Callable[[Answers], int] = lambda _: 0
) -> Answers:  # fmt: skip
    """The interview; `count` gives how many questions it has. A stop is no error, Ctrl-C interrupts; both keep the
    answers."""
    from compliance.start.conversation import Conversation, StoppedError
    from compliance.start.interview.interview import Interview
    from compliance.start.project_files.kept_answers import keep, kept, kept_file

    path = kept_file(folder)
    answers = kept(path)
    conversation = Conversation(terminal_width(), say=lambda text: put(text + "\n"), ask=ask_line)
    interview = Interview(answers, script, conversation, keep=lambda so_far: keep(so_far, path, folder), count=count)
    try:
        return interview.run(known)
    except (StoppedError, EOFError, KeyboardInterrupt) as stopped:
        given = len(answers)
        where = f"; {given} {'answer is' if given == 1 else 'answers are'} kept in {path}" if given else ""
        put(f"\nStopped{where}. To go on: earthwall start {folder}\n")
        raise typer.Exit(ExitCode.INTERRUPTED if isinstance(stopped, KeyboardInterrupt) else ExitCode.OK) from None
