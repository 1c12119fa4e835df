"""The answer for a project without walls: which soils, which brick, what to cast, what to do next."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.facts.earth.trial_advice import TrialAdvice
from compliance.record import record
from compliance.report.earth.answer_parts import EarthSection, NextStep
from compliance.report.earth.casting_words import casting_steps, mix_section
from compliance.report.earth.soil_words import soil_section, soil_steps, soil_uses
from compliance.report.earth.trial_words import advice_of, in_parts, trial_section, trial_steps
from compliance.report.value_words import counted

NO_BUILDING = (
    "No walls are described: this is about the earth alone, and nothing here says that a building meets a rule."
)


@record
class EarthAnswer:
    """`sentence` is the answer; `sections` what it rests on, those with nothing in them left out; `steps` in the order
    of the work."""

    sentence: str
    sections: tuple[EarthSection, ...]
    steps: tuple[NextStep, ...]


def earth_answer(checked: Checked) -> EarthAnswer:
    sections = (soil_section(checked), trial_section(checked), mix_section(checked))
    steps = (*soil_steps(checked), *trial_steps(checked), *casting_steps(checked))
    steps += () if checked.project.walls else (_walls(),)
    return EarthAnswer(_sentence(checked), tuple(one for one in sections if one.lines), steps)


def _sentence(checked: Checked) -> str:
    text = "; ".join(_phrases(checked))
    return f"{text[:1].upper()}{text[1:]}."


def _phrases(checked: Checked) -> Iterator[str]:
    uses = [one for one in soil_uses(checked) if one.verdict != "aggregate"]
    if uses:
        usable = [one.mark for one in uses if one.verdict == "usable"]
        named = f" ({', '.join(usable)})" if usable else ""
        yield f"{len(usable)} of {counted(len(uses), 'clay soil')} can be used{named}"
    if checked.project.trials:
        yield _of_trials(advice_of(checked), checked)
    sets, results = checked.project.test_sets, checked.evidence.sets
    if sets:
        with_result = sum(bool(results[mark].results) for mark in sets)
        yield f"{with_result} of {counted(len(sets), 'test set')} with results"


def _of_trials(advice: TrialAdvice, checked: Checked) -> str:
    if not advice.best:
        return "no trial brick is broken yet"
    best = ", ".join(f"{mark} ({in_parts(checked.project.trials[mark].parts)})" for mark in advice.best[:3])
    if advice.weak:
        return f"the best brick, {best}, broke to bits"
    more = "" if advice.is_found else "; more bricks would tell more"
    return f"the best brick is {best}{more}"


def _walls() -> NextStep:
    return NextStep("When there is a plan, describe the building.", "earthwall start FOLDER goes on with it")
