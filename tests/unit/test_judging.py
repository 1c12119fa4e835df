"""Judging: the order of outcomes, values at their limit in any unit, and what a finding says."""

from __future__ import annotations

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome, Standing
from compliance.units import Writer
from compliance.units.unit_table import unit
from tests.conftest import HEAD, RULES, WALLS, Write

RULE = RULES[RULES.index("  - id:") :]
QUIET = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)


def found(project: Write, **parts: str) -> Finding:
    return check_folder(project(**parts)).findings[-1]


def rules(check: str, limits: str = "", more: str = "") -> str:
    return RULES + (
        f"  - id: other\n    title: Other\n    clause: C\n    about: wall\n    say: Other.\n    limits: {{{limits}}}\n"
        f"    check: {check}\n{more}"
    )


WALL = "walls:\n  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: %s}\n"


@QUIET
@given(st.integers(200, 40_000), st.sampled_from(["mm", "m", "in", "ft"]), st.sampled_from(["mm", "m", "in", "ft"]))
def test_a_value_at_its_limit_meets_it_whatever_the_unit(project: Write, hundredths: int, own: str, other: str) -> None:
    """The same length written in two units, each to fifteen digits, is the same length."""
    metres = hundredths * 1e-4
    texts = [f"{metres / unit(symbol).factor:.12f}".rstrip("0").rstrip(".") for symbol in (own, other)]
    wall = WALL % f"{texts[0]} {own}"
    for relation in (">=", "<="):
        rule = RULES.replace("10 in", f"{texts[1]} {other}").replace(">=", relation)
        assert found(project, text=wall, rules=rule).outcome is Outcome.MEETS


@QUIET
@given(st.floats(0.05, 1.5), st.floats(0.0, 1.0))
def test_thicker_is_never_worse(project: Write, thickness: float, more: float) -> None:
    def margin(value: float) -> float:
        finding = found(project, text=WALL % f"{value:.9f} m")
        assert finding.margin is not None
        return finding.margin

    assert margin(thickness + more) >= margin(thickness) - 1e-12


def test_missing_names_the_field_and_its_file(project: Write) -> None:
    finding = found(project, rules=rules("site.sds <= most", "most: {value: 0.5, standing: recalled}"))
    assert finding.outcome is Outcome.MISSING
    assert finding.missing == ("site.sds in project.yaml",)


def test_an_open_limit_gives_confirm_even_where_a_fact_is_lacking(project: Write) -> None:
    limit = 'most: {value: open, kind: ratio, standing: open, read_in: "Table 9"}'
    finding = found(project, rules=rules("site.sds <= most", limit))
    assert (finding.outcome, finding.standing) == (Outcome.CONFIRM, Standing.OPEN)
    assert "Table 9" in finding.reason


def test_when_false_gives_apart_and_says_why(project: Write) -> None:
    finding = found(
        project,
        rules=rules("wall.height <= most", "most: {value: 1 ft, standing: recalled}", "    when: wall.curved\n"),
    )
    assert finding.outcome is Outcome.APART
    assert "curve of the wall" in finding.reason


def test_a_fact_without_meaning_gives_apart(project: Write) -> None:
    finding = found(project, rules=rules("wall.narrowest_pier >= least", "least: {value: 1 ft, standing: recalled}"))
    assert finding.outcome is Outcome.APART and finding.reason == "the wall has no opening"


def test_dividing_by_nothing_never_meets(project: Write) -> None:
    finding = found(
        project, rules=rules("wall.height / wall.opening_count <= most", "most: {value: 99 ft, standing: recalled}")
    )
    assert finding.outcome is Outcome.ENGINEER


@pytest.mark.parametrize(("most", "outcome"), [("1", Outcome.REVISE), ("0", Outcome.MEETS)])
def test_equality_of_numbers_has_its_reason(project: Write, most: str, outcome: Outcome) -> None:
    limit = f"most: {{value: {most}, kind: count, standing: recalled}}"
    finding = found(project, rules=rules("wall.opening_count == most", limit))
    assert finding.outcome is outcome and "exactly" in finding.reason


def test_unconfirmed_limits_never_print_as_plain_meets(project: Write) -> None:
    for standing, verdict in (("read", "meets"), ("reported", "meets, limit to be confirmed")):
        assert found(project, rules=RULES.replace("standing: read", f"standing: {standing}")).verdict == verdict


def test_of_several_comparisons_the_tightest_decides(project: Write) -> None:
    limits = "a: {value: 4 in, standing: recalled}, b: {value: 15 in, standing: recalled}"
    check = "wall.least_thickness >= a and wall.base_thickness >= b"
    finding = found(project, rules=rules(check, limits))
    assert finding.limit is not None and finding.limit.symbol == "b"
    assert finding.margin is not None and math.isclose(finding.margin, 1 / 15, rel_tol=1e-9)


def test_order_of_keys_never_matters(project: Write) -> None:
    one = check_folder(project(head=HEAD)).findings
    head, *rest = HEAD.splitlines(keepends=True)
    other = check_folder(project(text="".join(rest) + head, head=WALLS)).findings
    writer = Writer()
    assert [one[0].outcome, one[0].reason, [step.line(writer) for step in one[0].steps]] == [
        other[0].outcome, other[0].reason, [step.line(writer) for step in other[0].steps]
    ]  # fmt: skip
