"""Figures in print: four at most of what is worked out, and in a worked line as many of the numbers put in as it takes
that they give the printed result within its last digit. In US and SI."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Step
from compliance.units import KINDS, Writer
from tests.conftest import EXAMPLE, ROUND_EXAMPLE
from tests.recomputing import recomputed_as_printed

US, SI = Writer("us"), Writer("si")
# Printed with all their figures: what is set or measured, not worked out, and constants.
WHOLE = {"length", "thickness", "coordinate", "layer_height", "specimen_length", "specimen_mass", "test_load", "age",
         "count", "wind_factor", "acceleration"}  # fmt: skip


def significant(text: str) -> int:
    """Figures of a number as printed; zeros at the end of a whole number do not count."""
    digits = text.lstrip("−").partition(" ")[0].rstrip("%°")
    mantissa = digits.partition("e")[0]
    return (
        len(mantissa.replace(".", "").strip("0")) if "." not in mantissa else len(mantissa.replace(".", "").lstrip("0"))
    )


@pytest.mark.parametrize("writer", [US, SI], ids=["us", "si"])
def test_no_result_has_more_than_four_figures(writer: Writer) -> None:
    for name in KINDS.keys() - WHOLE:
        for value in (0.000123456, 0.0123456, 1.23456, 12.3456, 1234.56, 123456.7, 9999.96e3, 1.23456e9):
            assert significant(writer.write(value, name)) <= 4, (name, value)
            assert significant(writer.write_bare(value, name)) <= 4, (name, value)


def test_figures_by_hand() -> None:
    assert US.write(45558.686, "force") == "10240 lbf" and US.write(96310.0, "pressure") == "2011 psf"
    assert US.write(13.095, "ratio") == "13.1" and US.write(8.8888, "ratio") == "8.889"
    assert SI.write(24.8211e6, "stress") == "24.82 MPa" and US.write(6.1468, "length") == "20 ft 2 in"
    assert US.pair(96310.0, 95760.518, "pressure") == ("2011 psf", "2000 psf")


def test_a_value_over_its_limit_by_less_than_four_figures_show_is_told_apart() -> None:
    value, limit = US.pair(95775.0, 95760.518, "pressure")
    assert value != limit and limit == "2000 psf" and value.startswith("2000.")


def test_figures_are_added_to_the_number_that_moves_the_result_most() -> None:
    """54.4 plf printed as 54 would give 1418 lbf·ft for 1430."""
    bending = equation(
        "Moment", "load * span ** 2 / 8", Symbol("M", "moment", "moment"), "statics",
        load=Symbol("w", "line_load", "load"), span=Symbol("L", "length", "span"),
    )  # fmt: skip
    step = bending(54.4 * 14.5939029, 14.5 * 0.3048).step()
    assert step.line(US) == "Moment: M = w × L² / 8 = (54.4 plf) × (14 ft 6 in)² / 8 = 1430 lbf·ft"


def worked_lines(folder: Path) -> list[Step]:
    made = check_folder(folder)
    steps = dict.fromkeys(step for finding in made.findings for step in finding.steps)
    of_facts = (one for subject in made.facts.of("wall").values() for one in subject.facts.values())
    steps |= dict.fromkeys(step for fact in of_facts for step in fact.steps)
    return [one for one in steps if one.formula and one.given and isinstance(one.result.value, float)]


@pytest.mark.parametrize("folder", [EXAMPLE, ROUND_EXAMPLE], ids=["example", "round"])
def test_every_printed_line_gives_its_printed_result(folder: Path) -> None:
    tried, not_read = 0, set()
    for step in worked_lines(folder):
        for writer in (US, SI):
            assert isinstance(step.result.value, float)
            last = writer.last_digit(step.result.value, step.result.kind)
            if not last:
                continue
            try:
                again = recomputed_as_printed(step, writer)
            except (SyntaxError, TypeError, ValueError):
                not_read.add(step.says.partition(":")[0])
                continue
            printed = writer.as_printed(step.result.value, step.result.kind)
            number, wanted = (writer.written_number(one, step.result.kind) for one in (again, printed))
            whole = math.ceil(number - 1e-9) if step.says.endswith("rounded up") else number
            assert abs(whole - wanted) <= last * (1 + 1e-5), step.line(writer)
            tried += 1
    assert tried > 300
    # Left out: lines whose numbers are picked or below zero, which the reader of lines does not take.
    assert len(not_read) < 12, not_read
