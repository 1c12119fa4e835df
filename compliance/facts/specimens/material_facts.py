"""Facts of mixes and of the sets of specimens cast from them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, without_meaning
from compliance.facts.doubts.doubt import Doubt
from compliance.facts.geometry.described import field_facts
from compliance.facts.geometry.subjects import Subject
from compliance.facts.specimens.specimen_results import density, measured
from compliance.findings import Lack, Missing
from compliance.model.materials import Mix, TestSet
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.units import Measure

RATES = ("stress_rate", "force_rate")
_OF_DENSITY = ("mass", "width", "depth", "height")


def mix_facts(mark: str, mix: Mix, project: Project, walls: Mapping[str, Subject]) -> dict[str, Fact]:
    """`walls` are the subjects of all walls, already derived."""
    path: FieldPath = ("mixes", mark)
    used = [subject for name, subject in walls.items() if project.walls[name].mix == mark]
    dose: Fact
    if mix.straw == "none":
        dose = known(0.0)
    elif mix.straw_parts is None:
        dose = lacking((*path, "straw_parts"))
    else:
        dose = known(mix.straw_parts / sum(mix.parts.values()))
    if project.is_earth_only:  # which walls it goes into nobody has said yet: not that it goes into none
        wall = lacking(("walls",))
        used_for = {"mix.bears_load": wall, "mix.braces": wall, "mix.volume": wall}
        return {"mix.straw_share": dose, **field_facts("mix", mix, path), **used_for}
    return {
        "mix.straw_share": dose,
        **field_facts("mix", mix, path),
        "mix.bears_load": _any_yes(used, "wall.bears_load"),
        "mix.braces": _any_yes(used, "wall.braces"),
        "mix.volume": known(math.fsum(_number(subject, "wall.volume") for subject in used)),
    }


def _any_yes(walls: Iterable[Subject], name: str) -> Fact:
    """Yes if any wall says yes; lacking if none does and one has not said."""
    facts = [wall.facts[name] for wall in walls]
    if any(fact.value is True for fact in facts):
        return known(True)
    lack = [path for fact in facts for path in fact.missing]
    return lacking(*lack) if lack else known(False)


def _number(subject: Subject, name: str) -> float:
    value = subject.facts[name].value
    assert isinstance(value, float)
    return value


def _highest_rate(name: str, test: TestSet, tested: Sequence[Specimen], path: FieldPath) -> Fact:
    """The highest rate of loading that the set or a row of a tested specimen states. Without that of the set, every
    such row must state it."""
    stated_rate: Measure | None = getattr(test, name)
    rates = [one.measure(name) for one in tested]
    found = [rate for rate in rates if rate is not None] + ([stated_rate.si] if stated_rate else [])
    if not found or (stated_rate is None and None in rates):
        return lacking((*path, name))
    return known(max(found))


def _form_length(mark: str, test: TestSet, specimens: Sequence[Specimen], lab: str) -> Fact:
    """The shortest form of a set of bars; lacking where that of one bar is not given."""
    if test.kind != "shrinkage":
        return without_meaning("no bar was cast in a form")
    forms = [one.form_length for one in specimens]
    found = [form for form in forms if form is not None]
    if not found or len(found) < len(forms):
        return lacking(Missing(Lack.CELLS, ("form_length", mark), lab))
    return known(min(found))


def set_facts(
    mark: str, test: TestSet, specimens: Sequence[Specimen], doubts: Sequence[Doubt] = (), lab: str = ""
) -> dict[str, Fact]:
    """Facts of one set of specimens, whose rows are looked for in `lab`. Strengths of single specimens are judged by
    test rules. A specimen counts as tested when it has a result."""
    path: FieldPath = ("test_sets", mark)
    results = [(one, measured(one).value) for one in specimens]
    values = [value for _, value in results if value is not None]
    tested = [one for one, value in results if value is not None]
    mean = sum(values) / len(values) if values else 0.0
    scatter = without_meaning("fewer than two specimens have a result")
    if len(values) > 1 and mean > 0:
        scatter = known(math.sqrt(sum((v - mean) ** 2 for v in values) / (len(values) - 1)) / mean)
    return {
        "set.kind": known(test.kind),
        "set.specimens": known(float(len(tested))),
        "set.doubts": known(float(sum(doubt.grave for doubt in doubts))),
        **field_facts("set", test, path),
        **{f"set.{name}": _highest_rate(name, test, tested, path) for name in RATES},
        "set.form_length": _form_length(mark, test, specimens, lab),
        "set.mean_density": _mean_density(mark, test=test, tested=tested, doubts=doubts, lab=lab),
        "set.scatter": scatter,
    }  # fmt: skip


def _mean_density(
    mark: str, test: TestSet, tested: Sequence[Specimen], doubts: Sequence[Doubt], lab: str
) -> Fact:  # fmt: skip
    """Of all specimens with a result: the heavy ones left out, the mean would say nothing."""
    if test.kind == "shrinkage":
        return without_meaning("bars are not weighed")
    densities = [density(one) for one in tested]
    known_ones = [value for value in densities if value is not None]
    if not tested or len(known_ones) < len(densities):
        without = [one.mark for one, value in zip(tested, densities, strict=True) if value is None]
        reason = f"no density of {', '.join(without)}" if known_ones else ""
        return Fact(None, missing=(Missing(Lack.CELLS, ("mass and sides", mark), lab),), reason=reason)
    wrong = [doubt for doubt in doubts if doubt.column in _OF_DENSITY]
    if wrong:
        reason = f"a value of {wrong[0].specimen} is implausible, check the unit"
        return Fact(None, missing=(Missing(Lack.CELLS, ("mass and sides", mark), lab),), reason=reason)
    return known(sum(known_ones) / len(known_ones))
