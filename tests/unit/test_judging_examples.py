"""Examples of rules: limits are filled in by values of their kind alone, and half an answer is none."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.findings import Finding, Standing
from compliance.judging.examples import ExampleError, filled_in, run_example
from compliance.reading.rule_files.rule_library import read_rule_set
from compliance.rules.rule_set import Rule
from compliance.rules.schema import ExampleText, LimitValue, Scalar
from tests.conftest import RULE_SET
from tests.sentences import sentence
from tests.unit.test_judging_sets import STRONG

WALL = """\
  - id: wall
    title: Wall
    clause: T1
    about: wall
    when: wall.structural == asked
    limits:
      least: {value: open, kind: thickness, standing: open}
      times: {value: 2, kind: ratio, standing: read, source: trial}
      asked: {value: true, standing: recalled}
      kinds: {value: [roof, bond-beam], standing: recalled}
    check: wall.least_thickness >= least * times and wall.top_restraint in kinds
    say: Thick enough.
"""
TABLE = """\
  - id: by-height
    title: By height
    clause: T1
    about: wall
    tables:
      thinnest:
        rows: {fact: wall.height, at: [7 ft, 8 ft], worse: larger}
        cells: [[open], [16 in]]
        kind: thickness
        standing: reported
        source: trial
    check: wall.least_thickness >= thinnest
    say: Thick enough.
"""


def rule_of(folder: Path, text: str) -> Rule:
    (folder / "rules.yaml").write_text(RULE_SET + text, encoding="utf-8")
    (rule,) = read_rule_set(folder / "rules.yaml", "rules.yaml").rules
    return rule


def filled(folder: Path, text: str, name: str, value: LimitValue) -> Rule:
    return filled_in(rule_of(folder, text), ExampleText(limits={name: value}, gives="meets"))


def ran(folder: Path, text: str, given: dict[str, Scalar | None]) -> Finding:
    return run_example(rule_of(folder, text), ExampleText(given=given, gives="meets"))


@pytest.mark.parametrize(
    ("rule", "name", "value", "plain"),
    [
        (WALL, "least", "10 in", 0.254),
        (WALL, "times", 1.5, 1.5),
        (WALL, "asked", "no", False),
        (WALL, "asked", False, False),
        (WALL, "kinds", ["free"], frozenset({"free"})),
        (STRONG, "governs", "mean", "mean"),
        (STRONG, "least", "1 MPa", 1e6),
    ],
)
def test_a_limit_is_filled_in_by_a_value_of_its_kind(
    tmp_path: Path, rule: str, name: str, value: LimitValue, plain: object
) -> None:
    limit = filled(tmp_path, rule, name, value).limits[name]
    assert limit.value == plain and type(limit.value) is type(plain)


@pytest.mark.parametrize(
    ("rule", "name", "value"),
    [
        *((WALL, "least", value) for value in ("10 psi", "10", 10.0, True, ["10 in"], "thick", "yes")),
        *((WALL, "times", value) for value in ("2 in", True, ["2"], "two", "no")),
        *((WALL, "asked", value) for value in ("maybe", 1.0, ["yes"], "10 in")),
        *((WALL, "kinds", value) for value in ("roof", 2.0, True, "10 in")),
        *((STRONG, "governs", value) for value in (2.0, True, ["lowest"])),
        *((TABLE, "thinnest", value) for value in ("10 psi", 10.0, True, ["10 in"], "thin")),
    ],
)
def test_a_value_of_another_kind_is_refused_at_its_place(
    tmp_path: Path, rule: str, name: str, value: LimitValue
) -> None:
    with pytest.raises(ExampleError) as refused:
        filled(tmp_path, rule, name, value)
    assert refused.value.where == ("limits", name)


def test_a_limit_that_the_rule_has_not_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ExampleError) as refused:
        filled(tmp_path, WALL, "most", "10 in")
    assert refused.value.where == ("limits", "most")


def test_what_was_open_is_no_better_known_for_being_filled_in(tmp_path: Path) -> None:
    assert filled(tmp_path, WALL, "least", "10 in").limits["least"].standing is Standing.RECALLED
    assert filled(tmp_path, WALL, "times", 1.5).limits["times"].standing is Standing.READ
    table = filled(tmp_path, TABLE, "thinnest", "10 in").tables["thinnest"]
    assert [cell for row in table.cells for cell in row] == pytest.approx([0.254, 0.4064])
    assert table.standing is Standing.REPORTED
    wholly = TABLE.replace("16 in", "open").replace("reported", "open").replace("        source: trial\n", "")
    assert filled(tmp_path, wholly, "thinnest", "10 in").tables["thinnest"].standing is Standing.RECALLED


@pytest.mark.parametrize("given", [{"result": "70 psi"}, {"specimens": 5.0}, {}])
def test_a_result_or_a_number_of_specimens_alone_is_no_test(tmp_path: Path, given: dict[str, Scalar | None]) -> None:
    found = ran(tmp_path, STRONG, given)
    assert (found.outcome.value, sentence(found)) == ("missing", "mix example has no compression test")


@pytest.mark.parametrize("name", ["result", "wall.least_thickness"])
def test_a_fact_of_another_kind_is_refused_at_its_place(tmp_path: Path, name: str) -> None:
    with pytest.raises(ExampleError) as refused:
        ran(tmp_path, STRONG, {name: "10 kg", "specimens": 5.0})
    assert refused.value.where == ("given", name)


def test_findings_of_a_test_are_about_a_set_others_about_what_the_rule_is_about(tmp_path: Path) -> None:
    assert ran(tmp_path, STRONG, {"result": "70 psi", "specimens": 5.0}).about == "set"
    assert ran(tmp_path, TABLE, {"wall.height": "8 ft", "wall.least_thickness": "16 in"}).about == "wall"
