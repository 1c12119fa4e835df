"""Papers to make and those that are there, the revision, what was issued, and comments of the official."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import as_data, listed, page, problems_box, section
from compliance.desk.paperwork.paper_files import PaperFile
from compliance.desk.paperwork.paper_kinds import ISSUE, KINDS
from compliance.desk.paperwork.paper_worker import PaperJob
from compliance.desk.paperwork.record_forms import Entry, boxes, entry_form, long_field, text_field
from compliance.model.issued import IssuedRecord
from compliance.model.people import OfficialComment
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.files.write_targets import PAPERS_FOLDER
from compliance.output.terminal.problem_text import ReadLines
from compliance.record import record
from compliance.report.value_words import counted

PAPERS = "/papers"
_THERE = "Papers made so far"


@record
class PaperDesk:
    """What the page shows beside the check: papers asked for, files there, revisions issued, or why these cannot be
    read."""

    jobs: Sequence[PaperJob]
    files: Sequence[PaperFile]
    issued: Sequence[IssuedRecord] = ()
    problem: str = ""


def paper_page(snapshot: Snapshot, entry: Entry, there: PaperDesk, read_lines: ReadLines, today: date) -> bytes:
    """The whole page."""
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Papers"), boxes(entry)]
    if snapshot.is_for_phone:
        return page("Papers", snapshot, *children, _there(there.files), here=PAPERS)
    children += [_jobs(there.jobs), _there(there.files), _to_make()]
    checked = snapshot.checked
    if checked is not None and not snapshot.problems:
        children += [_revision(snapshot, checked, entry, there=there, today=today), _comments(snapshot, checked, entry)]
    return page("Papers", snapshot, *children, here=PAPERS)


def _jobs(jobs: Sequence[PaperJob]) -> Markup:
    if not jobs:
        return Markup("")
    return section("Requested", listed(joined(_job(one)) for one in jobs))


def _job(one: PaperJob) -> Iterator[Child]:
    if not one.is_done:
        yield tag("p", f"{one.kind.title}: being made")
    elif one.why:
        yield tag("p", f"{one.kind.title}: not made")
        yield tag("p", one.why, class_="small")
    else:
        yield tag("p", f"{one.kind.title}: made")
        yield tag("p", *(_link(name.partition("/")[2]) for name in one.files))


def _there(files: Sequence[PaperFile]) -> Markup:
    if not files:
        return section(_THERE, tag("p", f"None yet. They are saved in the folder {PAPERS_FOLDER} of the project."))
    rows = []
    for one in files:
        age = f"{one.changed_since} changed since: make it again" if one.changed_since else "no file changed since"
        made = f"made {one.made:%Y-%m-%d %H:%M}, {max(1, one.size // 1000)} kB; {age}"
        rows.append(joined([tag("p", _link(one.name)), tag("p", made, class_="small")]))
    return section(_THERE, listed(rows))


def _link(name: str) -> Markup:
    return joined([tag("a", name, href=f"/out/{quote(name)}", target="_blank", rel="noopener"), " "])


def _to_make() -> Markup:
    rows = []
    for one in KINDS:
        button = tag("button", f"Make: {one.title}", type="submit", name="what", value=one.what)
        rows.append(joined([button, " ", one.says]))
    form = tag("form", tag("input", type="hidden", name="do", value="make"), listed(rows), method="post", action=PAPERS)
    return section("Make a paper", form)


def _revision(snapshot: Snapshot, checked: Checked, entry: Entry, there: PaperDesk, today: date) -> Markup:
    head = checked.project.project
    children: list[Child] = [tag("p", f"The project is at revision {head.revision}, dated {head.date.isoformat()}.")]
    if there.problem:
        children.append(tag("p", there.problem, class_="care"))
    if there.issued:
        rows = [_issued(one) for one in there.issued]
        children.append(listed(rows))
    else:
        children.append(tag("p", "Nothing was issued yet."))
    again = tag("label", tag("input", type="checkbox", name="reissue", value="yes"),
                "Replace the record of this revision where its input has changed", class_="tick")  # fmt: skip
    issue = tag("input", type="hidden", name="what", value=ISSUE.what)
    children.append(entry_form(PAPERS, "make", issue, again, button=f"Issue revision {head.revision}"))
    next_one = [
        _seen(snapshot),
        text_field("revision", "The next revision", entry),
        text_field("dated", "Its date", entry, today.isoformat(), kind="date"),
    ]
    children.append(entry_form(PAPERS, "revise", *next_one, button="Start this revision"))
    return section("Revision", *children)


def _issued(one: IssuedRecord) -> Markup:
    head = one.project
    since = f"{PAPERS}/changes?since={quote(head.revision, safe='')}"
    return joined([f"{head.revision}, issued {head.date} ", tag("a", "what has changed since", href=since)])


def _seen(snapshot: Snapshot) -> Markup:
    return tag("input", type="hidden", name="seen", value=as_data(dict(snapshot.digests)))


def _comments(snapshot: Snapshot, checked: Checked, entry: Entry) -> Markup:
    comments = checked.project.comments
    open_ones = sum(one.answer is None for one in comments)
    children: list[Child] = [tag("p", f"{counted(len(comments), 'comment')}, {open_ones} without an answer.")]
    children += [_comment(snapshot, number, one, entry) for number, one in enumerate(comments)]
    fields = [
        _seen(snapshot),
        long_field("comment", "Comment", entry),
        text_field("comment-by", "From", entry),
        text_field("comment-on", "Date", entry, kind="date"),
    ]
    children.append(entry_form(PAPERS, "comment", *fields, button="Add the comment"))
    return section("Comments from the official", *children)


def _comment(snapshot: Snapshot, number: int, one: OfficialComment, entry: Entry) -> Markup:
    head = ", ".join(text for text in (one.by or "", one.on.isoformat() if one.on else "") if text)
    says: list[Child] = [tag("p", one.comment), tag("p", head, class_="small") if head else None]
    if one.answer:
        met = f" ({one.met_in})" if one.met_in else ""
        says.append(tag("p", tag("b", "Answer: "), f"{one.answer}{met}"))
        return tag("div", *says, class_="asked")
    fields = [
        _seen(snapshot),
        tag("input", type="hidden", name="number", value=str(number)),
        long_field(f"answer:{number}", "Answer", entry),
        text_field(f"met-in:{number}", "Where it is addressed", entry, hint="such as a wall or a sheet"),
    ]
    return tag("div", *says, entry_form(PAPERS, "reply", *fields, button="Save the answer"), class_="asked")
