"""Entering answers and records of inspections: entries at the end of their section, all else left as it is.

What comes of them is read and judged as a whole before a byte of the project is written.
"""

from __future__ import annotations

import contextlib
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.evidence_files import Evidence, FiledEvidence, file_evidence
from compliance.editing.file_edits import Contents, EditRefusedError, Step, replace_files
from compliance.editing.file_entries import EntryError, quoted, with_entries, with_records
from compliance.files.atomic_files import write_whole
from compliance.files.safe_paths import inside
from compliance.findings import Finding
from compliance.output.files.folder_lock import one_at_a_time
from compliance.reading.project_folder import PROJECT_FILE, read_project
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError

_ATTACHMENTS = "attachments"


class AnswerError(EditRefusedError):
    """Why no answer is entered; the message says what to do instead."""


@record
class GivenAnswer:
    """What a person says of one rule: of each of the marks `about`. `section` is `attestations` or `inspections`,
    `rule` as an entry names it."""

    section: str
    rule: str
    about: tuple[str, ...]
    answer: bool
    by: str
    on: date
    evidence: tuple[Evidence, ...] = ()
    note: str = ""


@record
class Entered:
    """The project with the answers, and the findings about what was answered."""

    checked: Checked
    findings: tuple[Finding, ...]
    copied: tuple[str, ...]
    step: Step


def enter_answers(folder: Path, answers: Sequence[GivenAnswer]) -> Entered:
    """Writes an entry for each mark of each answer. Raises EditRefusedError, ProblemsFound or OSError; then nothing
    is written."""
    with one_at_a_time(folder):
        try:
            return _enter(folder, answers)
        except RefusedError as refused:
            raise AnswerError(f"{refused.wrong} ({refused.instead})") from None
        except EntryError as error:
            raise AnswerError(str(error)) from None


def _enter(folder: Path, answers: Sequence[GivenAnswer]) -> Entered:
    read = read_project(folder)
    wanted = [one for answer in answers for one in answer.evidence]
    filed = file_evidence(folder, read.project.attachments, wanted)
    marks = _marks_of_files(wanted, filed)
    entries: dict[str, list[str]] = {}
    for answer in answers:
        entries.setdefault(answer.section, []).extend(_entries(answer, marks))
    before, after = _contents(folder, read.tree, entries, filed)
    with contextlib.ExitStack() as undo:
        for name, data in filed.copies.items():
            path = inside(folder, name)
            path.parent.mkdir(exist_ok=True)
            undo.callback(path.unlink, missing_ok=True)
            write_whole(path, data)
        checked = check_folder(folder, lambda tree: _lay_over(tree, entries, filed))
        replace_files(folder, before, after)
        undo.pop_all()
    asked = {(answer.rule, mark) for answer in answers for mark in answer.about}
    found = tuple(
        one for one in checked.findings
        if {(one.rule, one.subject), (f"{one.rule_set}/{one.rule}", one.subject)} & asked
    )  # fmt: skip
    words = "; ".join(f"answer of {one.rule} for {', '.join(one.about)}" for one in answers)
    step = Step(words, {**dict.fromkeys(filed.copies), **before}, {**filed.copies, **after})
    return Entered(checked, found, copied=tuple(filed.copies), step=step)


def _marks_of_files(wanted: Sequence[Evidence], filed: FiledEvidence) -> Mapping[Evidence, str]:
    """The mark of each piece of evidence."""
    return dict(zip(wanted, filed.marks, strict=True))


def _entries(answer: GivenAnswer, marks: Mapping[Evidence, str]) -> list[str]:
    """A line for each mark, as YAML on one line."""
    said = "answer" if answer.section == "attestations" else "passed"
    fields = {said: "yes" if answer.answer else "no", "by": quoted(answer.by), "on": answer.on.isoformat()}
    if answer.evidence:
        fields["evidence"] = f"[{', '.join(dict.fromkeys(marks[one] for one in answer.evidence))}]"
    if answer.note:
        fields["note"] = quoted(answer.note)
    lines = []
    for mark in answer.about:
        named = {"rule": quoted(answer.rule), "about": quoted(mark)}
        lines.append("{" + ", ".join(f"{name}: {text}" for name, text in (named | fields).items()) + "}")
    return lines


def _contents(
    folder: Path, tree: PlacedDict, entries: Mapping[str, Sequence[str]], filed: FiledEvidence
) -> tuple[Contents, Contents]:
    """The files that change, as they are and as they are to be. Raises AnswerError where a file would read as anything
    else than before and what is added."""
    old: dict[str, bytes | None] = {}
    new: dict[str, str] = {}
    sections: dict[str, int] = {section: len(lines) for section, lines in entries.items()}
    if filed.entries:
        sections = {_ATTACHMENTS: len(filed.entries)} | sections
    for section, count in sections.items():
        held = tree.get(section)
        name = held.file if isinstance(held, PlacedDict | PlacedList) else PROJECT_FILE
        path = inside(folder, name)
        shown = (folder / name).as_posix()
        if name not in new:
            data = path.read_bytes()
            old[name], new[name] = data, data.decode("utf-8-sig")
        before = new[name]
        if section == _ATTACHMENTS:
            new[name] = with_records(before, filed.entries, shown, section)
        else:
            new[name] = with_entries(before, [[line] for line in entries[section]], shown, section)
        _refuse_other_changes(before, new[name], section=section, count=count, shown=shown)
    return old, {name: text.encode("utf-8") for name, text in new.items()}


def _refuse_other_changes(before: str, after: str, section: str, count: int, shown: str) -> None:
    was, now = parse_yaml(before, shown), parse_yaml(after, shown)
    added = len(now.get(section) or ()) - len(was.get(section) or ())
    if _without(was, section) != _without(now, section) or added != count:
        raise AnswerError(f"{shown}: write {section}: at the end of the file yourself, with its entries below it")


def _without(tree: PlacedDict, section: str) -> dict[str, object]:
    return {name: value for name, value in tree.items() if name != section}


def _lay_over(tree: PlacedDict, entries: Mapping[str, Sequence[str]], filed: FiledEvidence) -> None:
    """The new entries in the tree of the project, as its files will hold them."""
    texts = {section: "".join(f"  - {line}\n" for line in lines) for section, lines in entries.items()}
    if filed.entries:
        texts[_ATTACHMENTS] = "".join(
            f"  {mark}:\n" + "".join(f"    {field}\n" for field in fields) for mark, fields in filed.entries.items()
        )
    added = parse_yaml("".join(f"{section}:\n{text}" for section, text in texts.items()), PROJECT_FILE)
    for section, more in added.items():
        held = tree.get(section)
        if isinstance(held, PlacedList):
            held.extend(more)
            held.item_places.extend(more.item_places)
        elif isinstance(held, PlacedDict):
            for mark in more:
                held[mark] = more[mark]
                held.key_places[mark], held.value_places[mark] = more.key_places[mark], more.value_places[mark]
        else:
            tree[section] = more
            tree.key_places[section], tree.value_places[section] = (
                added.key_places[section],
                added.value_places[section],
            )
