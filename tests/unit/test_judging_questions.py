"""Answers of several rule sets to one question, side by side: the worse governs, then the one with less margin left."""

from __future__ import annotations

import pytest

from compliance.findings import Finding, Outcome, Standing
from compliance.judging.questions import Question, side_by_side
from compliance.judging.reasons import RuleSays
from compliance.problems import Place
from compliance.record import replace
from compliance.report.words.question_words import governing_words


def answer(
    rule_set: str, outcome: Outcome = Outcome.MEETS, margin: float | None = None, question: str = "wall-thickness",
    about: str = "wall", subject: str = "W1", rule: str = "r",
) -> Finding:  # fmt: skip
    return Finding(
        rule_set=rule_set, rule=rule, kind="limit", title="Title", clause="1", about=about, subject=subject,
        outcome=outcome, standing=None, say="Says.", reason=RuleSays("reason"), place=Place("project.yaml"),
        margin=margin, wall="W1", question=question,
    )  # fmt: skip


def asked(*answers: Finding) -> Question:
    (question,) = side_by_side(answers)
    return question


def why(found: Question) -> str:
    return governing_words(found, found.governs.rule_set)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("better", list(Outcome)[1:-1])
def test_the_worse_outcome_governs_whatever_the_margins(turned: bool, better: Outcome) -> None:
    """Outcomes stand worst first; what does not apply is no answer."""
    worse = Outcome(list(Outcome)[better.rank - 1])
    answers = [answer("a", better, 0.1), answer("b", worse, 0.9)]
    found = asked(*(reversed(answers) if turned else answers))
    assert found.governs.rule_set == "b"
    assert why(found) == f"b governs: its answer is the worse one ({worse.value})"


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(("less", "more"), [(0.1, 0.2), (-0.2, -0.1), (0.0, 0.1), (0.5, None), (-0.5, None)])
def test_of_like_outcomes_the_one_with_less_margin_governs(turned: bool, less: float, more: float | None) -> None:
    answers = [answer("a", margin=more), answer("b", margin=less)]
    found = asked(*(reversed(answers) if turned else answers))
    assert (found.governs.rule_set, why(found)) == (
        "b",
        "b governs: it leaves the least margin",
    )
    assert [one.rule_set for one in found.findings] == (["b", "a"] if turned else ["a", "b"])


def test_one_better_answer_among_several_makes_the_worse_one_govern() -> None:
    found = asked(answer("a", Outcome.REVISE, -0.1), answer("b", Outcome.REVISE, -0.2), answer("c", margin=0.1))
    assert (found.governs.rule_set, why(found)) == (
        "b",
        "b governs: its answer is the worse one (revise)",
    )


def test_one_margin_that_is_greater_makes_the_least_one_govern_though_another_is_like_it() -> None:
    found = asked(answer("a", margin=0.3), answer("b", margin=0.1), answer("c", margin=0.1))
    assert (found.governs.rule_set, why(found)) == (
        "b",
        "b governs: it leaves the least margin",
    )


def test_answers_without_margins_are_alike() -> None:
    found = asked(answer("a"), answer("b"))
    assert (found.governs.rule_set, why(found)) == (
        "a",
        "all answers are alike (meets)",
    )
    assert (found.id, found.title, found.subject, found.wall) == ("wall-thickness", "wall thickness", "W1", "W1")


def test_of_answers_alike_in_margin_the_one_less_known_governs() -> None:
    read, recalled = (replace(answer(mark, margin=0.1), standing=standing)
                      for mark, standing in (("a", Standing.READ), ("b", Standing.RECALLED)))  # fmt: skip
    for answers in ((read, recalled), (recalled, read)):
        found = asked(*answers)
        assert (found.governs.rule_set, why(found)) == (
            "b",
            "all answers are alike (meets)",
        )


def test_only_answers_of_several_rule_sets_stand_side_by_side() -> None:
    assert side_by_side([answer("a")]) == ()
    assert side_by_side([answer("a"), answer("a", Outcome.REVISE, rule="s")]) == ()
    assert side_by_side([answer("a"), answer("b", Outcome.NOT_APPLICABLE)]) == ()
    assert side_by_side([answer("a", question=""), answer("b", question="")]) == ()


def test_answers_of_one_rule_set_count_beside_those_of_another() -> None:
    found = asked(answer("a"), answer("a", Outcome.REVISE, rule="s"), answer("b", Outcome.MISSING))
    assert len(found.findings) == 3 and found.governs.rule == "s"


def test_each_subject_has_its_own_question() -> None:
    """A wall and an opening may bear the same mark."""
    assert side_by_side([answer("a"), answer("b", subject="W2")]) == ()
    assert side_by_side([answer("a"), answer("b", question="wall-height")]) == ()
    assert side_by_side([answer("a"), answer("b", about="opening")]) == ()
    both = side_by_side([answer("a"), answer("a", subject="W2"), answer("b", subject="W2"), answer("b")])
    assert [one.subject for one in both] == ["W1", "W2"]
