"""Strengths corrected by the aspect factors that go back to Krefeld, as a rule would hold them.

Source: J.-C. Morel, A. Pkla, P. Walker, Construction and Building Materials 21 (2007) 303, recalled from memory:
height to width 0, 0.4, 0.7, 1.0, 3.0, 5.0 and factor 0, 0.50, 0.60, 0.70, 0.85, 1.00, a straight line between. The
reference for the line is numpy's interpolation.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.judging.aspect import corrected
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.rules.limit_values import read_table
from compliance.rules.schema import TableText

ASPECTS, FACTORS = [0.0, 0.4, 0.7, 1.0, 3.0, 5.0], [0.0, 0.50, 0.60, 0.70, 0.85, 1.00]
TEXT: dict[str, Any] = {
    "rows": {"fact": "specimen.height_to_width", "at": ASPECTS, "worse": "smaller"},
    "cells": [[factor] for factor in FACTORS],
    "kind": "ratio",
    "between": "linear",
    "standing": "recalled",
}
TABLE = read_table("factors", TableText.model_validate(TEXT), Place("rules.yaml"))


def specimen(aspect: float) -> Specimen:
    return Specimen(
        "compression",
        set="T",
        mark="a",
        mix="M",
        place=Place("lab"),
        width=0.1,
        depth=0.2,
        height=0.1 * aspect,
        shape="prism",
    )


@pytest.mark.parametrize(("aspect", "factor"), list(zip(ASPECTS, FACTORS, strict=True))[1:])
def test_at_each_printed_row(aspect: float, factor: float) -> None:
    assert corrected(TABLE, specimen(aspect), 2e6).value == pytest.approx(2e6 * factor)


@given(st.floats(0.05, 12))
def test_between_the_rows_and_beyond_the_last(aspect: float) -> None:
    expected = float(np.interp(aspect, ASPECTS, FACTORS))
    assert corrected(TABLE, specimen(aspect), 1e6).value == pytest.approx(1e6 * expected, rel=1e-9)
