"""Edits of YAML by place: what reads afterwards is what was wanted, and no other line changes."""

from __future__ import annotations

import contextlib
import difflib
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from compliance.editing.yaml_splice import SpliceError, removed, spliced
from compliance.editing.yaml_values import alike, applied, flow_text, plain_copy
from compliance.problems import ProblemsFound
from compliance.reading.yaml.strict_yaml import parse_yaml
from tests.conftest import ROOT
from tests.tries import tries

MOST = 9_000
"""Bytes of a file that is tried: each is read three times for an edit."""
FORM = """\
## A note.
project:
  name: A  # the name
  # stories: 1                       # stories above grade
  # use: dwelling

# site:
#   wind_speed: 110 mph              # from the building official
#   frost_depth: 18 in

walls:
  W1: {run: {from: [0 ft, 0 ft], to: [9 ft, 0 ft]}, note: one}
    # openings: {N1: {start: 3 ft}}

  # Between the walls.
  W2:
    thickness: 12 in   # as drawn
    # height: 8 ft     # to the plate
answers:
- {rule: a}
- rule: b
  by: C
soils:
"""


@cache
def texts() -> tuple[tuple[str, str], ...]:
    """Every YAML file of the checkout that is not very long, as text."""
    found = []
    for path in sorted(ROOT.rglob("*.yaml")):
        if ".git" not in path.parts and path.stat().st_size <= MOST:
            with contextlib.suppress(UnicodeDecodeError):
                found.append((path.relative_to(ROOT).as_posix(), path.read_bytes().decode("utf-8")))
    return tuple(found)


@cache
def tree_of(text: str) -> Any:
    """What it holds; nothing where it does not read, as some here are meant not to."""
    try:
        return plain_copy(parse_yaml(text, "text"))
    except ProblemsFound:
        return {}


