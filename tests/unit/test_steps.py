"""A worked line reads like a calculation by hand."""

from __future__ import annotations

from compliance.steps import Given, Step
from compliance.units import Writer

US = Writer("us")


def test_numbers_are_put_in_with_their_units_in_brackets() -> None:
    step = Step("Modulus of rupture", "3 × P × L / (2 × b × t²)",
                (Given("P", 600 * 4.4482216152605, "force"), Given("L", 0.254, "thickness"),
                 Given("b", 0.254, "thickness"), Given("t", 0.1016, "thickness")),
                Given("f_r", 56.25 * 6894.757293168, "stress"))  # fmt: skip
    assert step.line(US) == (
        "Modulus of rupture: f_r = 3 × P × L / (2 × b × t²) = "
        "3 × (600 lbf) × (10 in) / (2 × (10 in) × (4 in)²) = 56.2 psi"
    )


def test_a_value_alone_in_brackets_gets_no_second_pair() -> None:
    step = Step("Least", "min(t_base, t_top)", (Given("t_base", 0.4, "thickness"), Given("t_top", 0.3, "thickness")),
                Given("t", 0.3, "thickness"))  # fmt: skip
    assert step.line(Writer("si")) == "Least: t = min(t_base, t_top) = min(400 mm, 300 mm) = 300 mm"


def test_a_symbol_that_begins_another_is_not_cut() -> None:
    step = Step("Sum", "t + t_1", (Given("t", 1.0), Given("t_1", 2.0)), Given("", 3.0))
    assert step.numbers_put_in(US) == "1 + 2"


def test_words_and_yes_or_no() -> None:
    assert Given("", True).written(US) == "yes"
    assert Step("Straw is dry", "", (), Given("", False)).line(US) == "Straw is dry: no"
