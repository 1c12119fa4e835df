"""Trial bricks in words: best first, and which to make next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.checked import Checked
from compliance.facts.earth.trial_advice import TrialAdvice, is_broken, trial_advice
from compliance.facts.soil.fractions import percent
from compliance.model.trials import Trial
from compliance.report.earth.answer_parts import EarthLine, EarthSection, NextStep, amount
from compliance.report.value_words import counted
from compliance.units import Writer


def advice_of(checked: Checked) -> TrialAdvice:
    practice = checked.needed_references.practice.earth
    return trial_advice(checked.project.trials, checked.evidence.ranking, checked.project.soils, practice)


def trial_section(checked: Checked) -> EarthSection:
    """Every brick by its rank; those not broken yet last."""
    lines = tuple(trial_lines(checked).values())
    return EarthSection("Trial bricks, best first", lines, checked.evidence.ranking.remarks)


def trial_lines(checked: Checked) -> dict[str, EarthLine]:
    """How each brick broke, by its mark, best first."""
    trials, ranking, writer = checked.project.trials, checked.evidence.ranking, Writer(checked.project.project.units)
    advice = advice_of(checked)
    lines = {}
    for one in ranking.trials:
        trial = trials[one.mark]
        if is_broken(trial):
            best = ", the best" if one.mark in advice.best else ""
            lines[one.mark] = EarthLine(f"{one.rank}. {one.mark} ({_of(trial)}): {_how_it_broke(trial, writer)}{best}")
        else:
            lines[one.mark] = EarthLine(f"{one.mark} ({_of(trial)}): not broken yet")
    return lines


def _of(trial: Trial) -> str:
    return in_parts(trial.parts) + _straw(trial)


def in_parts(parts: Mapping[str, float]) -> str:
    """`1 S1 : 2 S2`."""
    return " : ".join(f"{amount(part)} {mark}" for mark, part in parts.items())


def _straw(trial: Trial) -> str:
    if trial.straw == "none" or trial.straw_parts is None:
        return ", no straw" if trial.straw == "none" else ""
    return f", {amount(trial.straw_parts)} straw"


def _how_it_broke(trial: Trial, writer: Writer) -> str:
    parts = []
    if trial.largest_piece is not None:
        parts.append(f"largest piece {percent(trial.largest_piece.si)}")
    if trial.pieces is not None:
        parts.append(counted(trial.pieces, "piece"))
    if trial.drop_height is not None:
        parts.append(f"from {writer.write(trial.drop_height.si, 'length')}")
    return ", ".join(parts)


def trial_steps(checked: Checked) -> Iterator[NextStep]:
    """Break what is dry; then proportions around the best, then straw, then the mix to go on with."""
    advice, trials = advice_of(checked), checked.project.trials
    if not trials and checked.project.soils:
        yield NextStep(
            "Make a row of trial bricks, from little sand to much, let them dry through, and drop them.",
            "trials: {P1: {parts: {S1: 1, S2: 1}}}",
        )
    if advice.waiting:
        yield NextStep(
            f"Drop the bricks not broken yet once they are dry: {', '.join(advice.waiting)}.",
            "pieces: and largest_piece: under each of them in trials:",
        )
    if advice.weak:
        yield NextStep(
            "Even the best brick broke to bits: try a soil with more clay, or bricks that dried longer in the shade."
        )
    if advice.best and advice.next_parts:
        around = "; ".join(in_parts(parts) for parts in advice.next_parts)
        yield NextStep(f"Make bricks around the best, {advice.best[0]}: {around}.", "trials:, one for each")
    if advice.best and advice.next_straw:
        total = sum(trials[advice.best[0]].parts.values())
        doses = ", ".join(amount(dose * total) for dose in advice.next_straw)
        then = "Then try straw" if advice.next_parts else "Try straw"
        yield NextStep(
            f"{then} at the best proportion, {in_parts(trials[advice.best[0]].parts)}: {doses} parts, pressed in.",
            "straw_parts: under each trial",
        )
    if advice.best and not advice.weak and not checked.project.mixes:
        best = trials[advice.best[0]]
        yield NextStep(
            f"Name the mix to go on with; so far the best is {advice.best[0]}.",
            f"mixes: {{M1: {{name: Wall mix, trial: {advice.best[0]}, "
            f"parts: {{{', '.join(f'{mark}: {amount(part)}' for mark, part in best.parts.items())}}}}}}}",
        )
