"""The target that takes a whole project: description and lab tables in, findings out as JSON, CSV and text."""

from __future__ import annotations

import json
import re
import shutil
import tempfile
from functools import cache, partial
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import implausible
from compliance.facts.derive import derive
from compliance.facts.evidence.gathered import gathered
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.findings import Outcome
from compliance.judging import judge
from compliance.judging.context import Context
from compliance.judging.questions import side_by_side
from compliance.output.terminal.check_table import check_table
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.reading.reference_files.all_references import read_references
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.report.revisions.findings_data import as_csv, as_data
from compliance.rules.rule_set import RuleSet
from compliance.units import Writer

EXAMPLE = Path(__file__).parents[2] / "example_project"
FILES = tuple(
    path.relative_to(EXAMPLE).as_posix() for path in sorted(EXAMPLE.rglob("*")) if path.suffix in (".yaml", ".csv")
)
_PARTED = re.compile(r"^=== (.*)\n", re.MULTILINE)


def bundled(files: dict[str, str]) -> bytes:
    """Several files as the bytes of one input: each after a line that names it."""
    return "".join(f"=== {name}\n{text}" for name, text in files.items()).encode()


def unbundled(data: bytes) -> dict[str, bytes]:
    """The files of an input; those of other names than ours are left out."""
    first, *parts = _PARTED.split(data.decode("utf-8", "surrogateescape"))
    named = dict(zip(parts[::2], parts[1::2], strict=True)) if parts else {"project.yaml": first}
    return {name: text.encode("utf-8", "surrogateescape") for name, text in named.items() if name in FILES}


@cache
def _adopted() -> tuple[RuleSet, ...]:
    return tuple(map(read_shipped, ("cob-irc-2021-au", "cob-practice", "earth-evidence", "nm-14-7-4-adobe")))


@cache
def _practice() -> MaterialPractice:
    return read_material_practice()


@cache
def _scratch() -> tempfile.TemporaryDirectory[str]:
    """A copy of the example: what inputs do not bring, such as attachments, is there."""
    scratch = tempfile.TemporaryDirectory(prefix="fuzz-")
    shutil.copytree(EXAMPLE, scratch.name, dirs_exist_ok=True)
    return scratch


def whole_project(data: bytes) -> bool:
    """A project gives findings that can all be written, or problems. What is lacking is never said to meet."""
    folder = Path(_scratch().name)
    files = unbundled(data)
    for name in FILES:
        if name in files:
            (folder / name).write_bytes(files[name])
        else:
            (folder / name).unlink(missing_ok=True)
    try:
        checked = check(folder)
    except ProblemsFound as found:
        assert found.problems
        return False
    json.dumps(as_data(checked), allow_nan=False)
    as_csv(checked)
    check_table(checked, 80, all_lines=True)
    for finding in checked.findings:
        assert not (finding.outcome is Outcome.MEETS and finding.missing), finding
    return True


def check(folder: Path) -> Checked:
    """As `checking.check_folder`, but with rule sets read once for all inputs."""
    read = read_project(folder)
    project, practice = read.project, _practice()
    evidence = gathered(project, read.specimens, practice)
    tables = partial(read_action_tables, project.project.units)
    facts = derive(project, specimens=read.specimens, rules=read_support_rules(), evidence=evidence, tables=tables)
    writer = Writer(project.project.units)
    context = Context(
        project,
        facts=facts,
        specimens=read.specimens,
        where=read.where,
        writer=writer,
        gravity=practice.settling.gravity,
    )
    findings = judge(context, _adopted(), evidence.chains)
    return Checked(
        project,
        rule_sets=_adopted(),
        facts=facts,
        findings=findings,
        specimens=read.specimens,
        warnings=implausible(facts, read, writer),
        fingerprint="",
        amendments=(),
        questions=side_by_side(findings),
        evidence=evidence,
        references=read_references(),
    )
