"""Confirming limits: entries in the project's amendment file, all the rest of the file left as it is.

What comes of the entries is read and judged as a whole before a byte is written.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from pydantic import ValidationError

from compliance.checking import check_folder
from compliance.editing.file_edits import EditRefusedError, Step, replace_files
from compliance.editing.file_entries import EntryError, quoted, value_in_yaml, with_entries, with_section
from compliance.files.safe_paths import inside
from compliance.output.files.folder_lock import one_at_a_time
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.project_folder import PROJECT_FILE, read_project
from compliance.reading.rule_files.rule_library import read_adopted
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import place_of
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError, nearest
from compliance.rules.amending import AmendmentRecord, amend
from compliance.rules.file_schema import AmendmentText
from compliance.rules.rule_set import Rule, RuleSet

AMENDMENT_FILE = "amendments.yaml"
_HEAD = "# Changes to the limits of the adopted rule sets, each with who read it, when and where.\n\n"


class ConfirmError(EditRefusedError):
    """A confirmation that cannot be written; the message says what to do instead."""


@record
class Confirmation:
    """What a person read. `rule` is an id, or RULE_SET/RULE where two rule sets have the id; `place` is where it is
    written, for problems with it. Without `where` it is what the limit says of itself."""

    rule: str
    limit: str
    value: str
    by: str
    where: str
    on: date
    row: int | None = None
    column: int | None = None
    reason: str | None = None
    authority: str | None = None
    edition: str | None = None
    place: Place | None = None


def confirm_limits(folder: Path, confirmations: Sequence[Confirmation]) -> Step:
    """Writes an entry for each; the words of the step have a line for each. Raises EditRefusedError, ProblemsFound or
    OSError; then nothing is written.

    The entries go into the last amendment file the project names; where there is none, `amendments.yaml` is
    made and named in `project.yaml`. Two runs at once wait for each other, so that no entry is lost.
    """
    with one_at_a_time(folder):
        return _confirm(folder, confirmations)


def _confirm(folder: Path, confirmations: Sequence[Confirmation]) -> Step:
    read = read_project(folder)
    project = read.project
    adopted = read_adopted(folder, project.jurisdiction.rule_sets, project.amendments, read.tree)
    name = project.amendments[-1] if project.amendments else AMENDMENT_FILE
    path = _inside(folder, name)
    if not project.amendments and path.exists():
        raise ConfirmError(f"{path} is there but project.yaml does not name it: add it under amendments: first")
    entries = [_entry(adopted.rule_sets, one) for one in confirmations]
    done = _amended(adopted.rule_sets, entries, confirmations)
    before: dict[str, bytes | None] = {name: path.read_bytes() if path.exists() else None}
    old = (before[name] or _HEAD.encode()).decode("utf-8-sig")
    try:
        text = with_entries(old, entries, path.as_posix())
    except EntryError as error:
        raise ConfirmError(str(error)) from None
    check_folder(folder, drafts={name: text})
    after: dict[str, bytes | None] = {name: text.encode("utf-8")}
    if not project.amendments:
        before[PROJECT_FILE] = _inside(folder, PROJECT_FILE).read_bytes()
        after[PROJECT_FILE] = _named_in_project(folder, before[PROJECT_FILE] or b"", name).encode("utf-8")
    replace_files(folder, before, after)
    lines = (_line(path, one, confirmation) for one, confirmation in zip(done, confirmations, strict=True))
    return Step("\n".join(lines), before, after)


def _inside(folder: Path, name: str) -> Path:
    """The path of a file to write. Raises ConfirmError where a link leads out of the folder."""
    try:
        inside(folder, name)
    except RefusedError as refused:
        raise ConfirmError(f"{(folder / name).as_posix()}: {refused.wrong} ({refused.instead})") from None
    return folder / name


def _line(path: Path, one: AmendmentRecord, confirmation: Confirmation) -> str:
    how = "confirmed unchanged" if one.what == "confirm" else "confirmed"
    return f"{path}: {one.rule} {one.limit} is {confirmation.value}, {how} by {confirmation.by}"


def _find(rule_sets: tuple[RuleSet, ...], wanted: str) -> tuple[RuleSet, Rule]:
    set_id, _, rule_id = wanted.rpartition("/")
    found = [
        (one, rule) for one in rule_sets if not set_id or one.id == set_id for rule in one.rules if rule.id == rule_id
    ]
    if not found:
        near = nearest(rule_id, (rule.id for one in rule_sets for rule in one.rules))
        raise ConfirmError(f"no adopted rule set has a rule {wanted!r}" + (f" (did you mean {near}?)" if near else ""))
    if len(found) > 1:
        raise ConfirmError(f"{rule_id} stands in {' and '.join(one.id for one, _ in found)}: write RULE_SET/{rule_id}")
    return found[0]


def _entry(rule_sets: tuple[RuleSet, ...], confirmation: Confirmation) -> list[str]:
    """The lines of the entry, without indentation; texts quoted so that YAML takes them as they are."""
    rule_set, rule = _find(rule_sets, confirmation.rule)
    if confirmation.limit in rule.tables and confirmation.row is None:
        where = f"earthwall rules show {rule_set.id} {rule.id} numbers them"
        raise ConfirmError(f"{confirmation.limit} is a table: say which cell, as --cell ROW,COLUMN ({where})")
    fields: dict[str, str | int] = {"rule_set": rule_set.id, "rule": rule.id, "limit": confirmation.limit}
    if confirmation.row is not None:
        fields |= {"row": confirmation.row, "column": confirmation.column or 1}
    limit = rule.limits.get(confirmation.limit)
    held = limit or rule.tables.get(confirmation.limit)
    where = confirmation.where or (held and (held.read_in or held.clause)) or rule.clause
    lines = [f"{name}: {one}" for name, one in fields.items()]
    lines.append(f"value: {value_in_yaml(confirmation.value.strip(), limit.kind if limit else '')}")
    lines += ["standing: confirmed", f"by: {quoted(confirmation.by)}", f"on: {confirmation.on.isoformat()}"]
    lines.append(f"where: {quoted(where)}")
    more = {"edition": confirmation.edition, "authority": confirmation.authority, "reason": confirmation.reason}
    return lines + [f"{name}: {quoted(text)}" for name, text in more.items() if text]


def _amended(
    rule_sets: tuple[RuleSet, ...], entries: Sequence[Sequence[str]], confirmations: Sequence[Confirmation]
) -> list[AmendmentRecord]:
    """What the entries do to the rule sets, in order. Raises ProblemsFound with the place of each confirmation."""
    text = with_entries("", entries, "confirm")
    tree = parse_yaml(text, "confirm")
    places = [one.place or Place(f"{one.rule} {one.limit}") for one in confirmations]
    starts = [1 + sum(len(entry) for entry in entries[:index]) for index in range(len(entries))]

    def moved(problem: Problem) -> Problem:
        index = max(index for index, start in enumerate(starts) if start < max(problem.place.line, 2))
        return Problem(places[index], problem.code, problem.wrong, problem.instead)

    try:
        amendment = AmendmentText.model_validate(tree)
    except ValidationError as error:
        raise ProblemsFound(moved(one) for one in problems_of(error, tree, AmendmentText)) from None
    problems: list[Problem] = []
    _, records = amend(rule_sets, amendment, lambda loc: place_of(tree, loc), problems)
    if problems:
        raise ProblemsFound(moved(one) for one in problems)
    return records


def _named_in_project(folder: Path, old: bytes, name: str) -> str:
    """The text of the project file with the amendment file named in it.

    Raises ConfirmError where a section at its end would not do that; the file is left as it is then.
    """
    path = folder / PROJECT_FILE
    text, tree = with_section(old.decode("utf-8-sig"), "amendments", [name])
    if tree is None or tree.get("amendments") != [name]:
        raise ConfirmError(f"{path}: add the line `amendments: [{name}]` to it yourself, then confirm again")
    return text
