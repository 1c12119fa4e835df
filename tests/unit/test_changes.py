"""Two revisions beside each other: what counts as a change, which way it goes, and that units do not matter."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.model.issued import FindingsRecord
from compliance.report.revisions.input_data import inputs_data
from compliance.report.revisions.revision_changes import changes
from compliance.report.revisions.revision_words import revision_text
from tests.conftest import ATTESTED_RULE, RULES, Write

HEAD = {"name": "Two walls", "revision": "A", "date": "2026-01-02", "units": "us", "fingerprint": "0" * 64}


def value(number: float, unit: str = "in") -> dict[str, Any]:
    return {"text": f"{number:g} {unit}", "number": number, "unit": unit}


def finding(subject: str = "W1", outcome: str = "revise", **more: Any) -> dict[str, Any]:
    return {
        "rule_set": "trial", "rule": "thick", "kind": "limit", "title": "Thickness", "clause": "T.1", "about": "wall",
        "subject": subject, "wall": subject.partition(".")[0], "outcome": outcome, "verdict": outcome,
        "standing": "read", "value": value(9), "relation": ">=", "limit": value(10), "margin": -0.1, "say": "",
        "why": "compared", "reason_values": {"holds": False}, "reason": "9 in < 10 in minimum",
        "at": {"file": "project.yaml", "line": 3}, **more,
    }  # fmt: skip


def limit(**more: Any) -> dict[str, Any]:
    return {
        "rule_set": "trial", "rule": "thick", "name": "least", "title": "Thickness", "clause": "T.1",
        "value": value(10), "standing": "read", "source": "trial", **more,
    }  # fmt: skip


def result(*findings: dict[str, Any], limits: tuple[dict[str, Any], ...] = (), **more: Any) -> FindingsRecord:
    rule_sets = [{"rule_set": "trial", "title": "T", "edition": "2026", "status": "practice", "jurisdiction": "none"}]
    data = {"project": HEAD, "rule_sets": rule_sets, "tally": {}, "findings": list(findings), "limits": list(limits)}
    return FindingsRecord.model_validate({**data, **more})


def test_the_same_is_no_change() -> None:
    found = changes(result(finding(), limits=(limit(),)), result(finding(), limits=(limit(),)))
    assert found.nothing
    assert "no finding and no limit changed" in revision_text(found, 100)


@pytest.mark.parametrize(
    ("before", "after", "word"),
    [
        ("revise", "meets", "better"), ("meets", "revise", "worse"), ("engineer", "revise", "better"),
        ("missing", "confirm", "better"), ("meets", "engineer", "worse"), ("not-applicable", "meets", "changed"),
        ("engineer", "not-applicable", "changed"),
    ],
)  # fmt: skip
def test_direction(before: str, after: str, word: str) -> None:
    (change,) = changes(result(finding(outcome=before)), result(finding(outcome=after))).findings
    assert change.word == word


def test_other_units_are_no_change_and_other_values_are() -> None:
    """10 in are 254 mm exactly, by definition of the inch."""
    us = finding(value=value(10), limit=value(10))
    si = finding(value=value(254, "mm"), limit=value(254, "mm"), reason="254 mm ≥ 254 mm minimum")
    assert changes(result(us), result(si)).nothing
    assert not changes(result(us), result({**si, "value": value(255, "mm")})).nothing
    assert changes(result(limits=(limit(),)), result(limits=(limit(value=value(254, "mm")),))).nothing


def test_an_unknown_unit_is_compared_as_text() -> None:
    one = finding(value=value(3, "ells"))
    assert changes(result(one), result(one)).nothing
    assert not changes(result(one), result(finding(value=value(4, "ells")))).nothing


def test_a_reason_counts_where_there_are_no_figures() -> None:
    plain: dict[str, Any] = {"value": None, "limit": None, "margin": None}
    answered: dict[str, Any] = {"why": "answered", "reason_values": {"by": "A", "answer": True}}
    one = finding(reason="A says yes", **answered, **plain)
    for other in (
        {"reason_values": {"by": "B", "answer": True}, "reason": "B says yes"},
        {"why": "no-answer", "reason_values": {"ask": "Is it dry?"}},
        {"missing": [{"kind": "field", "parts": ["walls", "W1", "mix"], "file": "walls.yaml"}]},
    ):
        assert [change.word for change in changes(result(one), result({**one, **other})).findings] == ["changed"]
    assert changes(result(one), result({**one, "reason": "the same, in other words"})).nothing
    values: dict[str, Any] = {"reason_values": {"by": "B"}}
    assert changes(result(finding()), result(finding(**values))).nothing
    said: dict[str, Any] = {"value": {"text": "yes"}, "limit": None}
    assert changes(result(finding(**said)), result(finding(**said, **values))).nothing


def test_a_lack_in_another_file_is_no_change() -> None:
    plain: dict[str, Any] = {"value": None, "limit": None, "margin": None, "why": "lacks"}
    one, other = (
        finding(missing=[{"kind": "field", "parts": ["walls", "W1", "mix"], "file": file}], **plain)
        for file in ("walls.yaml", "project.yaml")
    )
    assert changes(result(one), result(other)).nothing


def test_walls_that_come_and_go() -> None:
    found = changes(result(finding("W1"), finding("W2")), result(finding("W2"), finding("W3")))
    assert (found.walls_new, found.walls_gone) == (("W3",), ("W1",))
    assert found.counts() == {"worse": 0, "better": 0, "changed": 0, "new": 1, "gone": 1}
    text = revision_text(found, 100)
    assert "walls that are new: W3" in text and "walls that are gone: W1" in text


def test_walls_come_first_in_the_order_of_the_later_revision() -> None:
    mix = finding("M1", about="mix", wall=None)
    before = result(mix, finding("W1"), finding("W2.D1", about="opening"))
    after = result(
        {**mix, "outcome": "meets"}, finding("W2.D1", "meets", about="opening"), finding("W1", "meets")
    )  # fmt: skip
    assert [name for name, _ in changes(before, after).by_subject] == ["wall W2", "wall W1", "mix M1"]


def test_limits_and_editions() -> None:
    opened = limit(value=None, standing="open")
    amended = {"before": None, "by": "R. Pell", "on": "2026-05-14", "authority": "county", "reason": "read"}
    now = limit(standing="confirmed", amended=amended)
    sets = [{"rule_set": "trial", "title": "T", "edition": "2027", "status": "practice", "jurisdiction": "none"}]
    found = changes(result(limits=(opened,)), result(limits=(now,), rule_sets=sets))
    text = revision_text(found, 100)
    assert "open (open) -> 10 in (confirmed, amended by R. Pell on 2026-05-14)" in " ".join(text.split())
    assert "rule set trial: 2026 -> 2027" in text


def test_several_findings_of_one_rule_and_subject_go_in_pairs() -> None:
    twice = (finding("M1", about="mix", wall=None), finding("M1", "missing", about="mix", wall=None))
    assert changes(result(*twice), result(*twice)).nothing


def test_inputs_stand_first_then_what_they_did_one_line_a_rule() -> None:
    """Another unit for the same size is no change; a field that is new or gone is."""
    before, after = result(finding("W1"), finding("W2")), result(finding("W1", "meets"), finding("W2", "meets"))
    assert changes(before, after).inputs is None
    assert "changed inputs are not listed" in " ".join(revision_text(changes(before, after), 100).split())
    snow = {"text": "25 psf", "number": 1197.0}
    one = FindingsRecord.model_validate(before.model_dump() | {"inputs": {
        "site.ground_snow": snow, "walls.W1.height": {"text": "8 ft", "number": 2.4384},
        "site.flood_zone": {"text": "no"},
    }})  # fmt: skip
    other = FindingsRecord.model_validate(after.model_dump() | {"inputs": {
        "site.ground_snow": {"text": "30 psf", "number": 1436.4},
        "walls.W1.height": {"text": "96 in", "number": 2.4384},
    }})  # fmt: skip
    lines = revision_text(changes(one, other), 100).splitlines()
    at = lines.index("Inputs")
    assert lines[at + 1 : at + 3] == ["  site.ground_snow: 25 psf -> 30 psf", "  site.flood_zone: no -> none"]
    did = lines[lines.index("What that did") + 1 :]
    assert did[0].startswith("  better   W1, W2: Thickness") and sum("better" in line for line in did) == 1
    by_wall = revision_text(changes(one, other), 100, by_wall=True)
    assert by_wall.count("  better ") == 2 and "Wall W1" in by_wall


def test_what_is_stated_is_kept_once(project: Write) -> None:
    """A value of the type stands at the type, one of its own at the wall; a row of the lab shows in the digest."""
    typed = """\
