"""The hand tests of a soil as choices, each word with what to look for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form
from compliance.facts.soil.field_tests import FieldTestPractice, HandTest, Meaning
from compliance.model.soil_tests import FieldTest
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.units import Writer

WAYS = (("correct", "correct what was recorded"), ("add", "record these as further tests"))


def hand_test_form(
    mark: str, tests: Sequence[FieldTest], practice: FieldTestPractice, snapshot: Snapshot, back: str
) -> Markup:
    """One choice for each test, with who and when below; what was recorded last is chosen."""
    last: dict[str, FieldTest] = {one.kind: one for one in tests}
    writer = Writer(snapshot.checked.project.project.units if snapshot.checked else "us")
    choices = [_choice(kind, test, last.get(kind), writer) for kind, test in practice.tests.items()]
    signed: list[Child] = [
        _line("by", "by", "text"),
        _line("on", "day", "date"),
    ]
    if tests:
        options = [tag("option", words, value=way) for way, words in WAYS]
        choose = tag("select", *options, name="way", id="hand-way")
        signed.append(tag("div", tag("label", "what was recorded before", for_="hand-way"), choose, class_="field"))
    return edit_form(
        tag("input", type="hidden", name="soil", value=mark),
        *choices,
        *signed,
        tag("button", "Save the hand tests", type="submit"),
        snapshot=snapshot,
        back=back,
        class_="fields",
        action="/earth/hand-tests",
    )


def _line(name: str, label: str, kind: str) -> Markup:
    key = f"hand-{name}"
    field = tag("input", type=kind, name=name, id=key, autocomplete="off", maxlength="400")
    return tag("div", tag("label", label, for_=key), field, class_="field")


def _choice(kind: str, test: HandTest, recorded: FieldTest | None, writer: Writer) -> Markup:
    reading = recorded.reading if recorded else ""
    rows = [_word(kind, word, meaning.means, word == reading) for word, meaning in test.words.items()]
    said = f"Recorded: {reading}" if reading else "Not tried yet"
    return tag(
        "fieldset",
        tag("legend", test.title),
        tag("p", test.how),
        tag("p", said, class_="small"),
        tag("div", *rows, class_="looks"),
        joined(_length(kind, test, "" if reading in test.words else reading, writer)) if test.ranges else None,
        class_="test",
    )


def _word(kind: str, word: str, means: str, is_chosen: bool) -> Markup:
    key = f"{kind}-{word}"
    chosen = {"checked": ""} if is_chosen else {}
    return tag(
        "label",
        tag("input", type="radio", name=f"word.{kind}", id=key, value=word, **chosen),
        tag("span", tag("b", word), " ", means),
        for_=key,
    )


def _length(kind: str, test: HandTest, value: str, writer: Writer) -> Iterator[Markup]:
    key = f"{kind}-length"
    field = tag(
        "input", type="text", name=f"length.{kind}", id=key, value=value, autocomplete="off", maxlength="40",
        placeholder="as 1 3/4 in, or 45 mm",
    )  # fmt: skip
    yield tag("div", tag("label", "or the length at which it broke", for_=key), field, class_="field")
    yield tag("ul", *(tag("li", _range(one, writer)) for one in test.ranges), class_="small")


def _range(one: Meaning, writer: Writer) -> str:
    return f"From {writer.write(one.start, 'thickness')}: {one.means}" if one.start else one.means
