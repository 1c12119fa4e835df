"""Values that stand apart in a set are remarked on by specimen, and counted all the same.

Source of set and figures: CMH-17-1G 8.3.11.1.1, condition ETW, batch 3, as quoted in the validation of an open-source
package (seen): largest distance over standard deviation 2.119, critical value 2.020 at 5 %, one outlier, 80.2334815.
Source of the second set: ten values of Dixon's test as printed on its Wikipedia page (seen): Q = 0.455, kept at 95 %
(0.466). The numbers stand here for psi; the tests do not depend on the unit.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from compliance.facts.soil.soil_practice import LabPractice
from compliance.facts.specimens.set_record import SetRecord, set_record
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.reading.reference_files.material_practice import read_material_practice

PRACTICE = read_material_practice()
BATCH_3 = [107.676986, 108.960241, 116.122640, 80.2334815, 106.145570, 104.667866, 104.234953]
TEN = [0.189, 0.167, 0.187, 0.183, 0.186, 0.182, 0.181, 0.184, 0.181, 0.177]
PSI = 6894.757293168


def record(values: list[float], level: float = 0.05) -> SetRecord:
    rows = [
        Specimen("compression", set="T", mark=f"T-{place}", mix="M", place=Place("lab"), strength=value * PSI)
        for place, value in enumerate(values, start=1)
    ]
    lab = PRACTICE.lab
    practice = replace(PRACTICE, lab=LabPractice(lab.strength_difference, lab.shares_sum, level, "either"))
    return set_record("compression", rows, practice)


def test_the_outlier_of_batch_3_is_named_with_its_numbers_and_stays() -> None:
    found = record(BATCH_3)
    mark, grubbs = found.suspects[0]
    assert mark == "T-4" and grubbs.beyond
    assert (grubbs.statistic, grubbs.critical) == pytest.approx((2.119, 2.020), abs=5e-4)
    assert any("T-4 stands apart by Grubbs: 2.119" in one and "2.020" in one for one in found.remarks)
    assert len(found.results) == 7 and found.summary is not None and found.summary.count == 7
    assert found.summary.mean / PSI == pytest.approx(104.005963)


def test_the_ten_values_of_dixon() -> None:
    """Q = 0.455 is beyond 0.412 (90 %) and within 0.466 (95 %)."""
    (mark, dixon) = record(TEN).suspects[1]
    assert mark == "T-2" and dixon.test.startswith("Dixon")
    assert (dixon.statistic, dixon.critical) == pytest.approx((0.455, 0.466), abs=5e-4)
    assert not dixon.beyond
    loose = record(TEN, 0.1).suspects[1][1]
    assert loose.critical == pytest.approx(0.412) and loose.beyond
    assert any("10 times in 100" in one for one in record(TEN, 0.1).remarks)


def test_the_shipped_level_is_the_one_of_the_handbook() -> None:
    assert (PRACTICE.lab.outlier_level, PRACTICE.lab.outlier_side) == (0.05, "either")