def leaves(tree: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(tree, dict | list):
        for part, inner in tree.items() if isinstance(tree, dict) else enumerate(tree):
            yield from leaves(inner, (*path, part))
    elif path:
        yield path


VALUES = st.one_of(
    st.sampled_from(
        ["12 in", "yes", "8'-6\"", "a, b", "x: y", "# no", "", "2026-02-30", "07", "null", "-", "{a}", "ä"]
    ),
    st.text(alphabet=st.characters(min_codepoint=32, max_codepoint=0x24F, exclude_categories=["Cc"]), max_size=12),
    st.integers(-99, 99),
    st.booleans(),
    st.floats(-1e6, 1e6, allow_nan=False),
)
FORMS = st.sampled_from(["", "\ufeff"]), st.sampled_from(["\n", "\r\n"])


def drawn_leaf(data: st.DataObject, mark: str, end: str) -> tuple[Any, Any, str]:
    """A file as a tree, the path of a value in it, and its text with this mark before it and these ends of lines."""
    _, text = data.draw(st.sampled_from(texts()))
    tree = tree_of(text)
    paths = list(leaves(tree))
    assume(paths)
    return tree, data.draw(st.sampled_from(paths)), mark + text.replace("\n", end)


@settings(max_examples=tries(60))
@given(data=st.data(), mark=FORMS[0], end=FORMS[1], value=VALUES)
def test_a_changed_value_reads_as_wanted_and_changes_its_own_lines_alone(
    data: st.DataObject, mark: str, end: str, value: Any
) -> None:
    tree, path, given_text = drawn_leaf(data, mark, end)
    try:
        after = spliced(given_text, path, value)
    except SpliceError:
        return
    assert after.startswith(mark) and alike(plain_copy(parse_yaml(after, "after")), applied(tree, path, value))
    before_lines, after_lines = given_text.split("\n"), after.split("\n")
    same = difflib.SequenceMatcher(None, before_lines, after_lines, autojunk=False).get_opcodes()
    changed = [one for one in same if one[0] != "equal"]
    assert len(changed) <= 1, changed
    assert end == "\n" or after.count("\n") == after.count("\r\n")


@settings(max_examples=tries(60))
@given(data=st.data(), mark=FORMS[0], end=FORMS[1], value=VALUES)
def test_what_is_added_or_taken_away_reads_as_wanted(data: st.DataObject, mark: str, end: str, value: Any) -> None:
    tree, path, given_text = drawn_leaf(data, mark, end)
    inner = tree
    for part in path[:-1]:
        inner = inner[part]
    new = (*path[:-1], len(inner) if isinstance(inner, list) else "own_key")
    try:
        after = spliced(given_text, new, value)
        assert alike(plain_copy(parse_yaml(after, "after")), applied(tree, new, value))
        assert comments(given_text) <= comments(after)
    except SpliceError:
        pass
    try:
        shorter = removed(given_text, path)
    except SpliceError:
        return
    assert alike(plain_copy(parse_yaml(shorter, "after")), applied(tree, path, None))


def comments(text: str) -> set[str]:
    return {line.strip() for line in text.splitlines() if line.lstrip().startswith("#")}


def test_nearly_everything_of_the_project_files_can_be_changed_and_added_to() -> None:
    """Refusing is not the way out: of the example's files hardly anything is refused."""
    refused = tried = 0
    for name, text in texts():
        if not name.startswith("example_project/"):
            continue
        for path in list(leaves(tree_of(text)))[::9]:
            tried += 1
            try:
                spliced(text, path, "12 in")
            except SpliceError:
                refused += 1
    assert tried > 60 and refused == 0


@pytest.mark.parametrize(
    ("path", "value", "was", "now"),
    [
        (("project", "name"), "B: c", "  name: A  # the name", '  name: "B: c"  # the name'),
        (("project", "stories"), 2, "  # stories: 1                       # stories above grade",
         "  stories: 2                       # stories above grade"),
        (("project", "use"), "dwelling", "  # use: dwelling", "  use: dwelling"),
        (("walls", "W2", "height"), "9 ft", "    # height: 8 ft     # to the plate",
         "    height: 9 ft     # to the plate"),
        (("walls", "W1", "run", "to", 0), "10 ft", "to: [9 ft, 0 ft]", "to: [10 ft, 0 ft]"),
        (("answers", 1, "by"), "D", "  by: C", "  by: D"),
        (("soils", "S1", "clay"), "5 %", "soils:\n", "soils:\n  S1: {clay: 5 %}\n"),
        (("answers", 2), {"rule": "c", "by": "E, F"}, "  by: C\n", '  by: C\n- {rule: c, by: "E, F"}\n'),
        (("walls", "W3"), {"thickness": "14 in"}, "    # height: 8 ft     # to the plate\n",
         "    # height: 8 ft     # to the plate\n  W3: {thickness: 14 in}\n"),
        (("site", "frost_depth"), "20 in",
         "# site:\n#   wind_speed: 110 mph              # from the building official\n#   frost_depth: 18 in\n",
         "site:\n#   wind_speed: 110 mph              # from the building official\n"
         "  frost_depth: 20 in\n"),
        (("mixes", "M1", "form"), "cob", "soils:\n", "soils:\nmixes:\n  M1: {form: cob}\n"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_value_goes_where_the_form_asks_for_it(path: Any, value: Any, was: str, now: str, end: str) -> None:
    before, expected = FORM.replace("\n", end), FORM.replace(was, now, 1).replace("\n", end)
    assert was in FORM and spliced(before, path, value) == expected


def test_what_is_taken_away_takes_its_own_comments_and_no_others() -> None:
    after = removed(FORM, ("walls", "W1"))
    assert "openings" not in after and "  # Between the walls.\n  W2:" in after
    assert removed(FORM, ("walls", "W1", "note")).count("note: one") == 0
    assert removed(FORM, ("answers", 0)).count("rule: a") == 0


@pytest.mark.parametrize(
    ("path", "value"),
    [((), 1), (("project", "name", "x"), 1), (("answers", 7), 1), (("project",), "\x00"), (("walls", "W2"), "\u2028")],
)
def test_what_cannot_be_is_refused(path: Any, value: Any) -> None:
    with pytest.raises(SpliceError):
        spliced(FORM, path, value)


def test_a_text_that_does_not_read_is_no_text_to_change() -> None:
    with pytest.raises(ProblemsFound):
        spliced("a: [\n", ("a",), 1)


@pytest.mark.parametrize(
    "value", ["a", "yes", "null", "12", "1e5", "a: b", "a #b", "'", '"', "[", " a", "~", "-", "%a", "a\\b"]
)
def test_a_text_stays_a_text(value: str) -> None:
    assert parse_yaml(f"a: {flow_text(value)}\nb: [{flow_text(value)}]\n", "x") == {"a": value, "b": [value]}


def test_an_empty_file_takes_a_first_section() -> None:
    assert spliced("", ("walls", "W1"), {"height": "8 ft"}) == "walls:\n  W1: {height: 8 ft}\n"
    assert spliced("# A form.\n", ("stage",), "design") == "# A form.\nstage: design\n"


def test_the_files_of_the_checkout_are_among_those_tried() -> None:
    assert len(texts()) > 300 and any(name.startswith("rulesets/") for name, _ in texts())
