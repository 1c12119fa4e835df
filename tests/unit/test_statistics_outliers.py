"""Outlier remarks: which value is suspect, what is refused, what is printed; and that nothing is ever removed."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.specimens.dixon import DixonTable, dixon, dixon_table
from compliance.facts.specimens.outliers import Side, grubbs, grubbs_critical
from compliance.facts.specimens.sample import StatisticError
from compliance.units import Writer

FILE = Path(__file__).parents[2] / "rulesets" / "reference" / "dixon.yaml"
TABLE: DixonTable = dixon_table(yaml.safe_load(FILE.read_text(encoding="utf-8")))
LOW = [10.0, 11.0, 3.0, 12.0, 11.5]
HIGH = [10.0, 11.0, 40.0, 12.0, 11.5]


@pytest.mark.parametrize(
    ("values", "side", "suspect"),
    [(LOW, "lowest", 2), (LOW, "highest", 3), (LOW, "either", 2), (HIGH, "either", 2), (HIGH, "lowest", 0)],
)
def test_which_value_is_suspect(values: list[float], side: Side, suspect: int) -> None:
    for remark in (
        grubbs(values, "ratio", 0.05, side),
        dixon(values, kind="ratio", level=0.05, side=side, table=TABLE),
    ):
        assert (remark.suspect, remark.value, remark.side) == (suspect, values[suspect], side)


def test_statistics_by_hand() -> None:
    # mean 9.5; squared deviations 0.25 2.25 42.25 6.25 4, sum 55; s = √13.75
    assert grubbs(LOW, "ratio", 0.05, "lowest").statistic == pytest.approx(6.5 / math.sqrt(13.75))
    assert grubbs(LOW, "ratio", 0.05, "highest").statistic == pytest.approx(2.5 / math.sqrt(13.75))
    assert dixon(LOW, kind="ratio", level=0.05, side="lowest", table=TABLE).statistic == pytest.approx(7 / 9)
    assert dixon(LOW, kind="ratio", level=0.05, side="highest", table=TABLE).statistic == pytest.approx(0.5 / 9)


def test_beyond_or_not() -> None:
    assert grubbs(LOW, "ratio", 0.05, "lowest").beyond is True
    assert grubbs(LOW, "ratio", 0.001, "lowest").beyond is False
    assert dixon(LOW, kind="ratio", level=0.05, side="lowest", table=TABLE).beyond is True
    assert dixon(LOW, kind="ratio", level=0.01, side="either", table=TABLE).beyond is False


def test_at_the_critical_value_is_not_beyond_it() -> None:
    half = DixonTable((0.05,), {3: (0.5,)}, "made for this test")
    at, past = (
        dixon([0.0, middle, 2.0], kind="ratio", level=0.05, side="either", table=half) for middle in (1.0, 1.0001)
    )
    assert (at.statistic, at.beyond) == (0.5, False)
    assert past.beyond is True


def test_at_the_critical_value_of_grubbs_is_not_beyond_it(monkeypatch: pytest.MonkeyPatch) -> None:
    found = grubbs(LOW, "ratio", 0.05, "lowest").statistic
    assert found is not None
    for critical, beyond in ((found, False), (math.nextafter(found, 0.0), True), (math.nextafter(found, 9.0), False)):
        monkeypatch.setattr(
            "compliance.facts.specimens.outliers.grubbs_critical", lambda *_, critical=critical: critical
        )
        assert grubbs(LOW, "ratio", 0.05, "lowest").beyond is beyond


def test_the_largest_set_that_is_tested() -> None:
    remark = grubbs([float(value) for value in range(1000)], "ratio", 0.001, "either")
    assert (remark.reason, remark.beyond) == ("", False)


def test_two_ends_equally_far_off_names_the_weaker() -> None:
    symmetric = [5.0, 1.0, 3.0]
    assert grubbs(symmetric, "ratio", 0.05, "either").suspect == 1
    assert dixon(symmetric, kind="ratio", level=0.05, side="either", table=TABLE).suspect == 1


@pytest.mark.parametrize(
    ("values", "reason"),
    [
        ([], "needs 3 or more values, has 0"),
        ([1.0, 2.0], "needs 3 or more values, has 2"),
        ([2.0, 2.0, 2.0], "all values are equal"),
        ([float(value) for value in range(1001)], "tests at most 1000 values, has 1001"),
    ],
)
def test_sets_that_cannot_be_tested(values: list[float], reason: str) -> None:
    for remark in (
        grubbs(values, "ratio", 0.05, "lowest"),
        dixon(values, kind="ratio", level=0.05, side="lowest", table=TABLE),
    ):
        assert remark.reason == reason
        assert (remark.beyond, remark.statistic, remark.critical, remark.suspect) == (None, None, None, None)
        assert remark.steps == ()


def test_more_values_than_the_table_holds() -> None:
    remark = dixon([float(value) for value in range(11)], kind="ratio", level=0.05, side="either", table=TABLE)
    assert (remark.beyond, remark.reason) == (None, "the table of critical values has no row for 11 values")


def test_a_side_chosen_beforehand_uses_the_column_of_twice_the_level() -> None:
    assert TABLE.critical(5, 0.05, "lowest") == TABLE.critical(5, 0.10, "either")
    assert TABLE.critical(5, 0.005, "highest") == TABLE.critical(5, 0.01, "either")


def test_a_level_the_table_does_not_hold() -> None:
    with pytest.raises(StatisticError, match=r"has no two-sided level 0\.02; it has: 0\.1, 0\.05, 0\.01"):
        dixon(LOW, kind="ratio", level=0.01, side="lowest", table=TABLE)


def test_a_level_is_that_of_a_column_within_one_part_in_a_thousand_million() -> None:
    assert TABLE.critical(5, 0.05 * (1 + 0.95e-9), "either") == TABLE.critical(5, 0.05, "either")
    with pytest.raises(StatisticError, match="has no two-sided level"):
        TABLE.critical(5, 0.05 * (1 + 1.05e-9), "either")


@pytest.mark.parametrize("level", [0.0, 0.0009, 0.2001, 1.0, -0.05, math.nan])
def test_levels_out_of_bounds(level: float) -> None:
    for attempt in (
        lambda: grubbs(LOW, "ratio", level, "lowest"),
        lambda: dixon(LOW, kind="ratio", level=level, side="lowest", table=TABLE),
        lambda: grubbs_critical(5, level, 1),
    ):
        with pytest.raises(StatisticError, match="level of significance"):
            attempt()


@pytest.mark.parametrize("count", [2, 1001])
def test_critical_value_wants_a_number_of_values_in_bounds(count: int) -> None:
    with pytest.raises(StatisticError, match="needs 3 to 1000 values"):
        grubbs_critical(count, 0.05, 1)


def test_a_value_that_is_not_finite_is_refused() -> None:
    with pytest.raises(StatisticError, match="not a finite number"):
        grubbs([1.0, 2.0, math.nan], "ratio", 0.05, "lowest")


def test_grubbs_lines() -> None:
    lines = [step.line(Writer("si")) for step in grubbs(LOW, "count", 0.05, "lowest").steps]
    assert lines[2] == "Distance of the suspect value: G = (m − x₁) / s = (9.5 − 3) / 3.71 = 1.753"
    assert lines[3] == "Student's t value: t = t(1 − a / n; n − 2) = t(1 − 0.05 / 5; 5 − 2) = 4.541"
    assert lines[4] == (
        "Critical value: Gc = (n − 1) × t / √(n × (n − 2 + t × t))"
        " = (5 − 1) × 4.541 / √(5 × (5 − 2 + 4.541 × 4.541)) = 1.671"
    )
    assert grubbs(LOW, "count", 0.05, "highest").steps[2].formula == "(x₅ − m) / s"
    assert grubbs(LOW, "count", 0.05, "either").steps[3].formula == "t(1 − a / (2 × n); n − 2)"


def test_dixon_lines() -> None:
    low, critical = (
        step.line(Writer("si")) for step in dixon(LOW, kind="ratio", level=0.05, side="lowest", table=TABLE).steps
    )
    assert low == "Gap over range: Q = (x₂ − x₁) / (x₅ − x₁) = (10 − 3) / (12 − 3) = 0.778"
    assert critical == "Critical value, from the table: Qc = 0.642"
    high = dixon(LOW, kind="ratio", level=0.05, side="highest", table=TABLE).steps[0]
    assert high.line(Writer("si")) == "Gap over range: Q = (x₅ − x₄) / (x₅ − x₁) = (12 − 11.5) / (12 − 3) = 0.056"


@settings(deadline=None)
@given(st.lists(st.floats(1e3, 1e8), min_size=3, max_size=10), st.sampled_from(["lowest", "highest", "either"]))
def test_nothing_is_removed_and_dixon_stays_between_0_and_1(values: list[float], side: Side) -> None:
    before = list(values)
    grubbs(values, "stress", 0.05, side)
    remark = dixon(values, kind="stress", level=0.05, side=side, table=TABLE)
    assert values == before
    if len(set(values)) == 1:
        assert remark.beyond is None
    else:
        assert remark.statistic is not None and remark.critical is not None
        assert 0.0 <= remark.statistic <= 1.0
        assert remark.beyond is (remark.statistic > remark.critical)


GOOD_ROW = {"n": 3, "critical": [0.9]}


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ({}, "needs sides: 2"),
        ({"sides": 1, "levels": [0.05], "rows": [GOOD_ROW]}, "needs sides: 2"),
        ({"sides": 2, "levels": 0.05, "rows": [GOOD_ROW]}, "needs sides: 2"),
        ({"sides": 2, "levels": [0.05], "rows": {}}, "needs sides: 2"),
        ({"sides": 2, "levels": [0.05], "rows": [3]}, "needs n and 1 critical values"),
        ({"sides": 2, "levels": [0.05], "rows": [{"n": "3", "critical": [0.9]}]}, "needs n and 1 critical values"),
        ({"sides": 2, "levels": [0.05, 0.01], "rows": [GOOD_ROW]}, "needs n and 2 critical values"),
        ({"sides": 2, "levels": [0.05], "rows": [GOOD_ROW, GOOD_ROW]}, "two rows for 3 values"),
        ({"sides": 2, "levels": [5], "rows": [GOOD_ROW]}, "between 0 and 1, not 5"),
        ({"sides": 2, "levels": [1.0], "rows": [GOOD_ROW]}, "between 0 and 1, not 1.0"),
        ({"sides": 2, "levels": [0.0], "rows": [GOOD_ROW]}, "between 0 and 1, not 0.0"),
        ({"sides": 2, "levels": [0.05], "rows": [{"n": 3, "critical": [1.0]}]}, "between 0 and 1, not 1.0"),
        ({"sides": 2, "levels": [0.05], "rows": [{"n": 3, "critical": ["0.9"]}]}, "between 0 and 1"),
        ({"sides": 2, "levels": [0.05], "rows": [{"n": 3, "critical": [True]}]}, "between 0 and 1"),
    ],
)
def test_tables_that_are_none(data: dict[str, object], message: str) -> None:
    with pytest.raises(StatisticError, match=message):
        dixon_table(data)
