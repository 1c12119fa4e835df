"""Confirming a limit: one more entry in the project's amendment file, all the rest of the file left as it is."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

from pydantic import ValidationError

from compliance.checking import check_folder
from compliance.files.atomic_files import write_whole
from compliance.output.files.folder_lock import one_at_a_time
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import PROJECT_FILE, read_project
from compliance.reading.rule_files.rule_library import read_adopted
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.rules.amending import amend
from compliance.rules.rule_set import Rule, RuleSet
from compliance.rules.schema import AmendmentText

AMENDMENT_FILE = "amendments.yaml"
_HEAD = "# Changes to the limits of the adopted rule sets, each with who read it, when and where.\n\n"


class ConfirmError(ValueError):
    """A confirmation that cannot be written; the message says what to do instead."""


@record
class Confirmation:
    """What a person read. `rule` is an id, or RULE_SET/RULE where two rule sets have the id."""

    rule: str
    limit: str
    value: str
    by: str
    where: str
    on: date
    row: int | None = None
    column: int | None = None
    reason: str | None = None


def confirm_limit(folder: Path, confirmation: Confirmation) -> str:
    """Writes the entry and says what it did. Raises ConfirmError, ProblemsFound or OSError; then nothing is written.

    The entry goes into the last amendment file the project names; where there is none, `amendments.yaml` is
    made and named in `project.yaml`. Two runs at once wait for each other, so that no entry is lost.
    """
    with one_at_a_time(folder):
        return _confirm(folder, confirmation)


def _confirm(folder: Path, confirmation: Confirmation) -> str:
    read = read_project(folder)
    project = read.project
    adopted = read_adopted(folder, project.jurisdiction.rule_sets, project.amendments, read.tree)
    rule_set, rule = _find(adopted.rule_sets, confirmation.rule)
    if confirmation.limit in rule.tables and confirmation.row is None:
        where = f"earthwall rules show {rule_set.id} {rule.id} numbers them"
        raise ConfirmError(f"{confirmation.limit} is a table: say which cell, as --cell ROW,COLUMN ({where})")
    name = project.amendments[-1] if project.amendments else AMENDMENT_FILE
    path = folder / name
    old = path.read_bytes().decode("utf-8-sig") if path.exists() else _HEAD
    if not project.amendments and path.exists():
        raise ConfirmError(f"{path} is there but project.yaml does not name it: add it under amendments: first")
    text = with_entry(old, _entry(rule_set.id, rule, confirmation), path.as_posix())
    _try(text, path, adopted.rule_sets)
    named = None if project.amendments else _named_in_project(folder, name)
    _write(path, text, "\r\n" in old)
    if named:
        _write(folder / PROJECT_FILE, *named)
    check_folder(folder)
    return f"{path}: {rule.id} {confirmation.limit} is {confirmation.value}, confirmed by {confirmation.by}\n"


def _find(rule_sets: tuple[RuleSet, ...], wanted: str) -> tuple[RuleSet, Rule]:
    set_id, _, rule_id = wanted.rpartition("/")
    found = [
        (one, rule) for one in rule_sets if not set_id or one.id == set_id for rule in one.rules if rule.id == rule_id
    ]
    if not found:
        from compliance.refused import nearest

        near = nearest(rule_id, (rule.id for one in rule_sets for rule in one.rules))
        raise ConfirmError(f"no adopted rule set has a rule {wanted!r}" + (f" (did you mean {near}?)" if near else ""))
    if len(found) > 1:
        raise ConfirmError(f"{rule_id} stands in {' and '.join(one.id for one, _ in found)}: write RULE_SET/{rule_id}")
    return found[0]


def _entry(rule_set: str, rule: Rule, confirmation: Confirmation) -> list[str]:
    """The lines of the entry, without indentation; texts quoted so that YAML takes them as they are."""
    fields: dict[str, str | int] = {"rule_set": rule_set, "rule": rule.id, "limit": confirmation.limit}
    if confirmation.row is not None:
        fields |= {"row": confirmation.row, "column": confirmation.column or 1}
    limit = rule.limits.get(confirmation.limit)
    lines = [f"{name}: {one}" for name, one in fields.items()]
    lines.append(f"value: {_value(confirmation.value.strip(), limit.kind if limit else '')}")
    lines += ["standing: confirmed", f"by: {_quoted(confirmation.by)}", f"on: {confirmation.on.isoformat()}"]
    lines.append(f"where: {_quoted(confirmation.where)}")
    if confirmation.reason:
        lines.append(f"reason: {_quoted(confirmation.reason)}")
    return lines


def _value(text: str, kind: str) -> str:
    """The value as YAML. Several words of one limit are written with commas between them, as `A, B, C`."""
    if kind == "words":
        words = [word.strip() for word in text.strip("[]").split(",")]
        return f"[{', '.join(_quoted(word) for word in words if word)}]"
    return text if _is_number(text) else _quoted(text)


def _is_number(text: str) -> bool:
    return text.replace(".", "", 1).isdigit()


def _quoted(text: str) -> str:
    """Double-quoted YAML; JSON's escapes are YAML's."""
    return json.dumps(text, ensure_ascii=False)


def with_entry(text: str, entry: list[str], shown: str) -> str:
    """`text` with the entry added at the end of its `changes:` list. Raises ProblemsFound or ConfirmError."""
    lines = text.replace("\r\n", "\n").split("\n")
    tree = (
        parse_yaml(text, shown) if any(line.strip() and not line.lstrip().startswith("#") for line in lines) else None
    )
    changes = tree.get("changes") if tree is not None else None
    if changes is None:
        if tree is not None and "changes" in tree:
            raise ConfirmError(f"{shown}: changes: is empty; remove the line, it is written anew")
        body = text.rstrip("\n")
        return (body + "\n\n" if body else "") + "changes:\n" + _indented(entry, 2)
    assert tree is not None
    at, indent = _end_of(changes, tree, lines, shown)
    return "\n".join([*lines[:at], *_indented(entry, indent).rstrip("\n").split("\n"), *lines[at:]])


def _indented(entry: list[str], indent: int) -> str:
    blank = " " * indent
    return "".join(f"{blank}{'- ' if index == 0 else '  '}{line}\n" for index, line in enumerate(entry))


def _end_of(changes: object, tree: PlacedDict, lines: list[str], shown: str) -> tuple[int, int]:
    """Index of the line after the last entry of the list, and the column its dashes stand at."""
    if not isinstance(changes, PlacedList) or not changes:
        raise ConfirmError(f"{shown}: changes: is no list of entries, each after a dash")
    line, column = changes.item_places[-1]
    start = lines[line - 1]
    indent = len(start) - len(start.lstrip())
    if not start.lstrip().startswith("- ") or column <= indent + 1:
        raise ConfirmError(f"{shown}:{line}: write the entries of changes: one below the other, each after a dash")
    end = line
    while end < len(lines) and (not lines[end].strip() or len(lines[end]) - len(lines[end].lstrip()) > indent):
        end += 1
    while end > line and not lines[end - 1].strip():
        end -= 1
    return end, indent


def _try(text: str, path: Path, rule_sets: tuple[RuleSet, ...]) -> None:
    """Reads the new text as it will be read, before anything is written."""
    from compliance.problems import Place, Problem
    from compliance.reading.yaml.placed import place_of

    tree = parse_yaml(text, path.as_posix())
    try:
        amendment = AmendmentText.model_validate(tree)
    except ValidationError as error:
        raise ProblemsFound(problems_of(error, tree, AmendmentText)) from None
    problems: list[Problem] = []

    def placed(loc: tuple[str | int, ...]) -> Place:
        return place_of(tree, loc)

    last = AmendmentText(changes=amendment.changes[-1:])
    amend(rule_sets, last, lambda loc: placed(("changes", len(amendment.changes) - 1, *loc[2:])), problems)
    if problems:
        raise ProblemsFound(problems)


def _write(path: Path, text: str, crlf: bool) -> None:
    write_whole(path, (text.replace("\n", "\r\n") if crlf else text).encode("utf-8"))


def _named_in_project(folder: Path, name: str) -> tuple[str, bool]:
    """The text of the project file with the amendment file named in it, and whether its lines end in CR LF.

    Raises ConfirmError where a line at its end would not do that; the file is left as it is then.
    """
    path = folder / PROJECT_FILE
    old = path.read_bytes().decode("utf-8-sig")
    text = old.replace("\r\n", "\n").rstrip("\n") + f"\n\namendments:\n  - {name}\n"
    try:
        tree = parse_yaml(text, path.as_posix())
    except ProblemsFound:
        tree = None
    if tree is None or tree.get("amendments") != [name]:
        raise ConfirmError(f"{path}: add the line `amendments: [{name}]` to it by hand, then confirm again")
    return text, "\r\n" in old
