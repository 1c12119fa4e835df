"""No slip and no trick turns a failing set into one that meets, without a finding beside it that names the doubt."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.findings import Outcome
from tests.hostile.tricks.judging import slipped_through
from tests.hostile.tricks.project import lay_out, tricks

TRICKS = tricks()


def test_there_are_many_and_each_has_a_name_of_its_own() -> None:
    assert len(TRICKS) >= 60
    assert len({trick["name"] for trick in TRICKS}) == len(TRICKS)


def test_without_a_trick_the_sets_fail(tmp_path: Path) -> None:
    found = check_folder(lay_out(tmp_path / "p", {})).findings
    fails = {one.rule for one in found if one.outcome is Outcome.REVISE}
    assert {"compressive-strength", "aged", "slender", "plain", "corrected", "light", "bent", "shrinkage"} <= fails


@pytest.mark.parametrize("trick", TRICKS, ids=lambda trick: str(trick["name"]).replace(" ", "-"))
def test_no_trick_makes_a_failing_set_pass(trick: dict[str, Any], tmp_path: Path) -> None:
    assert slipped_through(tmp_path / "p", trick) == ""
