"""Pages after a form was sent: a change that is tried, and why nothing was written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import change_form, edit_form
from compliance.desk.pages.frame import as_data, drawn, listed, page, section, subject_path
from compliance.desk.sent_forms import FormError, path_of_text
from compliance.editing.file_edits import ValueEdit
from compliance.editing.yaml_values import flow_text
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.problems import ProblemsFound
from compliance.remedies import Difference
from compliance.remedies.edited_project import text_at
from compliance.report.answer.answer import answer
from compliance.report.marks import mark_of
from compliance.report.value_words import counted
from compliance.report.words.answer_words import answer_sentence
from compliance.report.words.page_words import field_words


def trial_page(
    snapshot: Snapshot, then: Checked, differences: Sequence[Difference], edits: Sequence[ValueEdit], back: str,
    picture: str,
) -> bytes:  # fmt: skip
    """What would change, the answer and the plan as they would be, and the two ways on. No file is touched yet."""
    altered = [one for one in differences if one.altered or one.worse]
    same = len(differences) - len(altered)
    parts = difference_lists(altered)
    ways = tag(
        "div",
        change_form(
            ((one.path, _text(one.value)) for one in edits), "Keep", snapshot=snapshot, back=back, action="/edit"
        ),
        tag("a", "Leave", href=back, class_="button"),
        class_="ways",
    )
    sentence = (
        "" if then.project.is_earth_only else f"It would say: {answer_sentence(answer(then), len(then.findings))}"
    )
    says: list[Child] = [
        tag("h1", "What if"),
        listed(one.words for one in edits),
        tag("p", sentence, class_="sentence"),
        ways,
        *parts,
        tag("p", f"{counted(same, 'finding')} keep their outcome with other numbers." if same else "", class_="small"),
        tag("p", "No finding changes.") if not differences else None,
    ]
    drawing = tag("aside", tag("img", src=picture, alt="The plan as it would be"), aria_label="Plan")
    return page("What if", snapshot, tag("div", tag("div", *says), drawing, class_="beside"))


def difference_lists(altered: Sequence[Difference]) -> list[Markup]:
    """What gets worse, what gets better, and what changes otherwise; nothing for a list that is empty."""
    return [
        _differences("Gets worse", [one for one in altered if one.worse]),
        _differences("Gets better", [one for one in altered if one.better]),
        _differences("Changes otherwise", [one for one in altered if not one.worse and not one.better]),
    ]


def _text(value: object) -> str | None:
    return value if value is None or isinstance(value, str) else flow_text(value)


def _differences(title: str, some: Iterable[Difference]) -> Markup:
    rows = [joined(_difference(one)) for one in some]
    return section(f"{title} ({len(rows)})", listed(rows)) if rows else Markup("")


def _difference(one: Difference) -> list[Child]:
    known = one.after or one.before
    assert known is not None
    was = one.before.verdict if one.before else "not there"
    now = one.after.verdict if one.after else "not there"
    link = tag(
        "a", f"{known.subject}: {known.title}", href=subject_path(known.subject, f"{known.rule_set}/{known.rule}")
    )
    return [tag("p", drawn(mark_of(known)), link, f": {was}, then {now}")]


def refusal_page(
    snapshot: Snapshot, why: str, edits: Sequence[ValueEdit], back: str, again: Markup | None = None
) -> bytes:  # fmt: skip
    """Why nothing was written, and what was typed: in a form to correct it, `again` or one of the edits."""
    form = again or (_typed_again(snapshot, edits, back) if edits else None)
    says = [
        tag("h1", "Nothing was saved"),
        tag("p", why, class_="care", role="alert"),
        section("Correct what you typed", form) if form else None,
        tag("p", tag("a", "Go back", href=back, class_="button")),
    ]
    return page("Nothing was saved", snapshot, *says)


def _typed_again(snapshot: Snapshot, edits: Sequence[ValueEdit], back: str) -> Markup:
    """A row for each edit: what was typed, beside it what the files hold."""
    project = snapshot.checked.project if snapshot.checked else None
    rows = []
    for number, one in enumerate(edits):
        key, now = f"again-{number}", text_at(project, one.path) if project else ""
        text = _text(one.value) or ""
        rows.append(
            tag(
                "div",
                tag("label", field_words(one.path), for_=key),
                joined([
                    tag("input", type="text", name="value", id=key, value=text, autocomplete="off", data_typed="yes"),
                    tag("input", type="hidden", name="path", value=as_data(list(one.path))),
                    tag("input", type="hidden", name="was", value=now),
                ]),
                tag("span", f"The files hold: {now}" if now else "", class_="small"),
                class_="field",
            )
        )  # fmt: skip
    button = tag("button", "Save", type="submit")
    return edit_form(*rows, button, snapshot=snapshot, back=back, class_="fields")


_LONG = 80


def sent_again(snapshot: Snapshot, fields: Mapping[str, Sequence[str]], action: str, back: str) -> Markup:
    """A form as it was sent, to be corrected and sent once more. A field that stands beside the name of its place bears
    that name."""
    unseen = [(name, text) for name in fields for text in fields[name] if name in _UNSEEN]
    rows: list[Child] = [tag("input", type="hidden", name=name, value=text) for name, text in unseen]
    places = fields.get("field", fields.get("path", ()))
    for name in fields:
        for number, text in enumerate(fields[name]):
            if name in (*_UNSEEN, "seen", "back"):
                continue
            key = f"again-{name}-{number}"
            words = _placed(places[number]) if name == "value" and number < len(places) else name.replace("_", " ")
            shared = {"name": name, "id": key, "data_typed": "yes"}
            control = (
                tag("textarea", f"\n{text}", rows="3", **shared)
                if "\n" in text or len(text) > _LONG
                else tag("input", type="text", value=text, autocomplete="off", **shared)
            )
            rows.append(tag("div", tag("label", words, for_=key), control, class_="field"))
    return edit_form(
        *rows, tag("button", "Save", type="submit"), snapshot=snapshot, back=back, class_="fields", action=action
    )


_UNSEEN = ("holder", "field", "path", "was", "section", "soil", "do", "wall")
"""Fields of forms that nobody types in."""


def _placed(text: str) -> str:
    """The words of the place that stands beside a value."""
    try:
        return ": ".join(str(one).replace("_", " ") for one in path_of_text(text, shortest=1))
    except FormError:
        return "value"


def problems_words(found: ProblemsFound) -> str:
    """What is wrong and what to write instead; the place is the field that was typed in."""
    words = (f"{one.wrong} ({one.instead})" if one.instead else one.wrong for one in found.problems)
    return "; ".join(dict.fromkeys(words))
