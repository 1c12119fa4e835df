"""Which states adopt the cob appendix: the shipped reference, its reader, and the sentence in the papers.

The clauses were read in third parties' copies of the codes as the states adopted them.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.documents.counter.project_statements import SAYINGS
from compliance.facts.common.reference_values import ReferenceValueError
from compliance.reading.reference_files.adoption_reference import adoption_from, read_adoption
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.report.adoption_statement import adoption_sentences, state_adoption

STATUS = {
    "OR": ("adopted", "AU", "R101.2.4"),
    "NY": ("printed-only", "BK", "R101.2.1"),
    "AR": ("local-ordinance", "AU", "R102.5"),
    "TX": ("not-adopted", "AU", "R102.5"),
    "CT": ("not-adopted", "AU", "R102.5"),
    "NC": ("struck", "AU", "R102.5 and the table of contents"),
    "WA": ("local-ordinance", "AU", "R102.5"),
    "CO": ("local-ordinance", "AU", "R102.5"),
    "MT": ("local-ordinance", "AU", "R102.5"),
    "PA": ("local-ordinance", "AU", "R102.5"),
    "SC": ("local-ordinance", "AU", "R102.5"),
}
AU = ["cob-practice", "cob-irc-2021-au"]
ONE: dict[str, Any] = {
    "state": "Ohio", "abbreviation": "OH", "code": "code", "base": "IRC 2018", "appendix": "AU", "status": "adopted",
    "clause": "R1", "standing": "read", "source": "copy",
}  # fmt: skip


def test_every_state_as_read() -> None:
    found = {one.abbreviation: (one.status, one.appendix, one.clause) for one in read_adoption().states}
    assert found == STATUS
    assert all(one.standing == "read" and "third party" in one.source for one in read_adoption().states)


def test_rule_sets_of_the_appendix_are_shipped() -> None:
    assert set(read_adoption().rule_sets) <= set(shipped_rule_sets())


@pytest.mark.parametrize(("change", "says"), [
    ({"status": "perhaps"}, "values.states.0.status"),
    ({"appendix": "U"}, "values.states.0.appendix"),
    ({"abbreviation": "Oh"}, "values.states.0.abbreviation"),
    ({"clause": None}, "values.states.0.clause"),
    ({"standing": "open"}, "values.states.0.standing"),
    ({"county": "Lane"}, "values.states.0.county"),
])  # fmt: skip
def test_a_state_of_another_form_is_refused(change: dict[str, object], says: str) -> None:
    with pytest.raises(ReferenceValueError, match=says.replace(".", r"\.")):
        adoption_from({"rule_sets": {}, "states": [ONE | change]})


def test_a_state_stands_there_once() -> None:
    with pytest.raises(ReferenceValueError, match="Ohio stands there twice"):
        adoption_from({"rule_sets": {}, "states": [ONE, ONE | {"abbreviation": "OX"}]})
    with pytest.raises(ReferenceValueError, match="OH stands there twice"):
        adoption_from({"rule_sets": {}, "states": [ONE, ONE | {"state": "Ohayo"}]})


@pytest.mark.parametrize("name", ["Oregon", "oregon", "OR", " or "])
def test_a_state_by_name_or_letters(name: str) -> None:
    found = adoption_sentences(read_adoption(), name, AU)
    assert found.startswith("Appendix AU (cob) is part of the Oregon Residential Specialty Code 2023, R101.2.4.")
    assert found.endswith("Read in a third party's copy of that edition; the official says what is in force.")


@pytest.mark.parametrize(("state", "says"), [
    ("NY", "for information only and not adopted"),
    ("TX", "is none of them"),
    ("NC", "was struck from"),
    ("WA", "binds only where a local ordinance adopts it"),
])  # fmt: skip
def test_not_law_is_said(state: str, says: str) -> None:
    found = adoption_sentences(read_adoption(), state, AU)
    assert says in found and "is part of" not in found
    assert ("approval as an alternative" in found) is (state != "WA")


def test_another_edition_than_the_states_is_said() -> None:
    said = "The rule sets here follow Appendix BK instead; the state's base is IRC 2021."
    assert said in adoption_sentences(read_adoption(), "Oregon", ["cob-irc-2024-bk"])
    assert said not in adoption_sentences(read_adoption(), "Oregon", AU)


def test_an_unknown_state_says_so_and_no_state_says_nothing() -> None:
    assert adoption_sentences(read_adoption(), "Nevada", AU) == (
        "This tool has no record of whether Nevada adopts the cob appendix; ask the building official."
    )
    assert adoption_sentences(read_adoption(), None, AU) == ""
    assert adoption_sentences(read_adoption(), "Oregon", ["nm-14-7-4-adobe"]) == ""


HOUSE = """\
project: {{name: Trial, date: 2026-01-02, stories: 1}}
jurisdiction: {{name: Lane County, rule_sets: [cob-irc-2021-au]{state}}}
soils: {{S1: {{name: clay}}}}
mixes: {{M1: {{name: cob, form: cob, parts: {{S1: 1}}}}}}
walls:
  W1: {{run: {{from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}, height: 8 ft, thickness: 24 in, mix: M1}}
"""


@pytest.mark.parametrize(("state", "says"), [
    (", state: Oregon", "is part of the Oregon Residential Specialty Code 2023"),
    (", state: Ohio", "no record of whether Ohio adopts the cob appendix"),
])  # fmt: skip
def test_the_papers_say_it(project: Callable[..., Path], state: str, says: str) -> None:
    checked = check_folder(project(text="", head=HOUSE.format(state=state)))
    assert says in state_adoption(checked)
    assert says in SAYINGS["rule-sets"](checked)


def test_the_papers_of_a_project_without_a_state(project: Callable[..., Path]) -> None:
    checked = check_folder(project(text="", head=HOUSE.format(state="")))
    assert state_adoption(checked) == ""
    assert SAYINGS["rule-sets"](checked).startswith("adopting ordinance not stated; ")
