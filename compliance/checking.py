"""A project folder in, a checked project out: reading, deriving and judging in one call."""

from __future__ import annotations

import math
from functools import partial
from pathlib import Path

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.facts.derive import derive
from compliance.facts.evidence.gathered import gathered
from compliance.facts.geometry.subjects import Facts
from compliance.judging import judge
from compliance.judging.context import Context
from compliance.judging.judge import ProgressCallback, ignore_progress
from compliance.judging.questions import side_by_side
from compliance.problems import Problem
from compliance.reading.cross_checks.joint_checks import walls_that_nearly_meet
from compliance.reading.cross_checks.statement_checks import statements_that_differ
from compliance.reading.cross_checks.structure_checks import walls_on_nothing
from compliance.reading.project_folder import Edit, ReadProject, read_project
from compliance.reading.reference_files.all_references import read_references
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.rule_files.rule_library import RuleSetCache, read_adopted
from compliance.units import Writer


def check_folder(
    folder: Path,
    edit: Edit | None = None,
    progress: ProgressCallback = ignore_progress,
    cache: RuleSetCache | None = None,
) -> Checked:
    """The folder as it stands, or as `edit` would have it; `progress` hears how far the judging is, and a `cache`
    keeps shipped rule sets for the next project. Raises ProblemsFound with every problem of the folder and of the rule
    sets it names."""
    read = read_project(folder, edit)
    project = read.project
    adopted = read_adopted(folder, project.jurisdiction.rule_sets, project.amendments, read.tree, cache)
    references = read_references()
    practice = references.practice
    evidence = gathered(project, read.specimens, practice)
    tables = partial(read_action_tables, project.project.units)
    facts = derive(project, read.specimens, references.supports, evidence, tables)
    writer = Writer(project.project.units)
    context = Context(project, facts, read.specimens, read.where, writer, practice.settling.gravity)
    findings = judge(context, adopted.rule_sets, evidence.chains, progress)
    return Checked(
        project, adopted.rule_sets, facts, findings, read.specimens,
        (
            *implausible(facts, read, writer), *contradicted(facts, read), *walls_on_nothing(project, read.tree),
            *walls_that_nearly_meet(facts.views, references.supports, read.tree, writer),
            *statements_that_differ(project, read.tree, writer),
        ),
        read.fingerprint_with(adopted.files), adopted.amendments, side_by_side(findings), evidence, references,
    )  # fmt: skip


def contradicted(facts: Facts, read: ReadProject) -> tuple[Problem, ...]:
    """A warning for each value of the site that another statement contradicts, whichever rules are adopted; none
    where no rule asks for a value of the site that is worked out."""
    site = facts.of("site")["site"]
    if facts.building is None or not site.worked_out:
        return ()
    from compliance.facts.site.site_actions import contradictions

    return tuple(
        Problem(read.where(("site", field)), "contradiction", wrong, "state the value that holds", warning=True)
        for field, wrong in contradictions(facts.building, site).items()
    )


def implausible(facts: Facts, read: ReadProject, writer: Writer) -> tuple[Problem, ...]:
    """A warning for each fact outside its plausible range. The value is used all the same."""
    warnings = []
    for subject in facts:
        for name, fact in (*subject.facts.items(), *subject.worked_out.items()):
            spec = FACTS[name]
            if not isinstance(fact.value, float) or not math.isfinite(fact.value):
                continue
            least, most = spec.plausible
            if not least <= fact.value <= most:
                shown = writer.write(fact.value, spec.kind)
                wrong = f"the {spec.label} of {subject.mark} is {shown}, which is out of the ordinary"
                instead = f"between {spec.least or 'any'} and {spec.most or 'any'} is usual; correct it if it is a slip"
                warnings.append(Problem(read.where(subject.path), "implausible", wrong, instead, warning=True))
    return tuple(sorted(set(warnings)))
