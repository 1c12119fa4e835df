"""The blends of a project folder as text: reading, working out and writing for one command."""

from __future__ import annotations

from pathlib import Path

from compliance.facts.derive import derive
from compliance.facts.evidence.gathered import gathered
from compliance.facts.mixes.mix_blend import MixBlend, mix_blend
from compliance.output.terminal.blend_text import blend_text
from compliance.reading.project_folder import read_project
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.reading.reference_files.support_rules import read_support_rules
from compliance.record import replace
from compliance.refused import nearest
from compliance.units import Writer


class BlendError(ValueError):
    """A mix or a target that is not there, in one sentence."""


def blend_pages(folder: Path, mix: str | None, target: str | None, width: int) -> str:
    """Raises ProblemsFound for a folder that cannot be read, BlendError for an unknown mix or target."""
    read, practice = read_project(folder), read_material_practice()
    project = read.project
    if not project.mixes:
        raise BlendError("the project describes no mix: add mixes:")
    if mix is not None and mix not in project.mixes:
        raise BlendError(_unknown("mix", mix, list(project.mixes)))
    if target is not None and target not in practice.targets:
        raise BlendError(_unknown("target", target, list(practice.targets)))
    evidence = gathered(project, read.specimens, practice)
    mixes = derive(project, read.specimens, read_support_rules(), evidence).of("mix")
    targets = practice.targets if target is None else {target: practice.targets[target]}
    writer = Writer(project.project.units)
    pages = []
    for mark in [mix] if mix else project.mixes:
        volume = mixes[mark].facts["mix.volume"].value
        assert isinstance(volume, float)
        blend = mix_blend(
            mark, project=project, soils=evidence.soils, practice=practice, volume=volume, targets=targets
        )
        pages.append(blend_text(blend if target else _first_that_fits(blend), project, writer, width))
    return "\n".join(pages)


def _first_that_fits(blend: MixBlend) -> MixBlend:
    """Targets are listed in the order of preference; those that do not fit are named only where none does."""
    return replace(blend, aims=blend.aims[:1], unfit=() if blend.aims else blend.unfit)


def _unknown(what: str, name: str, known: list[str]) -> str:
    near = nearest(name, known)
    hint = f"did you mean {near}?" if near else f"known: {', '.join(known)}"
    return f"there is no {what} {name!r} ({hint})"
