"""The sets of specimens with their results, the tables they were read from, and the ways to bring in another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from compliance.checked import Checked
from compliance.desk.guard import PASTED
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import add_form, record_form
from compliance.desk.pages.earth.soil_html import earth_path
from compliance.desk.pages.field_forms import choice_field, edit_form
from compliance.desk.pages.frame import listed, page, problems_box, section
from compliance.desk.uploads.lab_uploads import TAKEN
from compliance.model.lab_columns import COLUMNS
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.earth.casting_words import KINDS, casting_steps, set_line
from compliance.report.value_words import counted

TESTS = "/tests"
SET_FIELDS = ("kind", "mix", "title", "made_by", "tested_by")
_HOW = (
    "Copy the whole table from the spreadsheet or the laboratory's file, letterhead and all, and paste it here. Its "
    "headings are matched with columns on the next page, and the result is shown before anything is written."
)
_DROP = f"Or choose a file, or drop it here: {', '.join(TAKEN)}. It is kept as it came."


def tests_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """The whole page."""
    checked = snapshot.checked
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Tests")]
    if checked is not None:
        children += [_sets(checked, snapshot), _tables(checked)]
        if not snapshot.problems:
            children.append(_taking_in(snapshot))
    return page("Tests", snapshot, *children, here=TESTS, scripts=("drop.js",))


def _sets(checked: Checked, snapshot: Snapshot) -> Markup:
    rows = [joined(_set(checked, mark, snapshot)) for mark in checked.project.test_sets]
    steps = [step.says for step in casting_steps(checked)]
    add = add_form("test_sets", SET_FIELDS, snapshot=snapshot, back=TESTS, label="Add the set")
    can_add = checked.project.mixes and not snapshot.problems
    return section(
        "Sets of specimens",
        listed(rows) if rows else tag("p", "No set of specimens is described yet."),
        *([tag("h3", "Next"), listed(steps)] if steps else []),
        tag("details", tag("summary", "Add a set"), add) if can_add else None,
        tag("p", "Name a mix first: a set belongs to one.") if not checked.project.mixes else None,
    )


def _set(checked: Checked, mark: str, snapshot: Snapshot) -> Iterator[Child]:
    test = checked.project.test_sets[mark]
    yield tag("p", set_line(checked, mark), class_="what")
    walls = [name for name, wall in checked.project.walls.items() if wall.mix == test.mix]
    of_walls = f"; used in walls {', '.join(walls)}" if walls else "; used in no wall yet"
    yield tag("p", "Mix ", tag("a", test.mix, href=earth_path("mixes", test.mix)), of_walls, class_="small")
    if not snapshot.problems:
        form = record_form(("test_sets", mark), test, snapshot, TESTS)
        yield tag("details", tag("summary", f"What is recorded of {mark}"), form)


def _tables(checked: Checked) -> Markup:
    counts = Counter(one.place.file for rows in checked.specimens.values() for one in rows)
    described = {table.file: kind for kind in COLUMNS for _, table in checked.project.lab.tables_of(kind)}
    rows = []
    for file, count in sorted(counts.items()):
        how = f"headings of the laboratory, {KINDS[described[file]]}" if file in described else "our own headings"
        rows.append(f"{file}: {counted(count, 'specimen')}, {how}")
    return section("Tables they are read from", listed(rows)) if rows else Markup("")


def kind_choice(key: str, kind: str) -> Markup:
    """Which kind of test a table holds."""
    return choice_field(list(KINDS.items()), key, "kind", kind, required="")


def _taking_in(snapshot: Snapshot) -> Markup:
    named = tag("input", name="name", id="paste-name", maxlength="80", autocomplete="off", placeholder="as report 31")
    area = tag("textarea", name="table", id="paste-table", rows="8", spellcheck="false", required="")
    form = edit_form(
        tag("p", _HOW, class_="small"),
        tag("div", tag("label", "kind of test", for_="paste-kind"), kind_choice("paste-kind", ""), class_="field"),
        tag("div", tag("label", "name of the table", for_="paste-name"), named, class_="field"),
        tag("label", "the table", for_="paste-table"),
        area,
        tag("button", "Match its headings", type="submit"),
        snapshot=snapshot,
        back=TESTS,
        class_="fields",
        action=PASTED,
    )
    return section("Add a lab table", form, drop_field("/tests/drop/", ",".join(TAKEN), _DROP))


def drop_field(address: str, kinds: str, says: str, **more: str) -> Markup:
    """A field for files that are sent to `address` with their name at its end, which the script of the page does."""
    return tag(
        "div",
        tag("label", says, for_="drop-file"),
        tag("input", type="file", id="drop-file", accept=kinds, **more),
        tag("p", "", class_="care", id="drop-said", role="alert", hidden=""),
        class_="drop",
        data_address=address,
    )
