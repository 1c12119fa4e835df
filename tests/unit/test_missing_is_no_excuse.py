"""What is left out stays missing: it never takes a rule away."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Outcome
from compliance.report.words.missing_words import missing_texts
from compliance.report.words.plain_missing import PlainLack, plain_list
from tests.conftest import HEAD, RULES, WALLS, Write

RULE = """\
  - id: form-long-enough
    title: Length of the form
    clause: T2
    about: set
    when: set.kind == "shrinkage"
    limits: {least: {value: 20 in, standing: read, source: trial}}
    check: set.form_length >= least
    say: Long enough.
"""
ROWS = "set,specimen,mix,cast,tested,dried,form_length [in],wet_length [in],dried_length [in]\n"


@pytest.mark.parametrize(
    ("forms", "outcome"), [(("24", "24"), Outcome.MEETS), (("24", ""), Outcome.MISSING), (("", ""), Outcome.MISSING)]
)
def test_a_bar_without_its_form_is_asked_for_it(project: Write, forms: tuple[str, str], outcome: Outcome) -> None:
    rows = ROWS + "".join(f"B1,{mark},M1,,,air,{form},24,23.8\n" for mark, form in zip("ab", forms, strict=True))
    text = WALLS + "test_sets: {B1: {kind: shrinkage, mix: M1}}\n"
    found = check_folder(project(text, HEAD, RULES + RULE, {"lab/shrinkage.csv": rows})).findings
    (one,) = (one for one in found if one.rule == "form-long-enough")
    assert one.outcome is outcome
    if outcome is Outcome.MISSING:
        assert missing_texts(one) == ("form_length of every specimen of B1 in lab/shrinkage.csv",)


def test_what_lacks_names_its_subject_once() -> None:
    lacks = [
        PlainLack("organic matter in the soil", "soil", "S1"),
        PlainLack("capping of the specimens", "test set", "T5"),
    ]
    assert plain_list(lacks) == "organic matter in soil S1; capping of the specimens of test set T5"
    of_walls = [PlainLack("load on the top of the wall", "wall", f"W{number}") for number in (1, 2, 3, 4)]
    assert plain_list(of_walls) == "load on the top of wall W1 to W4"
