"""Answers, limits and inspections entered on a page stand in the files as the commands write them, or not at all."""

from __future__ import annotations

import html
import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.desk.kept_check import Watcher
from compliance.desk.paperwork.inspection_pages import points_asked
from compliance.desk.paperwork.limit_pages import limit_fields
from compliance.editing.evidence_files import Evidence
from compliance.editing.limit_confirmation import Confirmation, confirm_limits
from compliance.editing.written_answers import GivenAnswer, enter_answers
from compliance.report.answer.questions_due import questions_due
from compliance.report.limits.limit_list import limits_of_codes
from compliance.units import Writer
from tests.desk.served import Visitor, served
from tests.desk.test_editing import state
from tests.desk.test_pages import words

DAY = "2026-11-20"
UPLIFT = "uplift-anchorage"


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def test_the_pages_ask_all_that_the_commands_ask(reader: Visitor) -> None:
    checked = check_folder(reader.desk.kept.folder)
    page = words(reader.get("/questions").text)
    asked = [one for one in questions_due(checked) if one.section == "attestations"]
    assert len(asked) > 5 and all(words(one.asks) in page and one.rule.title in page for one in asked)
    limits = html.unescape(reader.get("/limits").text)
    fields = list(limit_fields(checked, limits_of_codes(checked)))
    assert len(fields) > 25 and all(f'name="{one.name}"' in limits for one in fields)
    inspections = words(reader.get("/inspections").text)
    points = points_asked(checked)
    assert len(points) > 5 and all(words(one.asks) in inspections for one in points)


def test_answers_are_entered_as_the_command_enters_them_and_taken_back(house: Path, tmp_path: Path) -> None:
    before, other = state(house), tmp_path / "other"
    shutil.copytree(house, other)
    hostile = "said <b>loud</b>: #yes"
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        fields = [("do", "answer"), ("by", "Ana Diaz"), ("on", DAY), (f"all:{UPLIFT}", "yes"),
                  (f"one:{UPLIFT}:W6", "no"), (f"evidence:{UPLIFT}", "notes"), (f"note:{UPLIFT}", hostile)]  # fmt: skip
        reply = visitor.post("/questions", fields)
        assert (reply.status, reply.headers["location"]) == (303, "/questions")
        page = visitor.get("/questions").text
        assert "Anchorage against uplift (W1, W2, W3, W4, W5): " in words(page) and "<b>loud" not in page
        assert 'value="Ana Diaz"' in page and f'name="all:{UPLIFT}"' not in page
        after = state(house)
        assert visitor.post("/undo").status == 303 and state(house) == before
    said = [(True, ("W1", "W2", "W3", "W4", "W5")), (False, ("W6",))]
    enter_answers(other, [
        GivenAnswer("attestations", rule=UPLIFT, about=marks, answer=answer, by="Ana Diaz",
                    on=date.fromisoformat(DAY), evidence=(Evidence("notes"),), note=hostile)
        for answer, marks in said
    ])  # fmt: skip
    assert after == state(other) != before


LIMIT = "cob-irc-2021-au/wall-height/most"
REFUSED: dict[str, tuple[str, dict[str, str], str, int]] = {
    "nobody": ("/questions", {"do": "answer", "on": DAY, f"all:{UPLIFT}": "yes"}, "who says so", 422),
    "no day": ("/questions", {"do": "answer", "by": "A", "on": "May", f"all:{UPLIFT}": "yes"}, "is no day", 422),
    "nothing": ("/questions", {"do": "answer", "by": "A", "on": DAY}, "nothing is answered", 422),
    "no answer": ("/questions", {"do": "answer", "by": "A", "on": DAY, f"all:{UPLIFT}": "x"}, "yes or no", 422),
    "not asked": ("/questions", {"do": "answer", "by": "A", "on": DAY, "all:x": "yes"}, "not asked any more", 409),
    "no such paper": ("/questions", {"do": "answer", "by": "A", "on": DAY, f"all:{UPLIFT}": "yes",
                                     f"evidence:{UPLIFT}": "/etc/passwd"}, "no photo", 409),
    "a hidden character": ("/questions", {"do": "answer", "by": "A\u202eb", "on": DAY, f"all:{UPLIFT}": "no"}, "", 422),
    "no measure": ("/limits", {"do": "confirm", "by": "R. Pell", "on": DAY, "VALUE": "8 bananas"}, "bananas", 422),
    "nobody read it": ("/limits", {"do": "confirm", "on": DAY, "VALUE": "8 ft"}, "who read it", 422),
    "no limit": ("/limits", {"do": "confirm", "by": "R. Pell", "on": DAY, "a/b/c/value": "1"}, "any more", 409),
    "another edition": ("/limits", {"do": "confirm", "by": "R", "on": DAY, "VALUE": "8 ft", "EDITION": "x"}, "", 422),
    "no finding": ("/questions", {"do": "accept", "finding": "a/b W1", "accepted-on": DAY}, "any more", 409),
    "no letter": ("/questions", {"do": "accept", "finding": "FINDING", "official": "R", "accepted-on": DAY}, "", 422),
    "no stage": ("/questions", {"do": "stage", "stage": "never"}, "choose a stage", 422),
    "no form": ("/questions", {"do": "else"}, "no page", 400),
}  # fmt: skip


