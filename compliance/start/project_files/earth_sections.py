"""Answers about the earth into the sections of a project: soils, trial bricks, the mix."""

from __future__ import annotations

from typing import Any

from compliance.start.interview.earth_questions import brick_of, broke_of, dug_of, jar_of
from compliance.start.interview.interview_question import Answers
from compliance.start.interview.mix_parts import material_of

Tree = dict[str, Any]


def earth_tree(answers: Answers) -> Tree:
    """`soils`, `trials` and `mixes`, those that were answered; none where no soil was asked about."""
    if "soils" not in answers:
        return {}
    names = answers["soils"].split(", ")
    soils: Tree = {}
    for number, name in enumerate(names, 1):
        kind = material_of(name)
        soil: Tree = {"name": name} | ({"material": kind} if kind else {}) | soil_tree(answers, f"soil.{number}")
        soils[f"S{number}"] = soil
    trials = _trials(answers, list(soils))
    tree: Tree = {"soils": soils} | ({"trials": trials} if trials else {})
    if chosen := answers.get("mix", ""):
        brick = {name: trials[chosen][name] for name in ("parts", "straw", "straw_parts") if name in trials[chosen]}
        tree["mixes"] = {"M1": {"name": "Wall mix", "trial": chosen} | brick}
    return tree


def soil_tree(answers: Answers, stem: str) -> Tree:
    """How a soil was dug and what its jar showed, as far as that was answered."""
    soil: Tree = dict(dug_of(answers.get(f"{stem}.dug", "")))
    jar = answers.get(f"{stem}.jar", "")
    return soil | ({"jar": jar_of(jar)} if jar else {})


def brick_tree(text: str, soils: list[str], broke: str, height: str) -> Tree:
    """A trial brick: its parts of the soils, its straw, and how it broke."""
    numbers, straw = brick_of(text, len(soils))
    parts = {mark: f"{part:g}" for mark, part in zip(soils, numbers, strict=True) if part}
    result = broke_of(broke)
    return {"parts": parts} | straw | ({"drop_height": height} if height and result else {}) | result


def _trials(answers: Answers, soils: list[str]) -> Tree:
    bricks = filter(None, answers.get("trials", "").split(", "))
    return {
        f"P{number}": brick_tree(text, soils, answers.get(f"trial.{number}", ""), answers.get("drop_height", ""))
        for number, text in enumerate(bricks, 1)
    }
