"""Soils in words: whether they can be used, what each lacks, what it has too much of."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.facts.earth.earth_practice import EarthPractice
from compliance.facts.earth.soil_use import SoilUse, Verdict, soil_use
from compliance.facts.soil.fractions import percent
from compliance.report.earth.answer_parts import EarthLine, EarthSection, NextStep

_ORIGINS = {"grading": "laboratory grading", "jar": "jar", "stated": "as stated"}
_VERDICTS: dict[Verdict, str] = {
    "usable": "can be used, as far as the field tests go",
    "doubtful": "doubtful: only trial bricks can show that it holds",
    "unusable": "do not use",
    "not known": "not known yet",
    "aggregate": "sand or other aggregate",
}
_FAULTS = {
    "organic": "Organic matter: it rots and leaves holes. Dig deeper or elsewhere.",
    "topsoil": "Dug so near the surface that it is topsoil. Dig deeper.",
    "silt": "Silt in surplus: it feels like clay but hardly binds, and draws water.",
    "clay": "Lacks clay: add a soil with more clay, not sand.",
}
_TO_WRITE = {
    "shares": ("Shake {soil} in a jar and read off the tops of sand, silt and clay.",
               "jar: {{sand: 3 in, silt: 3 5/8 in, clay: 4 1/8 in}} under soils: {mark}:"),
    "organic": ("Smell {soil} freshly dug, and look for roots: is there organic matter in it?",
                "organic: no (or yes) under soils: {mark}:"),
    "depth": ("How deep was {soil} dug? Topsoil does not go into walls.", "depth: 3 ft under soils: {mark}:"),
}  # fmt: skip
_DOUBTFUL = ("jar-read-early", "jar-read-late", "jar-not-clear", "jar-floating")
_LEAST_SAND = 0.25  # less than a quarter of a bucket to a bucket is not worth its name
REMARK = (
    "By field tests and common practice, no rule of a code. A jar shows shares of settled depth: clay reads too high "
    "in it. Trial bricks decide what a soil is good for, and tests of the mix how strong it is."
)


def soil_uses(checked: Checked) -> tuple[SoilUse, ...]:
    """In the order of the project."""
    practice, subjects = checked.needed_references.practice.earth, checked.facts.of("soil")
    return tuple(
        soil_use(mark, soil, subject=subjects[mark], found=checked.evidence.soils[mark], practice=practice)
        for mark, soil in checked.project.soils.items()
    )


def soil_section(checked: Checked) -> EarthSection:
    lines = tuple(soil_line(one, checked) for one in soil_uses(checked))
    return EarthSection("Soils", lines, (REMARK,) if lines else ())


def soil_line(one: SoilUse, checked: Checked) -> EarthLine:
    """Whether a soil can be used, and what it lacks."""
    practice = checked.needed_references.practice.earth
    return EarthLine(
        f"{one.mark} {checked.project.soils[one.mark].name}: {_VERDICTS[one.verdict]}",
        (*_says(one, practice), *_doubts(one, checked)),
    )


def _says(one: SoilUse, practice: EarthPractice) -> Iterator[str]:
    if one.shares is not None:
        shares = one.shares
        figures = f"clay {percent(shares.clay)}, silt {percent(shares.silt)}, sand {percent(shares.sand)}"
        yield f"{figures} ({_ORIGINS.get(one.origin or '', 'as stated')})"
    yield from (_FAULTS[fault] for fault in one.faults)
    if one.sand_to_add is not None and one.sand_to_add >= _LEAST_SAND and one.verdict != "unusable":
        yield (
            f"Lacks sand: about {round(one.sand_to_add * 4) / 4:g} parts of clean sand to one come nearest to the mix "
            f"aimed at, {percent(practice.clay)} clay. Make bricks on both sides of that."
        )
    elif one.verdict == "usable":
        yield f"Its clay is near the {percent(practice.clay)} aimed at: begin with bricks of the soil alone."


def _doubts(one: SoilUse, checked: Checked) -> Iterator[str]:
    """What makes the shares of its jar doubtful; nothing where they come from elsewhere."""
    jar = checked.evidence.soils[one.mark].jar
    for remark in jar.remarks if jar and one.origin == "jar" else ():
        if remark.code in _DOUBTFUL:
            yield remark.says


def soil_steps(checked: Checked) -> Iterator[NextStep]:
    """What is still to be done in the field, soil by soil."""
    for one in soil_uses(checked):
        yield from steps_of(one, checked)


def steps_of(one: SoilUse, checked: Checked) -> Iterator[NextStep]:
    """What is still to be done of one soil."""
    if one.verdict == "unusable":
        return
    soil = f"{one.mark} {checked.project.soils[one.mark].name}"
    for what in one.unknown:
        says, write = _TO_WRITE[what]
        yield NextStep(says.format(soil=soil), write.format(mark=one.mark))
