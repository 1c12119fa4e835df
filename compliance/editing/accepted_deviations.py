"""Entering what an official accepted: one more entry under `accepted:` in the project, all else left as it is."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from pydantic import ValidationError

from compliance.checking import check_folder
from compliance.editing.file_edits import EditRefusedError, Step, replace_files
from compliance.editing.file_entries import EntryError, quoted, with_entries
from compliance.files.safe_paths import inside
from compliance.findings import Finding
from compliance.judging.conditions.acceptances import ACCEPTABLE, digest_of_finding, lapsed_because, rule_of, text_of
from compliance.model.people import AcceptedDeviation
from compliance.output.files.folder_lock import one_at_a_time
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import PROJECT_FILE, read_project
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict, PlacedList
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError

_SECTION = "accepted"


class AcceptError(EditRefusedError):
    """Why nothing is entered; the message says what to do instead."""


@record
class Acceptance:
    """What an official said of one finding. `rule` is an id, or RULE_SET/RULE where two rule sets have the id."""

    rule: str
    subject: str
    official: str
    on: date
    document: str
    condition: str | None = None
    until: date | None = None


def accept_deviation(folder: Path, acceptance: Acceptance) -> Step:
    """Writes the entry. Raises EditRefusedError, ProblemsFound or OSError; then nothing is written."""
    with one_at_a_time(folder):
        return _accept(folder, acceptance)


def _accept(folder: Path, acceptance: Acceptance) -> Step:
    checked = check_folder(folder)
    finding = _find(checked.findings, acceptance)
    if finding.outcome not in ACCEPTABLE:
        raise AcceptError(
            f"{acceptance.rule} for {acceptance.subject} is {finding.verdict}: there is nothing to accept"
        )
    if finding.accepted is not None:
        raise AcceptError(f"{acceptance.rule} for {acceptance.subject} is {finding.accepted.words} already")
    rule_set, rule = rule_of(checked.rule_sets, finding)
    fields: dict[str, str | None] = {
        "rule_set": finding.rule_set, "rule": finding.rule, "about": finding.subject,
        "value": text_of(finding.value), "limit": text_of(finding.limit), "edition": rule_set.edition,
        "digest": digest_of_finding(finding, rule_set, rule), "official": acceptance.official,
        "on": acceptance.on.isoformat(), "document": acceptance.document, "condition": acceptance.condition,
        "until": acceptance.until.isoformat() if acceptance.until else None,
    }  # fmt: skip
    entry = [f"{name}: {quoted(text)}" for name, text in fields.items() if text]
    read = _as_read(entry)
    if why := lapsed_because(checked.project, read, finding, checked.rule_sets):
        raise AcceptError(f"the acceptance would not hold: {why}")
    name = _file_of_section(folder)
    before = (folder / name).read_bytes()
    after = _with_entry(before.decode("utf-8-sig"), entry, folder / name).encode("utf-8")
    words = f"{finding.rule} for {finding.subject} is {finding.verdict}; accepted by {read.official}, not meets"
    step = Step(words, {name: before}, {name: after})
    replace_files(folder, step.before, step.after)
    return step


def _find(findings: tuple[Finding, ...], acceptance: Acceptance) -> Finding:
    set_id, _, rule = acceptance.rule.rpartition("/")
    found = [
        one for one in findings
        if one.rule == rule and one.subject == acceptance.subject and set_id in ("", one.rule_set)
    ]  # fmt: skip
    if not found:
        raise AcceptError(f"there is no finding of {acceptance.rule!r} about {acceptance.subject!r}")
    if len(found) > 1:
        sets = " and ".join(one.rule_set for one in found)
        raise AcceptError(f"{rule} stands in {sets}: write RULE_SET/{rule}")
    return found[0]


def _as_read(entry: list[str]) -> AcceptedDeviation:
    """The entry as the project will read it. Raises ProblemsFound."""
    tree = parse_yaml("\n".join(entry) + "\n", "accept")
    try:
        return AcceptedDeviation.model_validate(tree)
    except ValidationError as error:
        raise ProblemsFound(problems_of(error, tree, AcceptedDeviation)) from None


def _file_of_section(folder: Path) -> str:
    """The file that holds `accepted:` already, else project.yaml. Raises AcceptError where a link leads out."""
    held = read_project(folder).tree.get(_SECTION)
    name = held.file if isinstance(held, PlacedList) else PROJECT_FILE
    try:
        inside(folder, name)
    except RefusedError as refused:
        raise AcceptError(f"{(folder / name).as_posix()}: {refused.wrong} ({refused.instead})") from None
    return name


def _with_entry(old: str, entry: list[str], path: Path) -> str:
    """The text with the entry. Raises AcceptError where it would read as anything else than before and the entry."""
    try:
        new = with_entries(old, [entry], path.as_posix(), _SECTION)
    except EntryError as error:
        raise AcceptError(str(error)) from None
    before, after = (parse_yaml(text, path.as_posix()) for text in (old, new))
    if _without(before) != _without(after) or len(after[_SECTION]) != len(before.get(_SECTION, [])) + 1:
        raise AcceptError(f"{path}: write accepted: at the end of the file yourself, with a list below it")
    return new


def _without(tree: PlacedDict) -> dict[str, object]:
    return {name: value for name, value in tree.items() if name != _SECTION}
