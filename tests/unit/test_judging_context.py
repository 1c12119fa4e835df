"""How a finding names what is missing, and when it says what to change."""

from __future__ import annotations

from datetime import date

import pytest

from compliance.checking import check_folder
from compliance.facts.common.fact import Lacks
from compliance.facts.geometry.subjects import Facts
from compliance.findings import Lack, Missing, Outcome, Standing
from compliance.judging.context import Context, withheld
from compliance.model.people import Jurisdiction, ProjectHead
from compliance.model.project import Project
from compliance.problems import Place
from compliance.reading.rule_files.rule_library import read_rule_set
from compliance.record import replace
from compliance.report.words.missing_words import missing_text
from compliance.units import Writer
from tests.conftest import RULES, WALLS, Write
from tests.sentences import sentence


@pytest.mark.parametrize(
    ("path", "named"),
    [
        (("site",), "site in site.yaml"),
        (("walls", "W3", "mix"), "walls.W3.mix in walls.yaml"),
        (("attestations", 1, "evidence"), "attestations.1.evidence in attestations.yaml"),
        (Missing(Lack.TEST_SET, ("", "M1"), ""), "a set of mix M1 under test_sets: in test_sets.yaml"),
        (Missing(Lack.ANSWER, ("raft", "W1"), ""), "rule raft about W1 under attestations: in attestations.yaml"),
        (Missing(Lack.ROWS, ("R1",), "lab/rupture.csv"), "rows of set R1 in lab/rupture.csv"),
    ],
)
def test_a_field_is_named_with_its_file(path: Lacks, named: str) -> None:
    project = Project.model_construct(
        project=ProjectHead(name="trial", date=date(2026, 1, 1)),
        jurisdiction=Jurisdiction(name="trial", rule_sets=["trial"]),
        walls={},
    )
    context = Context(
        project, facts=Facts({}), specimens={}, where=lambda path: Place(f"{path[0]}.yaml"), writer=Writer("us")
    )
    assert missing_text(context.lacking(path)) == named


@pytest.mark.parametrize(
    ("thickness", "otherwise", "outcome", "remedy"),
    [
        ("10 in", "revise", Outcome.MEETS, ""),
        ("9 in", "revise", Outcome.REVISE, "Thicken the wall."),
        ("9 in", "engineer", Outcome.ENGINEER, "Thicken the wall."),
    ],
)
def test_what_does_not_meet_says_what_to_change(
    project: Write, thickness: str, otherwise: str, outcome: Outcome, remedy: str
) -> None:
    rule = f"{RULES}    otherwise: {otherwise}\n    remedy: {{say: Thicken the wall.}}\n"
    (finding,) = check_folder(project(text=WALLS.replace("16 in", thickness), rules=rule)).findings
    assert (finding.outcome, finding.remedy) == (outcome, remedy)


def test_what_is_missing_or_open_asks_for_no_change(project: Write) -> None:
    remedy = "    remedy: {say: Thicken the wall.}\n"
    lacking = RULES.replace("wall.least_thickness >=", "wall.least_thickness * site.sds >=")
    opened = RULES.replace("value: 10 in, standing: read, source: trial", "value: open, kind: length, standing: open")
    for rule, outcome in ((lacking, Outcome.MISSING), (opened, Outcome.CONFIRM)):
        (finding,) = check_folder(project(rules=rule + remedy)).findings
        assert (finding.outcome, finding.remedy) == (outcome, "")


def test_what_rests_on_something_open_says_where_to_read_it(project: Write) -> None:
    """The rule's source, where it has one, else its clause. What does not meet, and what is known, stays as it is."""
    folder = project()
    (finding,) = check_folder(folder).findings
    (rule,) = read_rule_set(folder / "rules.yaml", "rules.yaml").rules
    opened = replace(finding, standing=Standing.OPEN)
    found = withheld(opened, rule)
    assert found.outcome is Outcome.CONFIRM
    assert sentence(found) == f"{sentence(finding)}; something it rests on is not known; where to read it: T1"
    of_rule = withheld(opened, replace(rule, standing=Standing.OPEN, source="page 7"))
    unknown = "the rule itself is not known to stand in the adopted code"
    assert sentence(of_rule) == f"{sentence(finding)}; {unknown}; where to read it: page 7"
    for outcome in set(Outcome) - {Outcome.MEETS}:
        assert withheld(replace(opened, outcome=outcome), rule).outcome is outcome
    for standing in (None, *set(Standing) - {Standing.OPEN}):
        assert withheld(replace(finding, standing=standing), rule).outcome is Outcome.MEETS
