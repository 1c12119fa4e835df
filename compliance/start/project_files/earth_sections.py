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
        soil: Tree = {"name": name} | ({"material": kind} if kind else {})
        soil |= dug_of(answers.get(f"soil.{number}.dug", ""))
        if jar := answers.get(f"soil.{number}.jar", ""):
            soil["jar"] = jar_of(jar)
        soils[f"S{number}"] = soil
    trials = _trials(answers, list(soils))
    tree: Tree = {"soils": soils} | ({"trials": trials} if trials else {})
    if chosen := answers.get("mix", ""):
        brick = {name: trials[chosen][name] for name in ("parts", "straw", "straw_parts") if name in trials[chosen]}
        tree["mixes"] = {"M1": {"name": "Wall mix", "trial": chosen} | brick}
    return tree


def _trials(answers: Answers, soils: list[str]) -> Tree:
    trials: Tree = {}
    for number, text in enumerate(filter(None, answers.get("trials", "").split(", ")), 1):
        numbers, straw = brick_of(text, len(soils))
        parts = {mark: f"{part:g}" for mark, part in zip(soils, numbers, strict=True) if part}
        broke = broke_of(answers.get(f"trial.{number}", ""))
        height = answers.get("drop_height", "")
        trials[f"P{number}"] = (
            {"parts": parts} | straw | ({"drop_height": height} if height and broke else {}) | broke
        )  # fmt: skip
    return trials
