"""The hold and witness points of the work, in its order, to be recorded by who looked at them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import drawn, listed, section, subject_path
from compliance.desk.paperwork.asked_people import Asked, asked_block
from compliance.desk.paperwork.point_photos import photo_field
from compliance.desk.paperwork.question_pages import answer_line
from compliance.desk.paperwork.record_forms import Entry, entry_form, record_page, who_and_when
from compliance.desk.uploads.held_uploads import HeldUploads
from compliance.desk.uploads.proof_uploads import ProofUpload
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.answer.questions_due import entry_name
from compliance.report.by_rule import by_rule
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.marks import mark_of
from compliance.report.value_words import counted
from compliance.report.words.missing_words import reason_text
from compliance.units import Writer

INSPECTIONS = "/inspections"


def points_asked(checked: Checked) -> list[Asked]:
    """Each point with the subjects that still have to be looked at, or looked at again."""
    found = site_points(by_rule(checked), checked.project.footings)
    return [_asked(checked, point) for point in found if point.to_look_at]


def _asked(checked: Checked, point: SitePoint) -> Asked:
    kind = "Hold point: work stops until it passes." if point.is_hold else "Witness point."
    again = [one.subject for one in point.to_look_at if one in point.recorded]
    remarks = [kind, f"Record: {point.record_text}."]
    remarks += [f"To be inspected again: {', '.join(again)}."] if again else []
    return Asked(
        "inspections", point.key, name=entry_name(checked, point.rule),
        title=f"{point.stage}: {point.group.first.title} ({point.group.first.clause})", asks=point.looked_at.look_at,
        remarks=tuple(remarks), subjects=tuple(dict.fromkeys(one.subject for one in point.to_look_at)),
    )  # fmt: skip


def inspection_page(
    snapshot: Snapshot, entry: Entry, held: HeldUploads[ProofUpload], read_lines: ReadLines, today: date
) -> bytes:
    """The whole page; `held` are photos that are not kept yet."""
    return record_page(
        "Inspections", here=INSPECTIONS, snapshot=snapshot, entry=entry, read_lines=read_lines,
        parts=lambda checked: _parts(checked, entry, held, today), scripts=("shots.js",),
    )  # fmt: skip


def _parts(checked: Checked, entry: Entry, held: HeldUploads[ProofUpload], today: date) -> Iterator[Child]:
    asked = points_asked(checked)
    yield tag("p", f"{counted(len(asked), 'point')} to be inspected, in the order of the work.")
    if asked:
        blocks = [asked_block(one, checked, entry, photo_field(one, entry, held)) for one in asked]
        who = who_and_when(checked, entry, "Inspected by", today)
        yield entry_form(INSPECTIONS, "inspect", who, *blocks, button="Save the records")
    writer = Writer(checked.project.project.units)
    passed = [one for point in site_points(by_rule(checked), checked.project.footings) for one in point.passed]
    if passed:
        yield section(
            "Passed",
            listed(_line(drawn(mark_of(one)), one.subject, one.title, reason_text(one, writer)) for one in passed),
        )
    if given := checked.project.inspections:
        lines = listed(answer_line(checked, one, "passed" if one.passed else "not passed") for one in given)
        yield tag("details", tag("summary", counted(len(given), "record")), lines)


def _line(mark: Markup, subject: str, title: str, says: str) -> Markup:
    first = tag("p", mark, tag("a", subject, href=subject_path(subject)), f": {title}")
    return joined([first, tag("p", says, class_="small")])
