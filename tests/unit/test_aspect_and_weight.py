"""Strengths corrected for the height to width of each specimen, and beams that count their own weight, as rules ask."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.problems import ProblemsFound
from compliance.units import Writer
from tests.conftest import RULES, WALLS, Write
from tests.sentences import sentence

PSI = 6894.757293168
TEST = """\
  - id: strong
    title: Strength
    clause: T1
    about: mix
    test: {of: compression, statistic: governs, aspect: factors}
    limits:
      least: {value: 60 psi, standing: read, source: trial}
      governs: {value: lowest, standing: read, source: trial}
    tables:
      factors:
        rows: {fact: specimen.height_to_width, at: [1, 2, 3], worse: smaller}
        cells: [[0.6], [0.8], [1]]
        kind: ratio
        between: linear
        standing: reported
        source: trial table
    check: result >= least
    say: Strong enough.
"""
SETS = "test_sets: {C1: {kind: compression, mix: M1}, R1: {kind: rupture, mix: M1}}\n"
CRUSHED = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)


def judged(project: Write, test: str, rows: str, name: str = "compression", head: str = CRUSHED) -> Finding:
    files = {f"lab/{name}.csv": head + rows}
    found = check_folder(project(text=WALLS + SETS, rules=RULES + test, files=files)).findings
    return next(one for one in found if one.rule in ("strong", "bends"))


def cube(height: float, load: float = 1600, mark: str = "a") -> str:
    return f"C1,{mark},M1,,,air,prism,4,5,{height},,{load},\n"


@pytest.mark.parametrize(("height", "factor"), [(4, 0.6), (8, 0.8), (6, 0.7), (11, 0.95), (12, 1), (16, 1)])
def test_each_strength_is_multiplied_by_its_factor(project: Write, height: float, factor: float) -> None:
    """1600 lbf on 4 × 5 in is 80 psi; height over the lesser side picks the factor, by a straight line between rows."""
    found = judged(project, TEST, cube(height))
    assert found.value is not None and found.value.value == pytest.approx(80 * PSI * factor)
    assert found.outcome is (Outcome.MEETS if 80 * factor >= 60 else Outcome.REVISE)
    lines = [step.line(Writer("us")) for step in found.steps]
    assert any("height to width: h/b" in line for line in lines)
    ratio = next(step for step in found.steps if step.formula == "h / b")
    assert [one.value for one in ratio.given] == pytest.approx([height * 0.0254, 4 * 0.0254])
    assert ratio.result.value == pytest.approx(height / 4)
    assert any("factor for its height to width" in line and "f × k" not in line for line in lines)
    assert any("corrected strength: f_k = f × k" in line for line in lines)
    printed = next(step for step in found.steps if step.formula == "f × k")
    assert printed.result.value == found.value.value
    assert [one.value for one in printed.given] == pytest.approx([80 * PSI, factor])
    assert found.standing is not None and found.standing.value == "reported"


def test_the_lowest_after_correction_governs(project: Write) -> None:
    found = judged(project, TEST, cube(12, 1500, "tall") + cube(4, 1900, "squat"))
    assert found.value is not None and found.value.value == pytest.approx(1900 / 20 * 0.6 * PSI)


def test_a_specimen_outside_the_table_is_set_aside_and_said(project: Write) -> None:
    found = judged(project, TEST, cube(3, 1600, "slab") + cube(12, 1600, "tall"))
    assert found.value is not None and found.value.value == pytest.approx(80 * PSI)
    aside = [step.result.value for step in found.steps if "slab is set aside" in step.says]
    assert aside == ["height to width 0.75 is outside the table of factors"]
    alone = judged(project, TEST, cube(3))
    assert alone.outcome is Outcome.MISSING


def test_a_specimen_of_unknown_height_waits(project: Write) -> None:
    found = judged(project, TEST, "C1,a,M1,,,air,prism,4,5,,,1600,\n" + cube(12, 1600, "b"))
    assert found.outcome is Outcome.MISSING and "1 waiting (a: height is blank)" in sentence(found)


def test_an_open_factor_is_to_be_confirmed(project: Write) -> None:
    test = TEST.replace("[[0.6], [0.8], [1]]", "[[open], [0.8], [1]]")
    assert judged(project, test, cube(4)).outcome is Outcome.CONFIRM
    assert judged(project, test, cube(8)).outcome is Outcome.MEETS
    assert judged(project, test, cube(4) + cube(8, 1600, "b")).outcome is Outcome.CONFIRM


@pytest.mark.parametrize(
    ("said", "where"),
    [
        ("", "factors"),
        ("clause: C 3, ", "C 3"),
        ("read_in: Table 9, ", "Table 9"),
        ("clause: C 3, read_in: Table 9, ", "Table 9"),
    ],
)
def test_an_open_factor_says_where_to_read_it(project: Write, said: str, where: str) -> None:
    """The place to read it in; else the clause; else the name of the table at least."""
    lines = "".join(f"        {part}\n" for part in said.split(", ") if part)
    test = TEST.replace("[[0.6], [0.8], [1]]", "[[open], [0.8], [1]]").replace(
        "        kind: ratio\n", f"{lines}        kind: ratio\n"
    )
    found = judged(project, test, cube(4) + cube(8, 1600, "b"))
    assert sentence(found) == f"the factor for height to width is not known: a, row 1 ({where}); 1 result counts"


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (("aspect: factors", "aspect: factor"), "rule-test"),
        (("aspect: factors", "aspect: least"), "rule-test"),
        (("fact: specimen.height_to_width", "fact: set.specimens"), "rule-test"),
        (("kind: ratio", "kind: count"), "rule-test"),
        ((", aspect: factors", ""), "rule-fact"),
        (("result >= least", "result * factors >= least"), "formula-name"),
        (("result >= least", "result >= least and specimen.height_to_width > 1"), "formula-name"),
    ],
)
def test_aspect_tables_that_do_not_fit_are_refused(project: Write, change: tuple[str, str], code: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        judged(project, TEST.replace(*change), cube(8))
    assert code in {one.code for one in found.value.problems}


BENDS = """\
  - id: bends
    title: Rupture
    clause: T2
    about: mix
    test: {of: rupture, statistic: governs, own_weight: weight}
    limits:
      least: {value: 50 psi, standing: read, source: trial}
      governs: {value: lowest, standing: read, source: trial}
      weight: {value: true, standing: read, source: trial}
    check: result >= least
    say: Bends enough.