def test_what_cannot_be_taken_is_not_written_and_stands_there_still(house: Path) -> None:
    checked = check_folder(house)
    field = next(one for one in limit_fields(checked, limits_of_codes(checked)) if one.row is None
                 and one.limit.value is not None and one.limit.value.kind == "length")  # fmt: skip
    finding = next(one for one in checked.findings if one.outcome.value == "engineer")
    names = {"VALUE": field.name, "EDITION": field.beside("edition")}
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        for name, (path, fields, says, status) in REFUSED.items():
            sent = {names.get(key, key): value for key, value in fields.items()}
            if sent.get("finding") == "FINDING":
                sent["finding"] = f"{finding.rule_set}/{finding.rule} {finding.subject}"
            reply = visitor.post(path, sent)
            assert reply.status == status and says in words(reply.text), (name, reply.status, words(reply.text)[:900])
            assert state(house) == before, name
            if status != 400:
                assert 'data-typed="yes"' in reply.text, name
        reply = visitor.post("/questions", {"do": "answer", "on": DAY, f"note:{UPLIFT}": "<i>kept</i>"})
        assert "&lt;i&gt;kept&lt;/i&gt;</textarea>" in reply.text


def test_limits_are_confirmed_as_the_command_confirms_them(house: Path, tmp_path: Path) -> None:
    before, other = state(house), tmp_path / "other"
    shutil.copytree(house, other)
    checked = check_folder(house)
    fields = list(limit_fields(checked, limits_of_codes(checked)))
    plain = next(one for one in fields if one.row is None and one.limit.standing.value == "reported"
                 and one.limit.value is not None and one.limit.value.kind == "length")  # fmt: skip
    assert plain.limit.value is not None
    text = plain.limit.value.written(Writer("us"))
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        sent = {"do": "confirm", "by": "R. Pell", "on": DAY, plain.name: text, plain.beside("where"): "page 4"}
        assert visitor.post("/limits", sent).status == 303
        page = words(visitor.get("/limits").text)
        assert "confirmed unchanged by R. Pell on 2026-11-20; page 4" in page
        after = state(house)
        assert visitor.post("/undo").status == 303 and state(house) == before
    rule = f"{plain.limit.rule_set}/{plain.limit.rule}"
    day = date.fromisoformat(DAY)
    confirm_limits(other, [Confirmation(rule, plain.limit.name, value=text, by="R. Pell", where="page 4", on=day)])
    assert after == state(other) != before


def test_a_point_is_recorded_a_finding_accepted_and_the_stage_moved(house: Path) -> None:
    checked = check_folder(house)
    point = next(one for one in points_asked(checked) if one.name == "inspect-first-lift" or "First lift" in one.title)
    accepted = next(one for one in checked.findings if one.outcome.value == "revise")
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        sent = {"do": "inspect", "by": "Bo", "on": DAY, f"one:{point.key}:W1": "no", f"evidence:{point.key}": "mixing"}
        assert visitor.post("/inspections", sent).status == 303
        assert "To be inspected again: W1." in words(visitor.get("/inspections").text)
        named = f"{accepted.rule_set}/{accepted.rule} {accepted.subject}"
        sent = {"do": "accept", "finding": named, "official": "R. Pell", "accepted-on": "2026-09-01",
                "document": "Letter 12", "condition": "", "until": ""}  # fmt: skip
        reply = visitor.post("/questions", sent)
        assert reply.status == 303, words(reply.text)[:600]
        assert visitor.post("/questions", {"do": "stage", "stage": "completion"}).status == 303
        now = check_folder(house)
        assert now.project.inspections[-1].evidence == ["mixing"] and now.project.inspections[-1].passed is False
        assert now.project.accepted[-1].document == "Letter 12" and now.project.project.stage == "completion"
        for _ in range(3):
            assert visitor.post("/undo").status == 303
    assert state(house) == before


def test_what_an_editor_saves_while_an_answer_is_judged_is_not_lost(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = house / "project.yaml"
    judged = enter_answers.__globals__["check_folder"]

    def saved_meanwhile(*given: object, **named: object) -> object:
        project.write_text(project.read_text("utf-8") + "# saved meanwhile\n", "utf-8")
        return judged(*given, **named)

    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        visitor.get("/questions")
        monkeypatch.setitem(enter_answers.__globals__, "check_folder", saved_meanwhile)
        sent = {"do": "answer", "by": "A", "on": DAY, f"all:{UPLIFT}": "no"}
        reply = visitor.post("/questions", sent)
    assert reply.status == 409 and "changed meanwhile" in words(reply.text)
    assert re.search(r"# saved meanwhile\n$", project.read_text("utf-8"))
