"""A set of ten rules written from an invented handout in one sitting: a draft with usual slips, one round of linting
that tells of all of them, and a second that finds nothing."""

from __future__ import annotations

from pathlib import Path

from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.linting.lint_rule_set import lint_file
from tests.conftest import WALLS, Write

HERE = Path(__file__).parents[1] / "county"

ROUND_ONE = [
    # rule of the draft, code, what the advice must name
    ("outside-thickness", "limit-source", "add source:"),
    ("outside-thickness", "formula-name", "wall.least_thickness (minimum thickness)"),
    ("Height of walls", "mark", "begin with a letter"),
    ("Height of walls", "formula-name", "wall.height_to_thickness"),
    ("Height of walls", "question-unknown", "wall-height-to-thickness"),
    ("solid-corner", "limit-confirmed", "by:"),
    ("solid-corner", "example-outcome", "must be more"),
    ("solid-corner", "example-meets", "add one"),
    ("opening-width", "word-unknown", "engineer"),
    ("opening-width", "formula-bare-number", "limits:"),
    ("footing-depth", "example-fails", "revise"),
    ("drainage-plan", "rule-check", "remove check:"),
    ("drainage-plan", "rule-standing", "add standing: and source:"),
]
"""The slips of somebody who writes rules for the first time: a source left out, a project field for a fact, a name with
blanks, a letter and a question misspelled, `confirmed` for what was read once, > for >=, a plural, a number in the
formula, a case too few, two kinds of rule in one, and an answer without a source."""
REPAIRS = (
    ("value: 16 inches, standing: read}", 'value: 16 inches, standing: read, source: "handout 7, 1"}'),
    ("check: wall.thickness", "check: wall.least_thickness"),
    ("id: Height of walls", "id: height-to-thickness"),
    ("wall.height_to_thicknes <=", "wall.height_to_thickness <="),
    ("question: wall-height-thickness", "question: wall-height-to-thickness"),
    ("{wall.height_to_thickness: 7.1}, gives: revise", "{wall.height_to_thickness: 7.1}, gives: engineer"),
    ("standing: confirmed", "standing: read"),
    ("opening.corner_distance > minimum", "opening.corner_distance >= minimum"),
    ("check: opening.width <= 4", 'limits: {maximum: {value: 4 feet, standing: read, source: "handout 7, 4"}}\n'
     "    check: opening.width <= maximum"),
    ("otherwise: engineers", "otherwise: engineer"),
    ("{footing.bottom: 30 in}, gives: meets}", "{footing.bottom: 30 in}, gives: meets}\n"
     "      - {given: {footing.bottom: 29 in}, gives: revise}"),
    ("    check: site.flood_zone\n", "    standing: read\n    source: handout 7, 9\n"),
)  # fmt: skip


def test_ten_rules_in_two_rounds_of_linting(tmp_path: Path, project: Write) -> None:
    draft = (HERE / "draft.yaml").read_text(encoding="utf-8")
    begun = CliRunner().invoke(app, ["rules", "new", str(tmp_path / "county.yaml")])
    assert begun.exit_code == 0
    mine = tmp_path / "county.yaml"
    mine.write_text(draft, encoding="utf-8")
    lines = draft.splitlines()
    found = []
    for problem in lint_file(mine):
        above = next(line for line in reversed(lines[: problem.place.line]) if line.startswith("  - id: "))
        found.append((above.removeprefix("  - id: "), problem.code, f"{problem.wrong} {problem.instead}"))
    for rule, code, advice in ROUND_ONE:
        assert any((rule, code) == one[:2] and advice in one[2] for one in found), (rule, code, found)
    assert len(found) == len(ROUND_ONE), found

    for wrong, right in REPAIRS:
        assert draft.count(wrong) == 1, wrong
        draft = draft.replace(wrong, right)
    mine.write_text(draft, encoding="utf-8")
    assert lint_file(mine) == []
    findings = check_folder(project(WALLS, rules=draft)).findings
    assert {"outside-thickness", "height-to-thickness", "stem-height", "drainage-plan"} <= {
        one.rule for one in findings
    }

    shown = CliRunner().invoke(app, ["rules", "compare", "cob-practice", str(mine)]).stdout
    for pair in ("opening-corner-distance / solid-corner", "roof-overhang"):
        assert pair in shown
