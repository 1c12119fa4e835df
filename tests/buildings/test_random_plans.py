"""Random plans described otherwise have the same findings: a few here, 5,000 by `described_otherwise`."""

from __future__ import annotations

import pytest

from tests.buildings.described_otherwise import RING, Said, differences, differing, findings
from tests.buildings.judging import Checker
from tests.buildings.random_plans import random_plan
from tests.buildings.transforming import line_of, redraw_arcs

MENDED = (
    7,  # a round ring in pieces
    11,  # a bow drawn as chords
    128, 155, 211,  # a plan with a side left out, its corner turned inward or not by how the page lies
    325,  # a corner rounded by pieces on both sides of where the chain begins
    423,  # a ring of chords, its edges taken for an open side
)  # fmt: skip
"""Plans that said something else once."""


@pytest.fixture(scope="module")
def checker() -> Checker:
    return Checker()


@pytest.mark.parametrize("number", (*MENDED, *range(1, 6)))
def test_described_otherwise(checker: Checker, number: int) -> None:
    assert differing(checker, number) == []


def test_plans_show_what_they_are_for(checker: Checker) -> None:
    """Among a few plans there are good and bad, round and bowed ones, and few that are refused."""
    plans = [random_plan(number) for number in range(30)]
    shapes = ["arc" in wall for one in plans for wall in one.sections["walls"].values()]
    assert any(shapes) and not all(shapes)
    some = [findings(checker, one) for one in plans[:12]]
    assert sum(any(rule == "problem" for rule, _ in found) for found in some) <= 2
    assert any(RING in found for found in some)
    outcomes = {outcome for found in some for said in found.values() for outcome in said.outcomes}
    assert outcomes >= {"meets", "revise", "engineer", "missing"}


def test_chords_are_as_long_as_they_can_be(checker: Checker) -> None:
    """An arc redrawn keeps within a third of a percent of its length, and its openings their widths."""
    whole = random_plan(11).sections
    drawn = redraw_arcs(whole)
    lengths = [sum(line_of(wall).length for wall in one["walls"].values()) for one in (whole, drawn)]
    assert lengths[1] < lengths[0] < lengths[1] * 1.0029
    assert not any("arc" in wall for wall in drawn["walls"].values())
    widths = [sorted(hole["width"] for wall in one["walls"].values() for hole in wall.get("openings", {}).values())
              for one in (whole, drawn)]  # fmt: skip
    assert widths[0] == widths[1]


def test_what_differs_is_seen() -> None:
    meets, fails = Said(frozenset({"meets"}), 0.2), Said(frozenset({"engineer"}), -0.2)
    near = Said(frozenset({"engineer"}), -1e-9)
    assert differences({("rule", "W"): meets}, {("rule", "W"): fails}, 1e-6)
    assert differences({("rule", "W"): meets}, {}, 1e-6)
    assert differences({("rule", "W"): meets}, {("rule", "W"): near}, 1e-6)
    assert not differences({("rule", "W"): Said(frozenset({"meets"}), 0.0)}, {("rule", "W"): near}, 1e-6)
