"""Facts that rest on the records of materials: of mixes, of sets, and of the walls that the evidence is for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, without_meaning
from compliance.facts.evidence.chain import Chain
from compliance.facts.evidence.shown_results import shown_against
from compliance.facts.mixes.mix_composition import MixRecord
from compliance.facts.specimens.set_record import SetRecord, known_values
from compliance.facts.specimens.specimen_results import measured
from compliance.findings import Lack, Missing
from compliance.model.materials import Mix, SpecimenKind, TestSet
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.steps import Given, Step

KINDS: tuple[SpecimenKind, ...] = ("compression", "rupture", "shrinkage")

Specimens = Mapping[str, Sequence[Specimen]]
_DAY = 86400.0


def mix_evidence_facts(
    mark: str, mix: Mix, project: Project, specimens: Specimens, record: MixRecord | None
) -> dict[str, Fact]:
    """What the mix blends to, whether it keeps to its trial, and how many sets and batches there are of it."""
    path: FieldPath = ("mixes", mark)
    later = [name for name, other in project.mixes.items() if other.replaces == mark]
    facts = {f"mix.{kind}_sets": _tested_sets(mark, kind, project, specimens) for kind in KINDS}
    facts |= {
        "mix.batches": known(float(sum(batch.mix == mark for batch in project.batches.values()))),
        "mix.has_trial": known(mix.trial is not None),
        "mix.replaces_another": known(mix.replaces is not None),
        "mix.replaced": known(bool(later), lambda: tuple(_line("Replaced by", name) for name in later)),
        "mix.follows_trial": _follows(mix, path, record),
    }
    rank = record.rank if record else None
    if rank is None or rank.rank is None:
        facts["mix.trial_rank"] = without_meaning("the mix names no trial that can be ranked")
    else:
        facts["mix.trial_rank"] = known(float(rank.rank), lambda: rank.steps)
    return facts | _blend_facts(project, path, record)


def _line(says: str, text: str) -> Step:
    return Step(says, "", (), Given("", text))


def _follows(mix: Mix, path: FieldPath, record: MixRecord | None) -> Fact:
    """No as soon as one proportion differs; yes only where nothing is left unsaid."""
    compared = record.comparison if record else None
    if compared is None:
        return lacking((*path, "trial"))
    steps = (*compared.steps, *(_line("Differs", says) for says in compared.differences))
    if compared.differences:
        return known(False, lambda: steps)
    if compared.unsaid:
        marks = {"mixes": path[1], "trials": mix.trial or ""}
        return lacking(*((section, marks[section], field) for section, field in compared.unsaid))
    return known(True, lambda: steps)


def _blend_facts(project: Project, path: FieldPath, record: MixRecord | None) -> dict[str, Fact]:
    names = ("clay", "silt", "sand", "gravel")
    if record is None or record.shares is None:
        unknown = record.unknown if record else ()
        paths = [("soils", soil, "clay") if soil in project.soils else ("soils", soil) for soil in unknown]
        return {f"mix.{name}": lacking(*paths) if paths else lacking((*path, "parts")) for name in names}
    remarks = tuple(_line("To mind", remark.says) for remark in record.remarks)
    facts = {}
    for name in names:
        steps = (*record.steps[name], *remarks)
        facts[f"mix.{name}"] = known(record.shares[name], lambda steps=steps: steps)  # type: ignore[misc]
    return facts


def set_evidence_facts(mark: str, test: TestSet, record: SetRecord | None, lab: str) -> dict[str, Fact]:
    """Age, drying and what stands apart in a set. `lab` is the file its rows are looked for in."""
    if record is None or not record.specimens:
        rows = lacking(Missing(Lack.ROWS, (mark,), lab))
        return {f"set.{name}": rows for name in ("least_age", "drying", "stands_apart", "batches")}
    ages = known_values(None if one.age is None else float(one.age) for one in record.specimens)
    drying = {one.dried for one in record.specimens}
    tested = [one for _, one in record.suspects]
    facts = {
        "set.least_age": lacking(Missing(Lack.CELLS, ("cast and tested", mark), lab))
        if ages is None else known(min(ages) * _DAY),
        "set.drying": lacking(Missing(Lack.CELLS, ("dried", mark), lab))
        if None in drying else known(str(drying.pop()) if len(drying) == 1 else "mixed"),
        "set.batches": known(float(len({one.batch for one in record.specimens if one.batch}))),
        "set.stands_apart": without_meaning("too few values, or all alike: none can be asked whether it stands apart"),
    }  # fmt: skip
    if tested:
        steps = tuple(step for one in tested for step in one.steps) + tuple(
            _line("Remark", says) for says in record.remarks
        )
        facts["set.stands_apart"] = known(bool(record.remarks), lambda: steps)
    return facts


def wall_evidence_facts(mark: str, project: Project, specimens: Specimens, chain: Chain | None) -> dict[str, Fact]:
    """Is there a tested set of each kind for the wall's mix, and was one of each shown before placing began?"""
    wall = project.walls[mark]
    names = {f"wall.{kind}_evidence": kind for kind in KINDS}
    if wall.mix is None:
        return dict.fromkeys((*names, "wall.compression_sets", "wall.tests_shown"), lacking(("walls", mark, "mix")))
    facts = {"wall.compression_sets": _tested_sets(wall.mix, "compression", project, specimens)}
    for name, kind in names.items():
        facts[name] = _tested(wall.mix, kind, project, specimens)
        if facts[name].value is True and chain:
            facts[name] = known(True, chain.steps)
    facts["wall.tests_shown"] = _shown(wall.mix, project, specimens, wall.placed_from)
    return facts


