"""The second example, a round room in a place that adopted no code for cob: what is found, and what its papers ask.

Its people, place and tests are invented. The pull in its ring is worked again here, without the package.
"""

from __future__ import annotations

import math
from datetime import date
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checked import Checked
from compliance.cli import app
from compliance.documents.papers.adopted_checklist import checklist
from compliance.documents.papers.code_path import code_path
from compliance.findings import Lack, Outcome
from compliance.report.by_rule import by_rule
from compliance.units import Writer
from tests.conftest import EXAMPLE, ROUND_EXAMPLE
from tests.documents.accessibility import faults
from tests.documents.conftest import PrintedExample
from tests.documents.story_words import words_of


def test_the_check_finds_no_contradiction_and_what_an_engineer_must_design(printed_round: PrintedExample) -> None:
    """Only answers that a person has to give are missing, among them whether the owners' tests are accepted."""
    made = printed_round.made
    assert made.warnings == ()
    found = {one: {(f.rule, f.subject) for f in made.findings if f.outcome is one} for one in Outcome}
    assert found[Outcome.ENGINEER] == {
        ("footing-kind", "F1"), ("roof-kind", "R1"), ("heavy-roof", "R1"), ("closed-ring", "project")
    }  # fmt: skip
    assert not found[Outcome.REVISE]
    assert ("compression-tester", "T1") in found[Outcome.MISSING]
    lacks = [one for f in made.findings if f.outcome is Outcome.MISSING for one in f.missing]
    assert lacks and not any(one.kind is Lack.FIELD for one in lacks)
    assert made.project.project.date < date(2027, 1, 1)


def test_the_pull_in_the_ring_worked_by_hand(printed_round: PrintedExample) -> None:
    """A wedge of roof of one radian, pinned at wall and ring: its load, in thin rings, times the way of each to the
    wall, over the rise, is what pulls in the ring at the wall (statics). Layers in psf: 6 + 35 x 1.5/12 + 1 + 60/12 +
    90 x 4/12 + 2, over the cosine of 14 degrees; roof live load 20 psf, more than the snow; water 62.4 x 0.5/12."""
    dead = (6 + 35 * 1.5 / 12 + 1 + 60 / 12 + 90 * 4 / 12 + 2) / math.cos(math.radians(14))
    assert number(printed_round, "heavy-roof") / 47.88026 == pytest.approx(dead, rel=1e-5)
    radius, inner, rise, rings = 100 / 12, 1.0, 22 / 12, 20_000
    step = (radius - inner) / rings
    at = [inner + (one + 0.5) * step for one in range(rings)]
    load = dead + 20 + 62.4 * 0.5 / 12 / math.cos(math.radians(14))
    moment = sum(load * r * (radius - r) * step for r in at)
    assert number(printed_round, "ring-pull") / 4.4482216 == pytest.approx(moment / rise, rel=1e-5)


def number(printed: PrintedExample, rule: str) -> float:
    """The value of the finding of a rule about the roof, in SI."""
    [found] = [one for one in printed.made.findings if (one.rule, one.subject) == (rule, "R1")]
    assert found.value is not None and isinstance(found.value.value, float)
    return found.value.value


def test_the_papers_ask_for_approval_as_an_alternative(printed_round: PrintedExample) -> None:
    """With the tests that the owners made, and with no word that the code they are compared with is adopted."""
    text = printed_round.read.text
    for said in (
        "the jurisdiction has adopted no code that covers these walls",
        "as an alternative that no adopted code covers, compared with",
        "Request for alternative materials, design and methods",
        "The tests by Corin Aldous, with a jack and a borrowed load cell (sets T1, T2) as if an approved agency",
        "Checklist of the code compared with",
        "tension in the ring that resists roof thrust: 3664 lbf; capacity of the ring: 9000 lbf",
        "it is the measure of the request, not law",
    ):
        assert said in text, said
    assert "Checklist of the adopted code" not in text


def test_two_validators_find_no_fault_in_its_papers(printed_round: PrintedExample) -> None:
    assert faults(printed_round.path) == []


def test_where_the_code_is_adopted_none_of_it_is_asked(checked_example: Checked) -> None:
    sets = by_rule(checked_example)
    text = words_of([*code_path(checked_example, sets, ()), *checklist(sets, Writer("us"))])
    assert "Checklist of the adopted code" in text and "What the official is asked to accept" not in text


def test_it_is_copied_with_the_schemas_that_its_first_line_names(tmp_path: Path) -> None:
    target = tmp_path / "round"
    assert CliRunner().invoke(app, ["example", str(target), "--round"]).exit_code == 0
    copied = {path.relative_to(target).as_posix() for path in target.rglob("*") if path.is_file()}
    own = {path.relative_to(ROUND_EXAMPLE).as_posix() for path in ROUND_EXAMPLE.rglob("*") if path.is_file()}
    assert copied == own | {f"schemas/{path.name}" for path in (EXAMPLE / "schemas").iterdir()}
    assert "schemas/project.schema.json" in (target / "project.yaml").read_text(encoding="utf-8").partition("\n")[0]


def test_an_arc_has_its_own_length_in_every_part(printed_round: PrintedExample) -> None:
    """The circle is 2 π × 8 ft 4 in = 52 ft 4 5/16 in long; the arc with the door as long on paper as on its sheet."""
    text = printed_round.read.text
    assert "W1, W2, W3 are taken as one wall, 52 ft 4 5/16 in long" in text
    assert "W1 exterior yes yes 15 ft 5 7/16 in 7 ft 6 in" in text
    assert "one wall with W2, W3; 1 opening" in text
    assert text.count("52 ft 4 5/16 in long") == 1
