"""The blends of a project folder as text: reading, working out and writing for one command."""

from __future__ import annotations

from pathlib import Path

from compliance.facts.derive import derive
from compliance.facts.earth.trial_advice import trial_advice
from compliance.facts.evidence.gathered import Evidence, gathered
from compliance.facts.mixes.mix_blend import mix_blend
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.model.materials import Mix
from compliance.model.project import Project
from compliance.model.trials import Trial
from compliance.output.terminal.blend_text import blend_text
from compliance.reading.project_folder import read_project
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.refused import nearest
from compliance.report.earth.mix_blends import first_that_fits
from compliance.units import Writer


class BlendError(ValueError):
    """A mix or a target that is not there, in one sentence."""


def blend_pages(folder: Path, mix: str | None, target: str | None, width: int) -> str:
    """The mix or trial brick `mix`; without one every mix, or where there is none the brick that broke best. Raises
    ProblemsFound for a folder that cannot be read, BlendError for an unknown mix or target."""
    read, practice = read_project(folder), read_material_practice()
    project = read.project
    if mix is not None and mix not in project.mixes and mix not in project.trials:
        raise BlendError(_unknown("mix or trial", mix, [*project.mixes, *project.trials]))
    if target is not None and target not in practice.targets:
        raise BlendError(_unknown("target", target, list(practice.targets)))
    evidence = gathered(project, read.specimens, practice)
    if (mix in project.trials and mix not in project.mixes) or not project.mixes:
        marks = (mix,) if mix else _best_trials(project, evidence, practice)
        project = project.model_copy(update={"mixes": {mark: _as_mix(mark, project.trials[mark]) for mark in marks}})
        mix = None
    mixes = derive(project, read.specimens, read_support_rules(), evidence).of("mix")
    targets = practice.targets if target is None else {target: practice.targets[target]}
    writer = Writer(project.project.units)
    pages = []
    for mark in [mix] if mix else project.mixes:
        volume = mixes[mark].facts["mix.volume"].value
        blend = mix_blend(
            mark,
            project=project,
            soils=evidence.soils,
            practice=practice,
            volume=volume if isinstance(volume, float) else 0.0,
            targets=targets,
        )
        pages.append(blend_text(blend if target else first_that_fits(blend), project, writer, width))
    return "\n".join(pages)


def _best_trials(project: Project, evidence: Evidence, practice: MaterialPractice) -> tuple[str, ...]:
    best = trial_advice(project.trials, evidence.ranking, project.soils, practice.earth).best
    if not best:
        raise BlendError("the project describes no mix, and no trial brick is broken yet: add mixes:")
    return best


def _as_mix(mark: str, trial: Trial) -> Mix:
    return Mix.model_construct(
        name=f"Trial brick {mark}", parts=trial.parts, straw=trial.straw, straw_parts=trial.straw_parts, trial=mark
    )


def _unknown(what: str, name: str, known: list[str]) -> str:
    near = nearest(name, known)
    hint = f"did you mean {near}?" if near else f"known: {', '.join(known)}"
    return f"there is no {what} {name!r} ({hint})"
