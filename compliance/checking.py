"""A project folder in, a checked project out: reading, deriving and judging in one call."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from itertools import chain, islice
from pathlib import Path

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import FieldPath
from compliance.facts.derive import derive
from compliance.facts.evidence.described_things import changed_things
from compliance.facts.evidence.gathered import gathered
from compliance.facts.evidence.test_set_texts import test_set_texts
from compliance.facts.geometry.subjects import Facts
from compliance.judging import judge
from compliance.judging.conditions.acceptances import with_acceptances
from compliance.judging.conditions.due import due_at, find_reached_stage
from compliance.judging.context import Context, inspection_points
from compliance.judging.judge import ProgressCallback, ignore_progress
from compliance.judging.questions import side_by_side
from compliance.model.issued import ISSUED_FOLDER
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.cross_checks.answer_checks import answer_problems, shared_ids
from compliance.reading.cross_checks.contradicted_statements import Statements, contradicted_statements
from compliance.reading.cross_checks.day_checks import amended_after_project, days_after_project, issued_days
from compliance.reading.cross_checks.doubt_problems import doubt_problems
from compliance.reading.cross_checks.joint_checks import walls_that_nearly_meet
from compliance.reading.cross_checks.printable_texts import unprintable_rules, unprintable_texts
from compliance.reading.cross_checks.structure_checks import walls_on_nothing
from compliance.reading.issued_heads import read_issued_heads
from compliance.reading.plain_file import NO_FILES
from compliance.reading.project_folder import Edit, ReadProject, fingerprint_of, read_project
from compliance.reading.reference_files.all_references import read_references
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.rule_files.rule_library import NO_DRAFTS, Adopted, in_folder, read_adopted
from compliance.refused import MOST_PROBLEMS, at_most
from compliance.stages import Stage
from compliance.units import Writer

_MOST_FINDINGS = 900_000
"""Each takes a little over a kilobyte."""


def check_folder(
    folder: Path,
    edit: Edit | None = None,
    progress: ProgressCallback = ignore_progress,
    drafts: Mapping[str, str] = NO_DRAFTS,
    stage: Stage | None = None,
    at_least: Stage = Stage.EARTH,
    new_files: Mapping[str, bytes] = NO_FILES,
) -> Checked:
    """The folder as it stands, or as `edit`, the `drafts` of amendment files and `new_files` (lab tables that do not
    lie in it yet, by their path) would have it; `progress` hears how far the judging is. It is asked for what is due at
    `stage`, without one where the project says it stands, and not before `at_least`. Raises ProblemsFound with every
    problem of the folder and of the rule sets it names."""
    read = read_project(folder, edit, new_files)
    project = read.project
    adopted = read_adopted(
        folder,
        names=project.jurisdiction.rule_sets,
        amendment_files=project.amendments,
        tree=read.tree,
        drafts=drafts,
    )
    references = read_references()
    practice = references.practice
    evidence = gathered(project, read.specimens, practice)
    tables = partial(read_action_tables, project.project.units)
    facts = derive(project, specimens=read.specimens, rules=references.supports, evidence=evidence, tables=tables)
    refuse_too_many(facts, adopted, read.where(("jurisdiction", "rule_sets")))
    refuse_stray_answers(folder, facts, adopted, read)
    writer = Writer(project.project.units)
    issued, of_issued = read_issued_heads(folder)
    test_sets = test_set_texts(project, read.specimens, sets=evidence.sets, writer=writer, aside={}) if issued else []
    changed = changed_things(issued, project, test_sets)
    context = Context(
        project,
        facts=facts,
        specimens=read.specimens,
        where=read.where,
        writer=writer,
        gravity=practice.settling.gravity,
        doubts=evidence.doubts,
        oldest_paper=practice.plausible.oldest_paper,
        points=inspection_points(adopted.rule_sets),
        shared_ids=shared_ids(adopted.rule_sets),
        changed=changed,
    )
    judged = judge(context, adopted.rule_sets, evidence.chains, progress)
    reached = find_reached_stage(project, context.points, stage, at_least)
    due = due_at(judged, reached.stage, read.where(("inspections",)).file)
    findings, lapsed = with_acceptances(project, due, adopted.rule_sets, read.where)
    unprintable = chain(unprintable_texts(read.tree, folder), unprintable_rules(adopted.files, folder))
    warnings = (
        *read.warnings,
        *implausible(facts, read, writer),
        *contradicted(facts, read),
        *contradicted_statements(_statements(facts, read, writer, practice.plausible.stated_density), read.where),
        *walls_on_nothing(project, read.tree),
        *days_after_project(project, read.tree),
        *amended_after_project(project, adopted.amendments),
        *of_issued,
        *issued_days(project, issued, read.tree),
        *doubt_problems(evidence.doubts, read.specimens, read.where, writer),
        *walls_that_nearly_meet(facts.views, references.supports, read.tree, writer),
        *islice(unprintable, MOST_PROBLEMS),
        *lapsed,
        *nothing_left(adopted, read.where(("amendments",))),
    )
    digests = read.digests_with(adopted.files)
    return Checked(
        project,
        rule_sets=adopted.rule_sets,
        facts=facts,
        findings=findings,
        specimens=read.specimens,
        warnings=warnings,
        fingerprint=fingerprint_of(digests),
        digests=digests,
        amendments=adopted.amendments,
        questions=side_by_side(findings),
        evidence=evidence,
        references=references,
        inputs=input_paths(folder, read, adopted),
        reached=reached,
        changed=changed,
        type_files={kind: read.where(("wall_types", kind)).file for kind in project.wall_types},
    )


def refuse_too_many(facts: Facts, adopted: Adopted, place: Place) -> None:
    """Raises ProblemsFound where more findings would be made than a computer of today has memory for."""
    count = sum(len(facts.of(rule.about)) for one in adopted.rule_sets for rule in one.rules)
    if count > _MOST_FINDINGS:
        wrong = f"the rules and what they are about would make {count:,} findings, more than {_MOST_FINDINGS:,}"
        raise ProblemsFound([Problem(place, "project-size", wrong, "adopt fewer rules, or divide the project")])


def refuse_stray_answers(folder: Path, facts: Facts, adopted: Adopted, read: ReadProject) -> None:
    """Raises ProblemsFound where an answer names no rule, several, or nothing that its rule is about."""
    dropped = {(one.rule_set, one.rule) for one in adopted.amendments if one.what == "drop"}

    def where(path: FieldPath) -> Place:
        return in_folder(folder, read.where(path))

    found = list(answer_problems(read.project, rule_sets=adopted.rule_sets, dropped=dropped, facts=facts, where=where))
    if found:
        raise ProblemsFound(at_most(found, "too-many-problems"))


def nothing_left(adopted: Adopted, place: Place) -> Iterator[Problem]:
    """A warning for each rule set all of whose rules were dropped: nothing of it is checked."""
    for rule_set in adopted.rule_sets:
        if not rule_set.rules:
            wrong = f"every rule of {rule_set.id} is dropped, so nothing of it is checked"
            instead = "adopt another rule set, or keep the rules that apply"
            yield Problem(place, "amendment-nothing-left", wrong, instead, warning=True)


def input_paths(folder: Path, read: ReadProject, adopted: Adopted) -> frozenset[Path]:
    """Every file that the project was read from, and what was issued of it, without links."""
    own = [*(folder / name for name in read.files), *(folder / ISSUED_FOLDER).glob("*")]
    return frozenset(path.resolve() for path in (*own, *(path for _, path in adopted.files)))


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


def _statements(facts: Facts, read: ReadProject, writer: Writer, density_differs: float) -> Statements:
    building = facts.building
    return Statements(
        read.project,
        specimens=read.specimens,
        writer=writer,
        swelling=lambda: building.screening.swelling.groups if building else (),
        density_differs=density_differs,
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
