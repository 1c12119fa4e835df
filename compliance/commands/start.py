"""The command that begins a project: an interview, or a file of answers."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from compliance.commands.common.shared import ask_line, put, stop, stop_with, terminal_width
from compliance.exit_codes import ExitCode

if TYPE_CHECKING:
    from compliance.start.interview.interview_question import Answers, Standing


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

    A folder that began with the earth goes on with its building.

    Example: earthwall start my_house
    """
    from compliance.editing.file_entries import EntryError
    from compliance.problems import ProblemsFound
    from compliance.start.interview.interview_question import NOTHING_THERE
    from compliance.start.project_files.added_building import add_building, earth_project, known_answers, standing
    from compliance.start.project_files.created_folder import refusal, write_project
    from compliance.start.project_files.kept_answers import kept_file

    kept = kept_file(folder)
    try:
        begun = earth_project(folder)
        if not begun and (why := refusal(folder, kept)):
            raise stop(f"{folder}: {why}")
        there = standing(begun) if begun else NOTHING_THERE
        known = known_answers(begun) if begun else {}
        of_the_table = {"length": str(walls)} if walls else {}
        if answers:
            given = _from_file(answers, walls, known, there)
        else:
            given = _interview(folder, kept, known | of_the_table, there)
        if begun:
            add_building(folder, given, there, date.today())
            kept.unlink(missing_ok=True)
        else:
            write_project(folder, given, kept, date.today())
    except ProblemsFound as found:
        raise stop_with(found) from None
    except EntryError as error:
        raise stop(f"{error}; nothing was written") from None
    except OSError as error:
        raise stop(f"{folder}: not written: {error.strerror or error}") from None
    put(_written(folder, given))


def _written(folder: Path, given: Answers) -> str:
    lines = [f"\nWrote {folder}. Now try: earthwall check {folder}\n"]
    if given["begin"] == "earth":
        lines.append(f"A batch in buckets: earthwall blend {folder}\n")
        lines.append(f"Blank records to print: earthwall sheets {folder}\n")
        lines.append(f"When there is a plan: earthwall start {folder}\n")
    return "".join(lines)


def _from_file(path: Path, walls: Path | None, known: Answers, there: Standing) -> Answers:
    from compliance.reading.yaml.strict_yaml import read_yaml
    from compliance.start.interview.unattended import answers_of

    tree = read_yaml(path, path.as_posix())
    if walls:
        tree["length"] = str(walls)
        tree.key_places["length"] = tree.value_places["length"] = tree.at
    return answers_of(tree, _titles(), date.today(), known=known, there=there)


def _interview(folder: Path, kept: Path, known: Answers, there: Standing) -> Answers:
    """The interview. A stop is no error, Ctrl-C interrupts; both keep the answers."""
    from compliance.start.interview.interview import Stopped, Talk
    from compliance.start.project_files.kept_answers import keep
    from compliance.start.project_files.kept_answers import kept as kept_answers

    answers = kept_answers(kept)
    talk = Talk(
        answers,
        titles=_titles(),
        today=date.today(),
        width=terminal_width(),
        say=lambda text: put(text + "\n"),
        ask=ask_line,
        keep=lambda so_far: keep(so_far, kept, folder),
        there=there,
    )
    try:
        return talk.hold(known)
    except (Stopped, EOFError, KeyboardInterrupt) as stopped:
        count = len(answers)
        where = f"; {count} {'answer is' if count == 1 else 'answers are'} kept in {kept}" if count else ""
        put(f"\nStopped{where}. To go on: earthwall start {folder}\n")
        raise typer.Exit(ExitCode.INTERRUPTED if isinstance(stopped, KeyboardInterrupt) else ExitCode.OK) from None


def _titles() -> dict[str, str]:
    """Titles of the shipped rule sets by name, read without the rest of the sets."""
    from compliance.files.shipped import shipped
    from compliance.reading.rule_files.rule_library import shipped_rule_sets
    from compliance.start.interview.rule_set_titles import title_of

    return {name: title_of(shipped("rulesets") / f"{name}.yaml") for name in shipped_rule_sets()}