"""
BEAMS = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],span [in],loading,mass [lb],"
    "peak_load [lbf],strength [psi]\n"
)


@pytest.mark.parametrize(("loading", "form"), [("centre", "3 × (P + 0.5 × P_s)"), ("third", "(P + 0.75 × P_s)")])
def test_own_weight_counts_where_the_rule_asks(project: Write, loading: str, form: str) -> None:
    row = f"R1,a,M1,,,air,prism,6,12,6,10,{loading},36,600,\n"
    weighed = judged(project, test=BENDS, rows=row, name="rupture", head=BEAMS)
    bare = judged(project, test=BENDS.replace("value: true", "value: false"), rows=row, name="rupture", head=BEAMS)
    assert any(form in step.formula for step in weighed.steps)
    assert weighed.value is not None and bare.value is not None
    assert isinstance(weighed.value.value, float) and isinstance(bare.value.value, float)
    share = 0.5 if loading == "centre" else 0.75
    assert weighed.value.value / bare.value.value == pytest.approx((600 + share * 36 * 10 / 12) / 600)


def test_own_weight_must_be_a_yes_or_no(project: Write) -> None:
    with pytest.raises(ProblemsFound) as found:
        judged(
            project, test=BENDS.replace("own_weight: weight", "own_weight: least"), rows="", name="rupture", head=BEAMS
        )
    assert "rule-test" in {one.code for one in found.value.problems}
