"""Parts that can be opened one by one: a form for each that is there, and one for a new one."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form
from compliance.desk.pages.frame import as_data, page, problems_box, section
from compliance.desk.plan.part_forms import (
    OF_THE_BUILDING,
    PartKind,
    add_form,
    change_fields,
    remove_form,
)
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.remedies.edited_project import value_at

PARTS_PATH = "/parts"


def parts_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """What walls share, stand on and carry: types, footings, stem walls, bond beams, roofs."""
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Parts of the building")]
    checked = snapshot.checked
    if checked is not None and not snapshot.problems:
        for kind in OF_THE_BUILDING:
            children.append(section(f"{kind.word[:1].upper()}{kind.word[1:]}", *_of_kind(checked, snapshot, kind)))
    return page("Parts", snapshot, *children, here=PARTS_PATH)


def _of_kind(checked: Checked, snapshot: Snapshot, kind: PartKind) -> Iterator[Markup]:
    yield from part_folds(checked, snapshot, kind, PARTS_PATH)
    if kind.holder == ("roofs",):
        for name in checked.project.roofs:
            beams = PartKind(("roofs", name, "beams"), f"beam of roof {name}", "RB")
            yield _bearing(checked, snapshot, name)
            yield from part_folds(checked, snapshot, beams, PARTS_PATH)


def part_folds(checked: Checked, snapshot: Snapshot, kind: PartKind, back: str, like: str = "") -> Iterator[Markup]:
    """Of the parts of one kind. `like` names a part, as "openings-N4", after which the form of a new one is filled
    in."""
    known = value_at(checked.project, kind.holder) or {}
    of, _, pattern = like.partition("-")
    pattern = pattern if of == kind.holder[-1] and pattern in known else ""
    stem = f"add-{'-'.join(map(str, kind.holder))}"
    for name, one in known.items():
        path = (*kind.holder, name)
        if any(getattr(one, field) != text for field, text in kind.fixed):
            continue
        content = joined([
            change_fields(checked, snapshot, path, back),
            remove_form(snapshot, path, f"Take {name} away", back),
            _one_more(back, kind, name, stem),
        ])  # fmt: skip
        title = f"{kind.word[:1].upper()}{kind.word[1:]} {name}"
        yield fold(title, content, f"{kind.holder[-1]}-{name}")
    title = f"Add a{'n' if kind.word[0] in 'aeiou' else ''} {kind.word}"
    form = add_form(checked, snapshot, kind, back, like=pattern)
    yield fold(f"{title} like {pattern}" if pattern else title, form, stem, is_open=bool(pattern))


def _one_more(back: str, kind: PartKind, name: str, stem: str) -> Markup | None:
    """The way to the form for one more along the wall, filled in as this one."""
    if back == PARTS_PATH:
        return None
    address = f"{back}&like={kind.holder[-1]}-{quote(name, safe='')}#{stem}"
    return tag("p", tag("a", f"One more like {name}", href=address))


def _bearing(checked: Checked, snapshot: Snapshot, roof: str) -> Markup:
    """One more wall that a roof bears on."""
    count, key = len(checked.project.roofs[roof].bears_on), f"bearing-{roof}"
    walls = checked.project.walls
    options = [tag("option", "", value=""), *(tag("option", mark, value=f"{{wall: {mark}}}") for mark in walls)]
    form = edit_form(
        tag("div", tag("label", f"Roof {roof} bears on one more wall", for_=key),
            tag("select", *options, name="value", id=key, required=""),
            tag("input", type="hidden", name="path", value=as_data(["roofs", roof, "bears_on", count])),
            class_="field"),
        tag("button", "Add the bearing", type="submit"), snapshot=snapshot, back=PARTS_PATH, class_="fields",
    )  # fmt: skip
    return fold(f"Bearings of roof {roof}", form, f"bearings-{roof}")


def fold(title: str, content: Markup, key: str, is_open: bool = False) -> Markup:
    """A part that is closed until it is asked for."""
    return tag("details", tag("summary", title), content, id=key, **({"open": ""} if is_open else {}))
