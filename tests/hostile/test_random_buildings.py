"""Random buildings all the way from the model to the papers, under any of the shipped rule sets.

Few here; `python -m tests.hostile.many_buildings` passes through as many as wanted.
"""

from __future__ import annotations

import json
import math
import tempfile
from collections.abc import Callable
from pathlib import Path
from random import Random

import pypdfium2 as pdfium
from hypothesis import HealthCheck, Phase, event, example, given, settings
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.counter.limits_worksheet import write_worksheet
from compliance.documents.inspection.site_cards import write_site_cards
from compliance.documents.submittal.bundle import write_submittal
from compliance.findings import Outcome, Standing
from compliance.output.checklist.checklist_files import write_checklist
from compliance.output.terminal.check_table import check_table
from compliance.problems import ProblemsFound
from compliance.report.revisions.findings_data import as_csv, as_data
from tests.hostile.random_projects import Making, lab_tables
from tests.sentences import sentence

PAPERS: tuple[Callable[[Checked, Path], object], ...] = (
    write_submittal,
    write_site_cards,
    write_worksheet,
)


def write_project(folder: Path, chance: Random) -> None:
    project = Making(chance).project()
    files = {"project.yaml": json.dumps(project, indent=1), **lab_tables(project, chance)}
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")


def from_the_model(number: int, papers: bool) -> str:
    """The building of that number, judged and, if wanted, on paper. What came of it: `judged`, or why it is refused."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_project(folder, Random(number))
        try:
            checked = check_folder(folder)
        except ProblemsFound as found:
            assert found.problems
            return f"refused: {found.problems[0].code}"
        findings_hold(checked)
        if papers:
            assert as_csv(checked).count("\n") > len(checked.findings)
            assert check_table(checked, 60, all_lines=True)
            for write in PAPERS:
                papers_hold(write, checked, folder)
            for ending in ("csv", "xlsx", "html"):
                write_checklist(checked, folder / f"checklist.{ending}", ending)
    return "judged"


NUMBERS = st.integers(0, 2**64 - 1)
GENERATED = settings(
    max_examples=4, deadline=None, derandomize=True, database=None, phases=(Phase.explicit, Phase.generate),
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
"""Nothing is shrunk: a smaller number is no smaller building."""


@GENERATED
@given(NUMBERS)
@example(69996655361)  # so many sentences under a section that it was once taller than its page
def test_from_the_model_to_the_papers(number: int) -> None:
    event(from_the_model(number, papers=True))


@settings(GENERATED, max_examples=40)
@given(NUMBERS)
@example(543123834)  # a load that no width of wall can hold has no finite eccentricity, and JSON no such number
def test_from_the_model_to_the_findings(number: int) -> None:
    event(from_the_model(number, papers=False))


def findings_hold(checked: Checked) -> None:
    """What no building changes: numbers are finite, nothing lacking meets, nothing open meets."""
    json.dumps(as_data(checked), allow_nan=False)
    for finding in checked.findings:
        assert sentence(finding)
        if finding.outcome is Outcome.MEETS:
            assert not finding.missing
            assert all(limit.standing is not Standing.OPEN for limit in finding.limits)
            assert finding.standing is not Standing.OPEN or finding.wants_confirming
            assert finding.margin is None or finding.margin >= 0 or math.isclose(finding.margin, 0, abs_tol=1e-9)
        assert finding.outcome is not Outcome.MISSING or finding.missing


def papers_hold(write: Callable[[Checked, Path], object], checked: Checked, folder: Path) -> None:
    path = folder / "paper.pdf"
    write(checked, path)
    first = path.read_bytes()
    document = pdfium.PdfDocument(first)
    assert len(document) > 0
    document.close()
