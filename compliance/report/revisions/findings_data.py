"""Findings as JSON, and as CSV rows."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

from compliance.checked import Checked
from compliance.facts.evidence.described_things import described_things
from compliance.facts.evidence.test_set_texts import test_set_texts
from compliance.findings import Accepted, Amended, Finding, FindingKey
from compliance.judging.conditions.due import ReachedStage
from compliance.model.issued import FindingsRecord
from compliance.report.answer.answer import answer, cause_of_each
from compliance.report.counting_results import counting_results
from compliance.report.limits.limit_list import ListedLimit, limits_relied_on
from compliance.report.revisions.input_data import inputs_data
from compliance.report.revisions.reason_data import given_data, reason_data
from compliance.report.words.missing_words import missing_texts, reason_text
from compliance.units import Writer

CSV_COLUMNS = (
    "about", "subject", "wall", "rule_set", "rule", "title", "clause", "outcome", "verdict", "standing", "value",
    "relation", "limit", "margin", "reason", "remedy", "missing", "file", "line", "stage",
)  # fmt: skip


def as_json(checked: Checked) -> str:
    """The whole result; the same project gives the same text."""
    return json.dumps(as_data(checked), ensure_ascii=False, indent=1) + "\n"


def as_data(checked: Checked, whole: bool = True) -> dict[str, Any]:
    """As `FindingsRecord` has it; not whole: without worked lines and what the rules say,
    and with what the user stated."""
    head = checked.project.project
    writer = Writer(head.units)
    entries = _issue_entries(checked) if whole else {}
    return {
        "project": {
            "name": head.name, "number": head.number, "revision": head.revision, "date": head.date.isoformat(),
            "units": head.units, "fingerprint": checked.fingerprint,
        } | ({"stage": _stage(checked.reached)} if whole else {}),
    } | ({} if whole else {"described": _described(checked, writer)}) | {
        "rule_sets": [
            {"rule_set": one.id, "title": one.title, "edition": one.edition, "status": one.status,
             "jurisdiction": one.jurisdiction}
            for one in checked.rule_sets
        ],
        "tally": {outcome.value: count for outcome, count in checked.tally().items()},
        "findings": [
            finding_data(finding, writer, whole) | (entries[finding.key] if whole else {})
            for finding in checked.findings
        ],
        "limits": [limit_data(listed, writer) for listed in limits_relied_on(checked.findings)],
        "warnings": [str(warning) for warning in checked.warnings],
    } | ({} if whole else {"inputs": inputs_data(checked)})  # fmt: skip


def _described(checked: Checked, writer: Writer) -> dict[str, Any]:
    aside = {mark: counting_results(checked, mark).aside for mark in checked.project.test_sets}
    sets = test_set_texts(checked.project, checked.specimens, sets=checked.evidence.sets, writer=writer, aside=aside)
    return {
        "things": described_things(checked.project),
        "test_sets": [one.model_dump(exclude_defaults=True) for one in sets],
    }


def _stage(reached: ReachedStage) -> dict[str, str | None]:
    return {
        "judged": reached.stage.value,
        "stated": reached.stated and reached.stated.value,
        "because": reached.because or None,
    }


def _issue_entries(checked: Checked) -> dict[FindingKey, dict[str, Any]]:
    """Of each finding: when it is due, what stands for the line of the first screen that tells it, and the finding it
    is folded under."""
    found = answer(checked)
    causing = cause_of_each(found)
    return {
        key: {"stage": one.stage.value, "cause": causing.get(key), "folded_under": _named(found.under.get(key))}
        for one in checked.findings
        for key in (one.key,)
    }


def _named(finding: Finding | None) -> dict[str, str] | None:
    if finding is None:
        return None
    return {"rule_set": finding.rule_set, "rule": finding.rule, "subject": finding.subject}


def finding_data(finding: Finding, writer: Writer, whole: bool = True) -> dict[str, Any]:
    """One finding, with its worked steps as text where it is entries whole."""
    data = {
        "rule_set": finding.rule_set,
        "rule": finding.rule,
        "kind": finding.kind,
        "title": finding.title,
        "clause": finding.clause,
        "about": finding.about,
        "subject": finding.subject,
        "wall": finding.wall or None,
        "outcome": finding.outcome.value,
        "verdict": finding.verdict,
        "standing": finding.standing.value if finding.standing else None,
        "value": given_data(finding.value, writer),
        "relation": finding.relation or None,
        "limit": given_data(finding.limit, writer),
        "margin": finding.margin,
        "steps": [step.line(writer) for step in finding.steps] if whole else [],
        "say": finding.say if whole else "",
        "why": finding.reason.code,
        "reason_values": reason_data(finding.reason, writer),
        "beside": [{"why": one.code, **reason_data(one, writer)} for one in finding.beside],
        "reason": reason_text(finding, writer),
        "remedy": finding.remedy or None,
        "accepted": finding.accepted and accepted_data(finding.accepted),
        "missing": [{"kind": one.kind.value, "parts": list(one.parts), "file": one.file} for one in finding.missing],
        "at": {"file": finding.place.file, "line": finding.place.line},
    }
    return data if whole else {name: value for name, value in data.items() if value not in (None, [], "")}


def accepted_data(accepted: Accepted) -> dict[str, Any]:
    """What an official accepted of a finding; an empty text where there is no condition or no last day."""
    return {
        "official": accepted.official,
        "on": accepted.on,
        "document": accepted.document,
        "condition": accepted.condition,
        "until": accepted.until,
    }


def limit_data(listed: ListedLimit, writer: Writer) -> dict[str, Any]:
    """One limit that findings rest on, with what an amendment did to it."""
    limit, amended = listed.limit, listed.limit.amended
    return {
        "rule_set": limit.rule_set,
        "rule": limit.rule,
        "name": limit.name,
        "title": listed.title,
        "clause": limit.clause,
        "value": given_data(limit.value, writer),
        "standing": limit.standing.value,
        "source": limit.source,
        "amended": amended and amended_data(amended, writer),
        "shipped": given_data(limit.shipped, writer) if limit.history else None,
        "changes": [amended_data(one, writer) for one in limit.history],
    }


def amended_data(amended: Amended, writer: Writer) -> dict[str, Any]:
    """What one amendment did to a limit or to a cell of a table."""
    return {
        "before": given_data(amended.before, writer),
        "after": given_data(amended.after, writer),
        "by": amended.by,
        "on": amended.on,
        "where": amended.where,
        "standing": amended.standing,
        "authority": amended.authority,
        "reason": amended.reason,
        "cell": amended.cell,
    }


def as_csv(checked: Checked) -> str:
    """One row a finding. A cell that a spreadsheet would take for a formula gets a quote before it."""
    writer = Writer(checked.project.project.units)
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(CSV_COLUMNS)
    for finding in checked.findings:
        rows.writerow([harmless(cell) for cell in _cells(finding, writer)])
    return out.getvalue()


def _cells(finding: Finding, writer: Writer) -> list[str]:
    return [
        finding.about, finding.subject, finding.wall, finding.rule_set, finding.rule, finding.title, finding.clause,
        finding.outcome.value, finding.verdict, finding.standing.value if finding.standing else "",
        finding.value.written(writer) if finding.value else "", finding.relation,
        finding.limit.written(writer) if finding.limit else "",
        "" if finding.margin is None else f"{finding.margin:.6f}", reason_text(finding, writer), finding.remedy,
        "; ".join(missing_texts(finding)), finding.place.file, str(finding.place.line),
        finding.stage.value,
    ]  # fmt: skip


_FORMULA_STARTS = (
    "=",
    "+",
    "-",
    "@",
    "\t",
    "\r",
    "\n",
    "＝",
    "＋",
    "－",
    "＠",
)  # the last: taken for the first by some


def harmless(cell: str) -> str:
    """A quote before a cell that a spreadsheet would take for a formula."""
    is_number = cell.replace("-", "", 1).replace(".", "", 1).isdigit()
    return f"'{cell}" if cell.startswith(_FORMULA_STARTS) and not is_number else cell


def as_record(checked: Checked) -> FindingsRecord:
    """The project as it stands, to compare with what was issued."""
    return FindingsRecord.model_validate(as_data(checked, whole=False))
