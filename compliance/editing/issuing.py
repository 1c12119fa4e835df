"""Keeping what was issued: one record for each revision, in the folder `issued` of the project.

A revision that was issued is not issued again with other input, unless that is asked for. A draft keeps nothing.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from compliance.checked import Checked
from compliance.files.atomic_files import write_whole
from compliance.files.safe_paths import inside
from compliance.model.issued import HEAD_NAMES, ISSUED_FOLDER, IssuedRecord, head_digest, record_digest
from compliance.output.files.write_targets import file_name
from compliance.reading.issued_records import read_issued
from compliance.record import record
from compliance.refused import RefusedError
from compliance.report.revisions.findings_data import as_data


class IssueError(ValueError):
    """Why a revision is not issued, and what to do instead."""


@record
class Issue:
    """`previous` is what the submittal is compared with; `text` goes to `path` once the submittal is written, unless it
    is a draft or kept already (then None)."""

    previous: IssuedRecord | None
    draft: bool
    path: Path
    text: str | None


def plan_issue(folder: Path, checked: Checked, draft: bool = False, reissue: bool = False) -> Issue:
    """Raises IssueError for a revision that was issued with other input, ProblemsFound for a record that cannot be
    read."""
    records = {one.project.revision: one for one in read_issued(folder)}
    revision = checked.project.project.revision
    own = records.get(revision)
    path = folder / ISSUED_FOLDER / f"{file_name(revision)}.json"
    _refuse_outside(folder, path)
    same = own is not None and own.project.fingerprint == checked.fingerprint
    if draft:
        last = list(records.values())[-1] if records else None
        return Issue(records.get(own.follows or "") if own and same else own or last, True, path, None)
    if own is None:
        last = list(records.values())[-1] if records else None
        _refuse_taken(path, revision)
        number, follows = (last.issue + 1, last.project.revision) if last else (1, None)
        return Issue(last, False, path, _text(checked, number, follows))
    previous = records.get(own.follows) if own.follows is not None else None
    if same:
        return Issue(previous, False, path, None)
    if not reissue:
        raise IssueError(
            f"revision {revision} was issued on {own.project.date} with other input (fingerprint "
            f"{own.project.fingerprint[:12]}, now {checked.fingerprint[:12]}): a file of the project changed since, "
            "or a rule set that comes with this tool. Give the project its next revision (revision: in project.yaml), "
            "or --draft writes the PDF and keeps nothing, or --reissue replaces what was kept"
        )
    return Issue(previous, False, path, _text(checked, own.issue, own.follows))


def _refuse_outside(folder: Path, path: Path) -> None:
    """A link could lead the record out of the project, where nobody would look for it."""
    try:
        inside(folder, f"{ISSUED_FOLDER}/{path.name}")
    except RefusedError as refused:
        raise IssueError(f"{path}: {refused.wrong}; {refused.instead}") from None


def _refuse_taken(path: Path, revision: str) -> None:
    """The name of the file may stand for another revision that differs in capitals or signs only."""
    if path.exists():
        raise IssueError(f"{path} holds another revision than {revision}; give the revision another name")


def keep(issue: Issue) -> None:
    """Write the record whole or not at all. Raises OSError."""
    if issue.text is not None:
        issue.path.parent.mkdir(exist_ok=True)
        write_whole(issue.path, issue.text.encode("utf-8"))


def _text(checked: Checked, issue: int, follows: str | None) -> str:
    """The record as JSON, each finding and limit on a line of its own, so that two can be held side by side."""
    found = as_data(checked, whole=False)
    head: dict[str, Any] = {"issue": issue, "follows": follows}
    head |= {name: found[name] for name in HEAD_NAMES if name in found}
    head["head_digest"] = head_digest(head)
    data = {**head, **{name: value for name, value in found.items() if name not in head}}
    data["digest"] = record_digest(data)
    return "{\n" + ",\n".join(f"{json.dumps(name)}: {_written(value)}" for name, value in data.items()) + "\n}\n"


def _written(value: Any) -> str:
    if isinstance(value, Sequence) and not isinstance(value, str) and any(isinstance(one, Mapping) for one in value):
        return "[\n" + ",\n".join(json.dumps(one, ensure_ascii=False) for one in value) + "\n]"
    return json.dumps(value, ensure_ascii=False)
