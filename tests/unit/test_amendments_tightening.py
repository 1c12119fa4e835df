"""Which changes of a limit may go without a reason: those that can only tighten, and those that change nothing."""

from __future__ import annotations

import pytest

from compliance.problems import ProblemsFound
from tests.conftest import RULES, Write
from tests.unit.test_amendments import BARE_RULE, TABLE_RULE, WORDS_RULE, change, checked, refused
from tests.unit.test_judging_sets import STRONG

AN_USE = """\
  - id: used
    title: Use
    clause: T5
    about: wall
    limits:
      most: {value: 10 ft, standing: read, source: trial}
      extra: {value: 1 ft, standing: read, source: trial}
      none: {value: 0 ft, standing: read, source: trial}
    check: %s
    say: As asked.
"""
UP, DOWN = "12 ft", "6 in"


@pytest.mark.parametrize(
    ("check", "limit", "freely"),
    [
        ("wall.height <= most + extra + none", "most", ""),
        ("wall.height <= most + extra + none", "extra", ""),
        ("wall.height + none - extra <= most", "most", DOWN),
        ("wall.height + none - extra < most", "most", DOWN),
        ("wall.height + none + extra > most", "most", UP),
        ("wall.height + none + extra >= most", "most", UP),
        ("most + 0 * extra + none >= wall.height", "most", ""),
        ("most >= wall.height + extra + none", "most", DOWN),
        ("wall.height + none - extra <= most", "extra", ""),
        ("wall.height + none + extra == most", "most", ""),
        ("wall.height + none + extra != most", "most", ""),
        ("not (wall.height + none - extra > most)", "most", ""),
        ("wall.height - extra <= most and wall.length - none <= most", "most", DOWN),
        ("wall.height - extra <= most and wall.length - none <= 2 * most", "most", ""),
        ("wall.height - extra <= most or wall.length - none >= most", "most", ""),
        ("wall.height <= most and wall.length - none >= extra", "extra", UP),
        ("wall.height - none <= most and wall.length >= extra\n    when: wall.length > most", "most", ""),
    ],
)
def test_only_what_can_but_tighten_needs_no_reason(project: Write, check: str, limit: str, freely: str) -> None:
    """That is: what stands alone on the side of the limit wherever it stands, and moves the stricter way."""
    for value in (UP, DOWN):
        text = change("used", limit, value)
        if value == freely:
            assert checked(project, text, RULES + AN_USE % check).amendments[0].limit == limit
        else:
            assert refused(project, text, RULES + AN_USE % check) == ["amendment-reason"]


def test_the_same_value_within_a_billionth_needs_no_reason(project: Write) -> None:
    """10 ft are 3.048 m; a little more than the same would be looser. Zero is the same as zero."""
    rules = RULES + AN_USE % "wall.height - extra <= most and wall.length - wall.length >= none"
    for same in ("10 ft", "3.0480000029 m"):
        assert checked(project, change("used", "most", same), rules).amendments[0].limit == "most"
    assert refused(project, change("used", "most", "3.0480000032 m"), rules) == ["amendment-reason"]
    assert checked(project, change("used", "none", "0 m"), rules).amendments[0].limit == "none"


def test_limits_of_a_test_are_never_taken_for_tighter(project: Write) -> None:
    """Which of a set counts, and which value governs, may hang on any of them."""
    assert refused(project, change("strong", "least", "90 psi"), RULES + STRONG) == ["amendment-reason"]


def test_words_are_never_taken_for_tighter(project: Write) -> None:
    assert refused(project, change("straw", "kinds", "[wheat]"), RULES + WORDS_RULE) == ["amendment-reason"]


def test_a_limit_that_is_not_there_names_those_that_are(project: Write) -> None:
    three = RULES + AN_USE % "wall.height - extra - none <= most"
    two = ((RULES + TABLE_RULE, "tabled", "tallest"), (RULES + BARE_RULE, "bare", "none"))
    for rules, rule, known in ((three, "used", "most, extra, none"), *two):
        with pytest.raises(ProblemsFound) as found:
            checked(project, change(rule, "gone", "10 in"), rules)
        assert [one.instead for one in found.value.problems] == [f"its limits: {known}"]
