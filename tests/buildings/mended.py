"""The nearest changes for buildings of the corpus, each checked again from the start: `python -m tests.buildings.mended
[MARK...]`. Prints every change that the whole check would refuse, or after which something is worse that was not named.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.assignments import edit_of, read_assignments
from compliance.findings import Finding, Outcome
from compliance.problems import ProblemsFound
from compliance.remedies import ChangeTester, Remedy, remedies, tester_for
from compliance.remedies.answers_in_force import deciding
from compliance.remedies.comparing import compared
from compliance.remedies.edited_project import edits
from tests.buildings.laying_out import lay_out
from tests.buildings.reading import Building, list_buildings, read_building


def wrong_changes(building: Building, folder: Path) -> Iterator[str]:
    """A line for each change that cannot be built, that does not meet, or that makes worse what it does not name."""
    try:
        checked = check_folder(lay_out(building, folder))
    except ProblemsFound:
        return  # refused as it stands: there is nothing to mend
    tester = tester_for(checked)
    failing = [one for one in checked.findings if one.outcome in (Outcome.REVISE, Outcome.ENGINEER)]
    for finding in {(one.rule_set, one.rule): one for one in failing}.values():
        for remedy in remedies(tester, finding):
            for wrong in _wrong(folder, checked=checked, tester=tester, finding=finding, remedy=remedy):
                yield f"{building.mark} {finding.rule} {finding.subject}: {remedy.changes}: {wrong}"


def _wrong(folder: Path, checked: Checked, tester: ChangeTester, finding: Finding, remedy: Remedy) -> Iterator[str]:
    changed = edits(tester.checked.project, remedy.project)
    try:
        then = check_folder(
            folder, edit_of(read_assignments([f"{'.'.join(map(str, path))}={text}" for path, text in changed]))
        )
    except ProblemsFound as found:
        yield f"refused: {found.problems[0]}"
        return
    after = {one.key: one for one in then.findings}
    decides = deciding(after, finding.key)
    if decides is None or decides.outcome is not Outcome.MEETS:
        yield "does not meet"
    named = {one.after.key for one in remedy.makes_worse if one.after}
    for one in compared(checked.findings, then.findings):
        if one.worse and one.after and one.after.key not in named:
            yield f"makes worse, not named: {one.after.key}"


def main(arguments: list[str]) -> int:
    """Exit code 1 where any change is wrong."""
    wrong = 0
    buildings = [one for mark in arguments for one in read_building(mark)] if arguments else list_buildings("dangerous")
    for building in buildings:
        with tempfile.TemporaryDirectory() as folder:
            for line in wrong_changes(building, Path(folder) / "building"):
                wrong += 1
                print(line, flush=True)
        print(f"{building.mark} done, {wrong} wrong so far", flush=True)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
