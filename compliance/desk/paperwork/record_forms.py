"""Forms that record something: their fields as HTML, what was typed in them, and reading that."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import field
from datetime import date
from urllib.parse import parse_qs

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import page, problems_box
from compliance.desk.sent_forms import FormError
from compliance.editing.file_edits import EditRefusedError, Step
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.record import record

Fields = Mapping[str, Sequence[str]]
_MOST_FIELDS = 6_000
_MOST_TICKS = 30


@record
class Entry:
    """What a page with forms shows beside the check: what was `typed` and why it was refused, what the last entry did
    (`says`), who entered something last, and what stands behind the address."""

    typed: Fields = field(default_factory=dict)
    why: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    by: str = ""
    asked: Mapping[str, str] = field(default_factory=dict)

    def value(self, name: str, default: str = "") -> str:
        return self.typed[name][0] if self.typed.get(name) else default


@record
class Written:
    """What an entry did: a step of the history, None where no file of the project changed, what to say of it, and who
    made it."""

    step: Step | None
    says: tuple[str, ...] = ()
    by: str = ""


def record_page(
    title: str,
    here: str,
    snapshot: Snapshot,
    entry: Entry,
    read_lines: ReadLines,
    parts: Callable[[Checked], Iterable[Child]],
    scripts: Sequence[str] = (),
) -> bytes:
    """A page of forms that record something: its `parts` where the project reads, what keeps it from that otherwise."""
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", title), boxes(entry)]
    if snapshot.checked is not None and not snapshot.problems:
        children += parts(snapshot.checked)
    return page(title, snapshot, *children, here=here, scripts=scripts)


def read_fields(body: bytes) -> Fields:
    """Raises FormError."""
    try:
        return parse_qs(body.decode("ascii"), keep_blank_values=True, strict_parsing=True, max_num_fields=_MOST_FIELDS)
    except ValueError as error:
        raise FormError("this form cannot be read") from error


def text_of_field(fields: Fields, name: str, needed: str = "") -> str:
    """What was typed, blanks around it left out. Raises EditRefusedError with `needed` where nothing was."""
    found = fields.get(name, [""])[0].strip()
    if needed and not found:
        raise EditRefusedError(needed)
    return found


def day_of_field(fields: Fields, name: str, needed: str = "") -> date | None:
    """Raises EditRefusedError for what is no day, and with `needed` where nothing was typed."""
    text = text_of_field(fields, name, needed)
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise EditRefusedError(f"{text} is no day; write it as 2026-05-14") from None


def boxes(entry: Entry) -> Markup:
    """Why nothing was written, or what the last entry did."""
    refused = [
        tag("h2", "Nothing was saved"),
        *(tag("p", one) for one in entry.why),
        tag("p", "What you typed stands below.", class_="small"),
    ]
    done = [tag("h2", "Saved"), *(tag("p", one) for one in entry.says)]
    return joined([
        tag("section", *refused, class_="care", role="alert", data_typed="yes") if entry.why else None,
        tag("section", *done, class_="done", role="status") if entry.says and not entry.why else None,
    ])  # fmt: skip


def entry_form(action: str, do: str, *children: Child, button: str = "Save") -> Markup:
    """A form that enters records; `do` says which of those of its page."""
    return tag(
        "form",
        tag("input", type="hidden", name="do", value=do),
        *children,
        tag("p", tag("button", button, type="submit")),
        method="post",
        action=action,
        class_="fields",
    )


def text_field(
    name: str, label: str, entry: Entry, default: str = "", kind: str = "text", hint: str = "", known: str = ""
) -> Markup:
    """A line to type in. `known` is the id of a list of what was typed before; what a person calls oneself, the browser
    may know too."""
    more = {"list": known, "autocomplete": "name"} if known else {"autocomplete": "off"}
    value = tag("input", type=kind, name=name, id=name, value=entry.value(name, default), **more)
    return _row(name, label, value, hint)


def long_field(name: str, label: str, entry: Entry, hint: str = "") -> Markup:
    """A few lines to type in."""
    return _row(name, label, tag("textarea", entry.value(name), name=name, id=name, rows="2"), hint)


def choice_field(name: str, label: str, options: Sequence[tuple[str, str]], entry: Entry, default: str = "") -> Markup:
    """One of some values, each with its words."""
    chosen = entry.value(name, default)
    shown = [
        tag("option", words, value=value, **({"selected": "selected"} if value == chosen else {}))
        for value, words in options
    ]
    return _row(name, label, tag("select", *shown, name=name, id=name), "")


def _row(name: str, label: str, value: Markup, hint: str) -> Markup:
    says = tag("span", hint, class_="small") if hint else None
    return tag("div", tag("label", label, for_=name), value, says, class_="field")


def evidence_field(name: str, checked: Checked, entry: Entry) -> Markup:
    """The photos and papers of the project to choose among; many of them as a list."""
    attached = checked.project.attachments
    if not attached:
        return tag("p", "No photo or paper is attached to the project yet.", class_="small")
    chosen = set(entry.typed.get(name, ()))
    titles = {mark: f"{one.title} ({mark})" for mark, one in attached.items()}
    summary = tag("summary", "Evidence")
    opened = {"open": "open"} if chosen else {}
    if len(titles) > _MOST_TICKS:
        options = [
            tag("option", words, value=mark, **({"selected": "selected"} if mark in chosen else {}))
            for mark, words in titles.items()
        ]
        choice = tag("select", *options, name=name, multiple="multiple", size="8", aria_label="Evidence")
        return tag("details", summary, choice, **opened)
    ticks = [
        tag("label", tag("input", type="checkbox", name=name, value=mark,
            **({"checked": "checked"} if mark in chosen else {})), words, class_="tick")
        for mark, words in titles.items()
    ]  # fmt: skip
    return tag("details", summary, tag("fieldset", tag("legend", "Photos and papers"), *ticks), **opened)


def who_and_when(checked: Checked, entry: Entry, who: str, today: date) -> Markup:
    """Answered by, and on which day."""
    people = [
        one.name for name in type(checked.project.people).model_fields
        if (one := getattr(checked.project.people, name)) is not None
    ]  # fmt: skip
    known = dict.fromkeys([*people, *(one.by for one in checked.project.attestations)])
    return joined([
        text_field("by", who, entry, entry.by, known="people"),
        text_field("on", "Date", entry, today.isoformat(), kind="date"),
        tag("datalist", *(tag("option", value=one) for one in known), id="people"),
    ])  # fmt: skip