wall_types: {outer: {height: 8 ft, thickness: 16 in, mix: M1}}
walls:
  W1: {type: outer, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, thickness: 18 in}
test_sets: {T1: {kind: compression, mix: M1}}
attestations: [{rule: covered, about: W1, answer: yes, by: Ana, on: 2026-05-14}]
"""
    head = "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],"
    head += "peak_load [lbf],strength [psi]"
    lab = f"{head}\nT1,a,M1,2026-04-06,2026-05-20,air,cube,4,4,4,4.2,{{}},\n"
    rules = RULES + ATTESTED_RULE
    found = [
        inputs_data(check_folder(project(text=typed, rules=rules, files={"lab/compression.csv": lab.format(load)})))
        for load in (1600, 1700)
    ]
    assert found[0]["wall_types.outer.height"] == {"text": "8 ft", "number": pytest.approx(2.4384)}
    assert found[0]["walls.W1.thickness"]["text"] == "18 in" and "walls.W1.height" not in found[0]
    assert found[0]["walls.W1.run.from"]["text"] == "0 ft, 0 ft"
    assert found[0]["attestations.1"]["text"].startswith("rule covered; about W1; answer yes")
    differing = {path for path in found[0] if found[0][path] != found[1][path]}
    assert differing == {"lab.T1"} and not {"project.date", "project.revision"} & found[0].keys()
