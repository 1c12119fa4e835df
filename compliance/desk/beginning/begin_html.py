"""The page that begins a project: what it is and where, then the sizes of its shape."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.desk.beginning.begun_project import FORM_SHAPES
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import page
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.start.interview.interview_question import Question

_FIRST = ("name", "place", "rule_sets", "units")
"""Asked before the shape; all else is asked with its sizes."""
SHAPE = "shape"
_SEVERAL = ("roof_walls",)
"""Answered by several words of a list."""
_LABELS = {
    "rule_sets": "Material of the walls and where they stand: the rule sets",
    "length": "Length of the building, outside to outside",
    "mix": "Mix of the walls, in parts by loose volume, if known",
    "roof": "Roof: its kind and clear span, if known",
    "roof_walls": "Walls that the roof bears on, separated by commas, if known",
    "point_loads": "Point loads of beams or posts: the wall, where, and dead, live and snow load",
    "outer.method": "Type of the outer walls in the code's table, if decided",
    "site.soil_group": "Soil under the footings, if known",
}


def first_page(snapshot: Snapshot, questions: Sequence[Question], given: Mapping[str, str], shape: str) -> bytes:
    """What it is called, where it stands, what it is built of, its shape."""
    rows = [_row(one, given, ()) for one in questions if one.key in _FIRST]
    options = [tag("option", says, value=word, **_chosen(word == shape)) for word, says in FORM_SHAPES.items()]
    rows.append(_field(SHAPE, "Shape of the building", tag("select", *options, name=SHAPE, id=SHAPE), ()))
    form = tag("form", *rows, tag("button", "Continue to its sizes", type="submit"), method="get", action="/begin")
    return _page(snapshot, tag("h1", "Begin a project"), form)


def sizes_page(
    snapshot: Snapshot, questions: Sequence[Question], given: Mapping[str, str], shape: str,
    wrong: Mapping[str, Sequence[str]],
) -> bytes:  # fmt: skip
    """The sizes of the shape, the section of the walls, what is known of earth and roof. What was answered before goes
    along unseen, but for what is wrong there. `wrong` is by the key of a question."""
    own: list[Child] = [_row(one, given, wrong.get(one.key, ())) for one in questions if _is_shown(one.key, wrong)]
    unseen = [_unseen(one.key, given.get(one.key, "")) for one in questions if not _is_shown(one.key, wrong)]
    law = [tag("p", one.note, class_="small") for one in questions if one.key == "rule_sets" and one.note]
    general = [tag("p", words) for words in wrong.get("", ())]
    box = tag("div", tag("h2", "Nothing was saved yet"), *general, class_="care", role="alert") if wrong else None
    form = tag(
        "form",
        _unseen(SHAPE, shape),
        *unseen,
        *own,
        tag("button", "Begin the project", type="submit"),
        method="post",
        action="/begin",
    )
    says = (
        f"It is {FORM_SHAPES[shape]}. Sizes run from outside to outside, north is up. Everything can be changed later."
    )
    back = tag("p", tag("a", "Another shape", href="/begin", class_="button"))
    return _page(snapshot, tag("h1", f"Begin a project: {shape}"), tag("p", says), *law, box, form, back)


def _page(snapshot: Snapshot, *children: Child) -> bytes:
    return page("Begin a project", snapshot, *children, here="/begin")


def _is_shown(key: str, wrong: Mapping[str, Sequence[str]]) -> bool:
    return key not in _FIRST or key in wrong


def _row(question: Question, given: Mapping[str, str], wrong: Sequence[str]) -> Markup:
    key, text = question.key, given.get(question.key, "") or question.default
    shared = {"name": key, "id": f"answer-{key}"}
    if wrong:
        shared |= {"aria_invalid": "true", "aria_describedby": f"wrong-{key}"}
    if question.choices and key not in _SEVERAL:
        blank = [] if question.default else [tag("option", "", value="")]
        needed = {"required": ""} if question.required else {}
        options = blank + [
            tag("option", _choice(key, word, says), value=word, **_chosen(word == text))
            for word, says in question.choices
        ]
        control = tag("select", *options, **shared, **needed)
    else:
        marks = ", ".join(word for word, _ in question.choices)
        hint = f"some of {marks}" if marks else f"as {question.example}" if question.example else ""
        needed = {"required": ""} if question.required else {}
        control = tag("input", type="text", value=text, placeholder=hint, autocomplete="off", **shared, **needed)
        named = ", ".join(f"{word} {says}" for word, says in question.choices if says)
        control = joined([control, tag("span", named, class_="small") if named else None])
    return _field(key, _LABELS.get(key, question.asks), control, wrong)


def _choice(key: str, word: str, says: str) -> str:
    """A choice in words; with its symbol where that is one of the code or of the trade."""
    if not says:
        return word
    return says if key in _FIRST else f"{word}: {says}"


def _field(key: str, label: str, control: Markup, wrong: Sequence[str]) -> Markup:
    at = key if key == SHAPE else f"answer-{key}"
    says = tag("p", "; ".join(wrong), class_="what", id=f"wrong-{key}") if wrong else None
    return tag("div", tag("label", label, for_=at), joined([control, says]), class_="field")


def _chosen(is_chosen: bool) -> dict[str, str]:
    return {"selected": ""} if is_chosen else {}


def _unseen(name: str, value: str) -> Markup:
    return tag("input", type="hidden", name=name, value=value)
