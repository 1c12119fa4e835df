"""Cautions that hold in one place or under one edition: where each bears, and that the papers print it there.

The clauses were read in third parties' copies of the codes and statutes; each entry names its own.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from compliance.checked import Checked
from compliance.documents.papers.code_path import code_path
from compliance.documents.papers.sign_off import sign_off
from compliance.documents.papers.special_inspections import special_inspections
from compliance.documents.papers.tests_in_summary import tests_in_summary
from compliance.facts.common.reference_values import ReferenceValueError
from compliance.model.project import Project
from compliance.reading.reference_files.place_caution_reference import place_cautions_from, read_place_cautions
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.report.by_rule import by_rule
from compliance.report.summaries.place_cautions import place_cautions
from tests.documents.buildings import checked, project, rule_set
from tests.documents.story_words import words_of

BEARS: list[tuple[str | None, str, str, set[str]]] = [
    (None, "test-rules", "tests", {"agency-independent"}),
    (None, "test-rules", "sign-off", set()),
    ("California", "test-rules", "sign-off", {"unlicensed-design-ca"}),
    ("ca", "test-rules", "sign-off", {"unlicensed-design-ca"}),
    ("new mexico", "test-rules", "sign-off", {"architect-seal-nm"}),
    ("NY", "test-rules", "code-path", {"written-request-2024"}),
    ("NY", "test-rules", "inspections", set()),
    ("NY", "ibc-2021-2109-adobe", "inspections", {"adobe-no-longer-exempt"}),
    ("Colorado", "ibc-2021-2109-adobe", "inspections", set()),
    ("Colorado", "ibc-2024-2109-adobe", "inspections", {"adobe-2024-edition"}),
    ("NJ", "test-rules", "inspections", {"special-inspection-nj"}),
    ("NC", "test-rules", "inspections", {"special-inspection-nc"}),
    ("Oregon", "test-rules", "inspections", {"chapter-17-amended"}),
]


def of_state(state: str | None, rules: str = "test-rules") -> Checked:
    building = project(1)
    place = building.jurisdiction.model_copy(update={"state": state})
    made: Project = building.model_copy(update={"jurisdiction": place})
    return checked(1, 1, of=made, sets=(replace(rule_set(1), id=rules),))


@pytest.mark.parametrize(("state", "rules", "section", "names"), BEARS)
def test_each_bears_where_it_says(state: str | None, rules: str, section: str, names: set[str]) -> None:
    known = read_place_cautions().cautions
    wanted = [one for one in known if one.id in names]
    said = place_cautions(of_state(state, rules), section)  # type: ignore[arg-type]
    assert len(said) == len(wanted) == len(names)
    for one, text in zip(wanted, said, strict=True):
        assert text.startswith(one.says) and one.clause in text and "the official says what is in force" in text


def test_each_names_a_clause_a_source_and_rule_sets_that_ship() -> None:
    for one in read_place_cautions().cautions:
        assert one.clause and ("read in" in one.source or "compared with" in one.source)
        assert set(one.rule_sets) <= set(shipped_rule_sets())


def test_the_papers_print_them_in_their_section() -> None:
    for state, section, says in (
        ("CA", sign_off(of_state("CA")), "wood frame only"),
        ("NY", code_path(of_state("NY"), by_rule(of_state("NY")), ()), "asks for the request in writing"),
        ("NJ", special_inspections(of_state("NJ"), by_rule(of_state("NJ"))), "class 1 only"),
        ("", tests_in_summary(of_state(None), by_rule(of_state(None))), "discloses conflicts of interest"),
    ):
        assert says in words_of(section), state
        assert says not in words_of(sign_off(of_state("Texas"))), state


@pytest.mark.parametrize("change", [{"standing": "open"}, {"prints_in": "cover"}, {"states": {"California": "CA"}},
                                    {"says": None}, {"county": "x"}])  # fmt: skip
def test_another_form_is_refused(change: dict[str, object]) -> None:
    one = {"id": "a", "prints_in": "tests", "clause": "c", "standing": "read", "source": "s", "says": "words"}
    place_cautions_from({"cautions": [one]})
    with pytest.raises(ReferenceValueError, match=r"values\.cautions\.0"):
        place_cautions_from({"cautions": [one | change]})
    with pytest.raises(ReferenceValueError, match="twice"):
        place_cautions_from({"cautions": [one, one]})