def _tested_sets(mix: str, kind: SpecimenKind, project: Project, specimens: Specimens) -> Fact:
    """How many sets of the mix have a result; lacking where sets are described and none has one: those that are cast
    and wait prove nothing yet."""
    sets = [mark for mark, test in project.test_sets.items() if (test.mix, test.kind) == (mix, kind)]
    tested = sum(any(measured(one).value is not None for one in specimens.get(mark, ())) for mark in sets)
    if sets and not tested:
        return lacking(Missing(Lack.ROWS, tuple(sets), project.lab.file_of(kind)))
    return known(float(tested))


def _tested(mix: str, kind: SpecimenKind, project: Project, specimens: Specimens) -> Fact:
    found = _tested_sets(mix, kind, project, specimens)
    if found.value is None:
        return found
    return known(True) if found.value else lacking(Missing(Lack.TEST_SET, (kind, mix), ""))


def _shown(mix: str, project: Project, specimens: Specimens, placed: date | None) -> Fact:
    """Of every kind of test the mix has, the set shown first must have been shown by the day placing began. One that
    came too late is a no, whatever is not known of others."""
    sets = {mark: test for mark, test in project.test_sets.items() if test.mix == mix}
    if not sets:
        return lacking(Missing(Lack.TEST_SET, ("", mix), ""))
    steps, late, unknown = [], False, []
    for kind in dict.fromkeys(test.kind for test in sets.values()):
        shown = {
            mark: None if shown_against(mark, test, project, specimens) else test.shown_to_official
            for mark, test in sets.items()
            if test.kind == kind
        }
        days = {mark: day for mark, day in shown.items() if day is not None}
        if not days:
            unknown += [("test_sets", mark, "shown_to_official") for mark in shown]
            continue
        first = min(days, key=lambda mark: days[mark])
        steps.append(_line(f"Set {first} ({kind}) shown to the official", days[first].isoformat()))
        late = late or (placed is not None and days[first] > placed)
    steps.append(_line("Placing of the wall", f"from {placed.isoformat()}" if placed else "no day given (placed_from)"))
    if unknown and not late:
        return lacking(*unknown)
    worked = tuple(steps)
    return known(not late, lambda: worked)
