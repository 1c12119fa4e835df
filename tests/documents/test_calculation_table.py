"""Calculations side by side: a formula once, every number of every subject in its column, nothing lost."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from compliance.documents.calculations.calculation_table import Beside, CalculationTable, worth_a_table
from compliance.documents.page.rows import Row
from compliance.report.calculations.calculation_lines import Ledger, WorkedLine, worked_line
from compliance.report.calculations.calculation_merge import merged, shared_words
from compliance.steps import Given, Named, Step
from compliance.units import Writer

US = Writer("us")
FOOT, INCH = 0.3048, 0.0254


def slenderness(height: float, thickness: float) -> WorkedLine:
    h, t = Given("h", height * FOOT, "length", "height"), Given("t", thickness * INCH, "thickness", "thickness")
    step = Step(
        "Slenderness", formula="h / t", given=(h, t), result=Given("s", h.value / t.value, "ratio"), source="statics"
    )  # type: ignore[operator]
    return worked_line(step, US)


def twice(line: WorkedLine, source: str = "a rule of the code, at some length") -> WorkedLine:
    assert line.step
    s = line.step.result
    step = Step(
        "Twice the slenderness",
        formula="2 × s",
        given=(s,),
        result=Given("d", 2 * float(s.value), "ratio"),
        source=source,
    )
    return worked_line(step, US)


def beside(mark: str, *lines: WorkedLine) -> Beside:
    return Beside(mark, frozenset({mark}), lines)


def texts(rows: list[Row]) -> list[list[str]]:
    return [[" ".join(part.text for part in one.parts) for one in row.cells] for row in rows]  # type: ignore[attr-defined]


def table(*subjects: Beside, ledger: Ledger | None = None) -> list[list[str]]:
    ledger = ledger or Ledger([[line for one in subjects for line in one.lines]])
    return texts(CalculationTable(subjects, ledger, US).rows())


def test_the_formula_stands_once_with_its_source_and_the_numbers_under_each_mark() -> None:
    rows = table(beside("W1", slenderness(8, 16)), beside("W2", slenderness(9, 18)))
    assert rows == [
        ["height: h", "8 ft", "9 ft"],
        ["thickness: t", "16 in", "18 in"],
        ["Slenderness: s = h / t  [statics]", "6", "6"],
    ]


def test_what_all_put_in_alike_stands_in_the_line() -> None:
    rows = table(beside("W1", slenderness(8, 16)), beside("W2", slenderness(9, 16)))
    assert rows == [["height: h", "8 ft", "9 ft"], ["Slenderness: s = h / t; t = 16 in  [statics]", "6", "6.75"]]


def test_a_row_of_several_does_not_call_all_by_the_name_of_the_first() -> None:
    def load(name: str, pounds: float, form: str = "{} at its base") -> WorkedLine:
        n = Given("N", pounds, "force", Named(form, name) if "{}" in form else form)
        return worked_line(
            Step("Load", formula="N × 2", given=(n,), result=Given("n", 2 * pounds, "force"), source="statics"), US
        )

    (first, *_), *_ = table(beside("W1", load("P4", 10)), beside("W2", load("P2", 20)))
    assert first == "each at its base: N"
    (first, *_), *_ = table(beside("W1", load("P4", 10)), beside("W2", load("", 20, "the wall at its base")))
    assert first == "P4 at its base or the wall at its base: N"
    (first, *_), *_ = table(*(beside(f"W{n}", load("", n, " ".join("of a pier"[:n]))) for n in (1, 3, 5, 7)))
    assert first == "N"


def test_a_line_about_one_subject_that_others_take_stands_once() -> None:
    one, other = (worked_line(Step(Named("Length of {}", mark), "", (), Given("L", n * FOOT, "length")), US)
                  for mark, n in (("W1", 8), ("W2", 9)))  # fmt: skip
    rows = table(beside("W1", one, other), beside("W2", one, other))
    assert rows == [["Length of W1: L = 8 ft"], ["Length of W2: L = 9 ft"]]
    rows = table(beside("W1", one), beside("W2", other))
    assert rows == [["Length of each: L", "8 ft", "9 ft"]]


def test_words_too_long_for_a_column_of_numbers_have_lines_of_their_own() -> None:
    def of(mark: str, words: str) -> Beside:
        return beside(mark, worked_line(Step(Named("Wall {}", mark), "", (), Given("", words)), US))

    long = "south wall, placed from 2026-06-01 on"
    assert table(of("W1", "yes"), of("W2", "no")) == [["Wall each", "yes", "no"]]
    assert table(of("W1", long), of("W2", "no")) == [[f"Wall W1: {long}"], ["Wall W2: no"]]


def test_what_shares_no_word_stands_beside_each_other() -> None:
    assert shared_words(["wind", "wind", "earthquake"]) == "wind or earthquake"
    assert shared_words(["lime", "clay"]) == "lime or clay" and shared_words(["", ""]) == ""


def test_a_length_too_wide_for_its_column_keeps_each_number_with_its_unit() -> None:
    rows = table(*(beside(f"W{n}", slenderness(12 + (n + 15 / 16) / 12, 16)) for n in range(10, 17)))
    assert rows[0][2] == "12 ft\n11 15/16 in"


def test_a_result_above_is_not_put_in_again() -> None:
    one, two = slenderness(8, 16), slenderness(10, 16)
    rows = table(beside("W1", one, twice(one)), beside("W2", two, twice(two)))
    assert [row[0] for row in rows][-1] == "Twice the slenderness: d = 2 × s  [a rule of the code, at some length]"
    assert rows[-1][1:] == ["12", "15"] and len(rows) == 3


def test_who_does_not_take_a_line_has_a_dash_and_a_line_of_one_names_its_subject() -> None:
    one, two, three = slenderness(8, 16), slenderness(10, 16), slenderness(12, 16)
    rows = table(beside("W1", one, twice(one)), beside("W2", two, twice(two)), beside("W3", three))
    assert rows[-1][1:] == ["12", "15", "—"]
    rows = table(beside("W1", one, twice(one)), beside("W2", two))
    assert rows[-1] == [
        "W1: Twice the slenderness: d = 2 × s = 2 × 6 = 12  [a rule of the code, at some length]"
    ]  # fmt: skip


def test_lines_printed_before_are_named_by_their_number() -> None:
    one, two = slenderness(8, 16), slenderness(10, 16)
    ledger = Ledger([[one, two], [one, two, twice(one), twice(two)], [one, two]])
    first = table(beside("W1", one), beside("W2", two), ledger=ledger)
    assert first[-1][0].endswith("(1)")
    again = table(beside("W1", one, twice(one)), beside("W2", two, twice(two)), ledger=ledger)
    assert again[0] == ["s (1)", "6", "7.5"] and len(again) == 2
    last = table(beside("W1", one), beside("W2", two), ledger=ledger)
    assert last == [["From before: Slenderness: s  (1)", "6", "7.5"]]


def test_lines_without_anything_shared_are_no_table() -> None:
    one = slenderness(8, 16)
    other = worked_line(Step("Answer", formula="", given=(), result=Given("", "yes"), source="Ilse Varga"), US)
    assert not worth_a_table([beside("W1", one), beside("W2", other)])
    assert worth_a_table([beside("W1", one), beside("W2", slenderness(9, 16))])


HEIGHTS = st.integers(1, 40)
CHAINS = st.lists(
    st.lists(st.tuples(st.sampled_from("abcde"), HEIGHTS), max_size=7), min_size=2, max_size=7
)  # fmt: skip


def line_of(name: str, height: int) -> WorkedLine:
    h = Given("h", height * FOOT, "length")
    return worked_line(
        Step(
            name, formula="h × 2", given=(h,), result=Given(name, 2 * height * FOOT, "length"), source="by definition"
        ),
        US,
    )


@given(CHAINS)
def test_every_line_of_every_subject_is_there_in_its_order(chains: list[list[tuple[str, int]]]) -> None:
    """In merged rows as in print: the result stands in the subject's column, or in a line that holds for it."""
    lines = [list(dict.fromkeys(line_of(*one) for one in chain)) for chain in chains]
    rows = merged(lines, [frozenset()] * len(lines))
    for index, own in enumerate(lines):
        assert [row.lines[index] for row in rows if row.lines[index]] == own
    printed = table(*(beside(f"W{index}", *own) for index, own in enumerate(lines)))
    for index, own in enumerate(lines):
        places = []
        for line in own:
            assert line.step
            result = line.step.result.written(US)
            found = [
                at
                for at, row in enumerate(printed)
                if (len(row) == 1 and line.text in row[0] and (f"W{index}" in row[0] or "W" not in row[0]))
                or (len(row) > 1 and row[0].startswith(f"{line.step.says}: ") and row[1 + index] == result)
            ]
            assert found, line.text
            places.append(found)
        for before, after in pairwise(places):
            assert min(before) < max(after)
