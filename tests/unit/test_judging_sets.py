"""Which specimens of a set a test rule counts, and what is said where the rule or the set leaves something open."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome, Standing
from compliance.report.words.missing_words import missing_texts
from compliance.units import Writer
from tests.conftest import RULES, WALLS, Write
from tests.sentences import sentence

PSI = 6894.757293168
STRONG = """\
  - id: strong
    title: Strength
    clause: T1
    about: mix
    test: {of: compression, statistic: governs}
    limits:
      least: {value: 60 psi, standing: read, source: trial}
      governs: {value: lowest, standing: read, source: trial}
    check: result >= least
    say: Strong enough.
"""
SHRUNK = """\
  - id: shrunk
    title: Shrinkage
    clause: T2
    about: mix
    test: {of: shrinkage, statistic: governs}
    limits:
      most: {value: 4 %, standing: read, source: trial}
      governs: {value: highest, standing: read, source: trial}
    check: result <= most
    say: Shrinks little.
"""
SETS = "test_sets: {C1: {kind: compression, mix: M1}, H1: {kind: shrinkage, mix: M1}}\n"
CRUSHED = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)
BARS = "set,specimen,mix,cast,tested,dried,shape,form_length [in],dried_length [in]\n"
OPEN = ("value: 60 psi, standing: read, source: trial", "value: open, kind: stress, standing: open")


def of_rule(project: Write, rule: str, rows: str = "", bars: str = "", sets: str = SETS) -> list[Finding]:
    files = {"lab/compression.csv": CRUSHED + rows, "lab/shrinkage.csv": BARS + bars}
    found = check_folder(project(text=WALLS + sets, rules=RULES + rule, files=files)).findings
    return [one for one in found if one.rule in ("strong", "shrunk")]


def judged(project: Write, rule: str, rows: str = "", bars: str = "") -> Finding:
    (found,) = of_rule(project, rule, rows, bars)
    return found


def crushed(mark: str, load: float, height: float = 4, cast: str = "", tested: str = "", dried: str = "air") -> str:
    """A prism of 4 × 4 in: 16 lbf make 1 psi."""
    return f"C1,{mark},M1,{cast},{tested},{dried},prism,4,4,{height},,{load},\n"


def asked(rule: str, more: str, limit: str) -> str:
    """The rule that asks for more of its specimens, by a limit of its own."""
    limits = f"    limits:\n      {limit}\n"
    return rule.replace("statistic: governs}", f"statistic: governs, {more}}}").replace("    limits:\n", limits)


def set_aside(finding: Finding) -> dict[str, object]:
    return {one.mark: one.why for one in finding.aside}


@pytest.mark.parametrize(
    ("tested", "counts", "why"),
    [
        ("2026-01-29", True, ""),
        ("2026-01-28", False, "tested at an age of 27 days; 28 days minimum"),
        ("", False, "tested at an age not known; 28 days minimum"),
    ],
)
def test_a_specimen_counts_from_the_day_of_its_least_age(project: Write, tested: str, counts: bool, why: str) -> None:
    """The first of January and 28 days more are the 29th. What counts is 80 psi, what may not would govern with 70."""
    rule = asked(STRONG, "least_age: age", "age: {value: 28 days, standing: read, source: trial}")
    old = crushed("old", 1280, cast="2026-01-01", tested="2026-03-01")
    found = judged(project, rule, old + crushed("young", 1120, cast="2026-01-01", tested=tested))
    assert found.value is not None and found.value.value == pytest.approx((70 if counts else 80) * PSI)
    assert set_aside(found) == ({} if counts else {"young": why})


@pytest.mark.parametrize(
    ("height", "counts", "why"),
    [
        ("8", True, ""),
        ("12", True, ""),
        ("7.9", False, "height to width 1.98; 2 minimum"),
        ("", False, "height to width not known; 2 minimum"),
    ],
)
def test_a_specimen_counts_from_its_least_height_to_width(project: Write, height: str, counts: bool, why: str) -> None:
    """Twice as high as wide is 8 in here. A specimen whose height nobody gave does not count."""
    rule = asked(STRONG, "least_height_to_width: ratio", "ratio: {value: 2, kind: ratio, standing: read, source: t}")
    found = judged(project, rule, crushed("tall", 1280, 16) + f"C1,other,M1,,,air,prism,4,4,{height},,1120,\n")
    assert found.value is not None and found.value.value == pytest.approx((70 if counts else 80) * PSI)
    assert set_aside(found) == ({} if counts else {"other": why})


def test_a_specimen_dried_in_another_way_is_set_aside(project: Write) -> None:
    rule = asked(STRONG, "dried: how", "how: {value: [air], standing: read, source: trial}")
    rows = crushed("a", 1280) + crushed("b", 960, dried="oven") + crushed("c", 960, dried="")
    found = judged(project, rule, rows)
    assert found.outcome is Outcome.MEETS
    assert set_aside(found) == {
        "b": "dried oven; air required", "c": "dried in a way not given; air required",
    }  # fmt: skip


def test_a_specimen_of_another_shape_is_set_aside(project: Write) -> None:
    rule = asked(STRONG, "shapes: forms", "forms: {value: [prism, cube], standing: read, source: trial}")
    rows = crushed("a", 1280) + "C1,b,M1,,,air,cylinder,4,,8,,600,\n" + "C1,c,M1,,,air,,4,4,8,,600,\n"
    found = judged(project, rule, rows)
    assert found.outcome is Outcome.MEETS
    assert set_aside(found) == {
        "b": "shape cylinder; cube or prism required", "c": "shape not given; cube or prism required",
    }  # fmt: skip


def test_where_none_counts_nothing_is_met_and_rows_are_asked_for(project: Write) -> None:
    rule = asked(STRONG, "dried: how", "how: {value: [oven], standing: read, source: trial}")
    found = judged(project, rule, crushed("a", 1280))
    assert (found.outcome, sentence(found)) == (Outcome.MISSING, "no specimen of C1 counts")
    assert missing_texts(found) == ("rows of set C1 in lab/compression.csv",) and set(set_aside(found)) == {"a"}
    empty = judged(project, rule)
    assert (empty.outcome, sentence(empty)) == (Outcome.MISSING, "C1 has no rows in lab/compression.csv")


def test_each_set_of_the_kind_has_a_finding(project: Write) -> None:
    sets = SETS.replace("{C1:", "{C2: {kind: compression, mix: M1}, C1:")
    found = of_rule(project, STRONG, crushed("a", 1280) + crushed("b", 640).replace("C1", "C2"), sets=sets)
    assert {one.subject: one.outcome for one in found} == {"C1": Outcome.MEETS, "C2": Outcome.REVISE}


def test_without_a_set_of_the_kind_the_mix_lacks_one(project: Write) -> None:
    sets = "test_sets: {H1: {kind: shrinkage, mix: M1}}\n"
    (found,) = of_rule(project, STRONG, sets=sets)
    assert (found.about, found.subject, found.outcome) == ("mix", "M1", Outcome.MISSING)
    assert sentence(found) == "mix M1 has no compression test"
    assert missing_texts(found) == ("a compression set of mix M1 under test_sets: in project.yaml",)
    (waits,) = of_rule(project, STRONG.replace(*OPEN), sets=sets)
    assert (waits.about, waits.outcome, waits.standing) == ("mix", Outcome.CONFIRM, Standing.OPEN)


def test_an_open_limit_waits_whatever_the_rows_show(project: Write) -> None:
    (found,) = of_rule(project, STRONG.replace(*OPEN), crushed("a", 1280))
    assert (found.about, found.subject, found.outcome) == ("set", "C1", Outcome.CONFIRM)
    assert found.standing is Standing.OPEN and "the limit is not known" in sentence(found)


WHEN = "    about: mix\n    when: mix.clay > share\n"
SHARE = "      share: {value: 10 %, standing: read, source: trial}\n"


def where_clayey(rule: str) -> str:
    return rule.replace("    about: mix\n", WHEN).replace("    limits:\n", f"    limits:\n{SHARE}")


def test_where_it_is_not_known_whether_the_rule_applies_a_strong_set_does_not_meet(project: Write) -> None:
    """Nobody has said how much clay the soil of the mix holds."""
    (found,) = of_rule(project, where_clayey(STRONG), crushed("a", 1280))
    assert (found.about, found.outcome) == ("mix", Outcome.MISSING)
    assert any("soils.S1" in field for field in missing_texts(found))
    (waits,) = of_rule(project, where_clayey(STRONG).replace(*OPEN), crushed("a", 1280))
    assert waits.outcome is Outcome.CONFIRM


def test_where_the_rule_does_not_apply_an_open_limit_asks_for_nothing(project: Write) -> None:
    rule = STRONG.replace("    about: mix\n", "    about: mix\n    when: mix.replaced\n")
    for text in (rule, rule.replace(*OPEN)):
        (found,) = of_rule(project, text, crushed("a", 640))
        assert (found.about, found.outcome) == ("mix", Outcome.NOT_APPLICABLE)


def test_what_governs_is_printed_as_a_stress_or_a_share(project: Write) -> None:
    """24 in of form and 23.4 in of bar: 0.6 / 24 is 2.5 %. 1280 lbf on 16 square inches are 80 psi."""

    def governing_line(found: Finding) -> str:
        return next(step.line(Writer("us")) for step in found.steps if step.result.meaning == "governing value")

    strong = judged(project, STRONG, crushed("a", 1280) + crushed("b", 1600))
    assert [step.says for step in strong.steps[:2]] == ["a: compressive strength", "b: compressive strength"]
    assert governing_line(strong).endswith("= min(80 psi, 100 psi) = 80 psi")
    shrunk = judged(project, SHRUNK, bars="H1,a,M1,,,air,bar,24,23.4\nH1,b,M1,,,air,bar,24,23.52\n")
    assert governing_line(shrunk).endswith("= max(2 %, 2.5 %) = 2.5 %")


def test_too_few_values_to_rank_are_missing(project: Write) -> None:
    """The second lowest of at least three."""
    more = "parameters: {k: rank, of: count}"
    rule = asked(STRONG, more, "rank: {value: 2, kind: count, standing: read, source: trial}").replace(
        "lowest", "kth-lowest"
    )
    rule = rule.replace(
        "    limits:\n", "    limits:\n      count: {value: 3, kind: count, standing: read, source: t}\n"
    )
    rows = crushed("a", 1280) + crushed("b", 640)
    few = judged(project, rule, rows)
    assert few.outcome is Outcome.MISSING and sentence(few).startswith("the value that governs C1 cannot be found: ")
    assert missing_texts(few) == ("rows of set C1 in lab/compression.csv",)
    enough = judged(project, rule, rows + crushed("c", 1600))
    assert enough.value is not None and enough.value.value == pytest.approx(80 * PSI)


def test_of_enough_specimens_the_strength_is_shown_of_too_few_their_number(project: Write) -> None:
    """One of 5 psi over the least leaves a twelfth, three specimens where three are asked leave nothing."""
    rule = STRONG.replace("result >= least", "result >= least and specimens >= count").replace(
        "    limits:\n", "    limits:\n      count: {value: 3, kind: count, standing: read, source: trial}\n"
    )
    rows = crushed("a", 1040) + crushed("b", 1280)
    few = judged(project, rule, rows)
    assert few.outcome is Outcome.REVISE and few.value is not None
    assert (few.value.symbol, few.value.value, sentence(few)) == ("specimens", 2, "specimens 2 < 3 minimum")
    enough = judged(project, rule, rows + crushed("c", 1280))
    assert enough.outcome is Outcome.MEETS and enough.value is not None and enough.margin is not None
    assert enough.value.symbol == "result" and enough.margin == pytest.approx(1 / 12)


def test_a_specimen_without_a_result_waits_and_is_not_set_aside(project: Write) -> None:
    """Nothing of the rule keeps it out: the laboratory has not answered."""
    waits = "C1,late,M1,,,air,prism,4,4,8,,,\n"
    found = judged(project, STRONG, waits)
    assert (found.outcome, sentence(found)) == (Outcome.MISSING, "no specimen of C1 has a result")
    assert [step.says for step in found.steps] == ["late has no result"] and set_aside(found) == {}
    with_one = judged(project, STRONG, crushed("a", 1280) + waits)
    assert with_one.value is not None and with_one.value.value == pytest.approx(80 * PSI)
    assert "late has no result" in [step.says for step in with_one.steps] and set_aside(with_one) == {}
    rule = asked(STRONG, "dried: how", "how: {value: [oven], standing: read, source: trial}")
    assert sentence(judged(project, rule, crushed("a", 1280) + waits)) == "no specimen of C1 counts"
