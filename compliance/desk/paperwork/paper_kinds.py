"""The papers that can be made on the desk, each by the function that its command calls."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.issuing import Issue, keep, plan_issue
from compliance.files.safe_paths import inside
from compliance.output.files.paper_folder import allow_folder, write_folder
from compliance.output.files.write_targets import PAPERS_FOLDER, allow_target, paper_name
from compliance.reading.attached_files import place_of_attachment, read_attached_files
from compliance.record import record
from compliance.stages import Stage


class PaperError(ValueError):
    """Why a paper cannot be made; the message says what to do instead."""


@record
class PaperKind:
    """`what` is how its file is named after the project. A kind without `write` is the submittal, a folder of parts."""

    what: str
    title: str
    says: str
    write: Callable[[Checked, Path], None] | None = None
    at_least: Stage = Stage.APPLICATION
    needs_walls: bool = True
    suffix: str = ".pdf"


def _brief(checked: Checked, path: Path) -> None:
    from compliance.documents.brief.engineer_brief import write_brief

    write_brief(checked, path, ())


def _site_cards(checked: Checked, path: Path) -> None:
    from compliance.documents.inspection.site_cards import write_site_cards

    write_site_cards(checked, path)


def _counter_sheet(checked: Checked, path: Path) -> None:
    from compliance.documents.counter.counter_sheet import write_counter_sheet
    from compliance.reading.reference_files.counter_reference import read_counter_questions

    write_counter_sheet(checked, read_counter_questions(), path)


def _worksheet(checked: Checked, path: Path) -> None:
    from compliance.documents.counter.limits_worksheet import write_worksheet

    write_worksheet(checked, path)


def _lab_request(checked: Checked, path: Path) -> None:
    from compliance.documents.lab_request.request import write_lab_request

    write_lab_request(checked, path)


def _field_sheets(checked: Checked, path: Path) -> None:
    from compliance.documents.sheets.field_sheets import write_field_sheets

    write_field_sheets(checked, path)


def _earth_report(checked: Checked, path: Path) -> None:
    from compliance.documents.earth.earth_report import write_earth_report

    write_earth_report(checked, path)


def _plan(checked: Checked, path: Path) -> None:
    from compliance.documents.lone_drawings.lone_drawing import write_lone_drawing

    if not checked.facts.views:
        raise PaperError("no wall has a place in the plan: write its run")
    write_lone_drawing(checked, "plan", "", path)


def _checklist(checked: Checked, path: Path) -> None:
    from compliance.output.checklist.checklist_files import write_checklist

    write_checklist(checked, path, path.suffix.removeprefix("."))


DRAFT = PaperKind("draft", "Submittal, draft", "Papers, drawings and calculations, marked as a draft on every page.")
ISSUE = PaperKind("issue", "Submittal, issued", "Papers, drawings and calculations of one revision, kept as issued.")
KINDS: tuple[PaperKind, ...] = (
    DRAFT,
    PaperKind("brief", "Engineer's brief", "Each wall that a rule leaves to an engineer.", _brief),
    PaperKind(
        "counter-sheet", "Counter sheet", "Questions to the building official, and limits to read.", _counter_sheet
    ),
    PaperKind(
        "worksheet",
        "Worksheet of limits",
        "To fill in where the adopted code lies open.",
        _worksheet,
        needs_walls=False,
    ),
    PaperKind("site-cards", "Inspection cards", "One for each point that has to be looked at.", _site_cards),
    PaperKind(
        "lab-request",
        "Request to the laboratory",
        "Specimens, tests asked for, labels.",
        _lab_request,
        needs_walls=False,
    ),
    PaperKind(
        "field-sheets",
        "Field sheets",
        "Blank records for a workday.",
        _field_sheets,
        at_least=Stage.EARTH,
        needs_walls=False,
    ),
    PaperKind(
        "soils-and-mixes",
        "Soils and mixes",
        "Soils, trial bricks, mixes and tests with their plots.",
        _earth_report,
        at_least=Stage.EARTH,
        needs_walls=False,
    ),
    PaperKind("plan", "Plan alone", "The plan on one sheet.", _plan, at_least=Stage.EARTH),
    PaperKind(
        "checklist",
        "Checklist",
        "A workbook with a row for each finding.",
        _checklist,
        needs_walls=False,
        suffix=".xlsx",
    ),
)
BY_NAME: Mapping[str, PaperKind] = {one.what: one for one in (*KINDS, ISSUE)}


def make_paper(folder: Path, kind: PaperKind, reissue: bool = False) -> tuple[str, ...]:
    """Writes it and gives what was written, by path in the folder. Raises ProblemsFound, PaperError, RefusedError,
    IssueError, TargetError, DocumentError or OSError; nothing is written then."""
    checked = check_folder(folder, at_least=kind.at_least)
    if kind.needs_walls and checked.project.is_earth_only:
        raise PaperError("no walls are described, so there is no building for this paper")
    if kind.write is None:
        return _submittal(folder, checked, draft=kind is DRAFT, reissue=reissue)
    name = f"{PAPERS_FOLDER}/{paper_name(folder, kind.what)}{kind.suffix}"
    target = inside(folder, name)
    target.parent.mkdir(exist_ok=True)
    allow_target(target, inputs=checked.inputs)
    kind.write(checked, target)
    return (name,)


def _submittal(folder: Path, checked: Checked, draft: bool, reissue: bool) -> tuple[str, ...]:
    from compliance.documents.attachments.bound_files import bind_attachments
    from compliance.documents.submittal.bundle import build_parts

    bound = bind_attachments(read_attached_files(folder, checked.project), partial(place_of_attachment, folder))
    issue: Issue = plan_issue(folder, checked, draft, reissue)
    what = f"submittal-{checked.project.project.revision}" + ("-draft" if draft else "")
    name = f"{PAPERS_FOLDER}/{paper_name(folder, what)}"
    target = inside(folder, name)
    target.parent.mkdir(exist_ok=True)
    allow_folder(target, inputs=checked.inputs)
    parts = build_parts(checked, previous=issue.previous, draft=draft, bound=bound)
    files = {f"{part}.pdf": data for part, data in parts.items()}
    write_folder(target, files, inputs=checked.inputs)
    keep(issue)
    return tuple(f"{name}/{one}" for one in files)
