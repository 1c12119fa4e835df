"""Mixes and their tests in words: what is cast, what is still to cast, and when it can be tested."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import timedelta

from compliance.checked import Checked
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.report.earth.answer_parts import EarthLine, EarthSection, NextStep
from compliance.report.earth.trial_words import in_parts
from compliance.report.value_words import counted
from compliance.report.words.specimen_words import in_words
from compliance.rules.required_specimens import RequiredSpecimens, required_specimens
from compliance.units import Writer

KINDS: dict[SpecimenKind, str] = {"compression": "compression", "rupture": "bending", "shrinkage": "shrinkage"}
_DAY = 86400.0
_NO_RULES = (
    "No rule set is adopted, so how many specimens, of what shape and how old is not known here: the code or the "
    "official says."
)
_LIMITS = (
    "What a code asks is in the words of this tool; read it in the adopted copy. Results say nothing of a wall yet."
)


def find_required_sets(checked: Checked) -> dict[SpecimenKind, list[tuple[str, RequiredSpecimens]]]:
    """What the test rules of the adopted rule sets ask of a set, by the kind of test, with the clause."""
    found: dict[SpecimenKind, list[tuple[str, RequiredSpecimens]]] = {}
    for rule_set in checked.rule_sets:
        for rule in rule_set.rules:
            if rule.test is not None and rule.test.of in KINDS:
                found.setdefault(rule.test.of, []).append((rule.clause, required_specimens(rule)))
    return found


def mix_section(checked: Checked) -> EarthSection:
    """Every mix with its sets: how many specimens, how many results and their range."""
    project = checked.project
    lines = []
    for mark, mix in project.mixes.items():
        chosen = f", from trial {mix.trial}" if mix.trial else ""
        straw = f", {mix.straw_parts:g} straw" if mix.straw_parts else ""
        sets = [set_line(checked, name) for name, test in project.test_sets.items() if test.mix == mark]
        lines.append(EarthLine(f"{mark} {mix.name}: {in_parts(mix.parts)}{straw}{chosen}", tuple(sets)))
    return EarthSection("Mixes and tests", tuple(lines), (_LIMITS,) if project.test_sets else ())


def set_line(checked: Checked, mark: str) -> str:
    """A set with the number of its specimens and the range of its results."""
    test, writer = checked.project.test_sets[mark], Writer(checked.project.project.units)
    found = checked.evidence.sets[mark]
    results = found.results
    cast = counted(len(found.specimens), "specimen")
    doubts = checked.evidence.doubts.get(mark, ())
    doubt = f"; {counted(len(doubts), 'doubt')} about them" if doubts else ""
    if not results:
        return f"{mark} {KINDS[test.kind]}: {cast}, no result yet{doubt}"
    low, high = writer.write(min(results), found.kind), writer.write(max(results), found.kind)
    return f"{mark} {KINDS[test.kind]}: {cast}, {counted(len(results), 'result')} from {low} to {high}{doubt}"


def casting_steps(checked: Checked) -> Iterator[NextStep]:
    """Sets that the adopted rules ask for and that are not described, then specimens that can be tested, with the
    day."""
    project, writer = checked.project, Writer(checked.project.project.units)
    required_sets = find_required_sets(checked)
    for mark in project.mixes:
        if not checked.rule_sets:
            yield NextStep(f"Cast specimens of {mark} for its tests. {_NO_RULES}", "rule_sets: under jurisdiction:")
            continue
        for kind, rules in required_sets.items():
            if any(test.mix == mark and test.kind == kind for test in project.test_sets.values()):
                continue
            says = "; ".join(f"{clause}: {in_words(required, writer)}" for clause, required in rules)
            yield NextStep(f"Cast a set of {mark} for {KINDS[kind]}: {says}.", f"test_sets: with mix: {mark}")
    for mark, test in project.test_sets.items():
        waiting = [one for one in checked.specimens.get(mark, ()) if one.tested is None]
        ages = [
            required.least_age for _, required in required_sets.get(test.kind, ()) if required.least_age is not None
        ]
        if not checked.specimens.get(mark):
            yield NextStep(f"Cast the specimens of {mark}, or enter them.", f"lab/{test.kind}.csv, a row for each")
        elif waiting:
            yield NextStep(f"Test {counted(len(waiting), 'specimen')} of {mark} {_when(waiting, ages)}.")


def _when(waiting: list[Specimen], ages: list[float]) -> str:
    cast = [one.cast for one in waiting if one.cast is not None]
    if not ages or not cast:
        return "when dry through, and at the age that the code asks"
    day = max(cast) + timedelta(days=math.ceil(max(ages) / _DAY - 1e-9))
    return f"from {day.isoformat()}, and not before dry through"
