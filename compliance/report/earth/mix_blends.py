"""A mix beside the mixes that practice aims for, of a project that was checked."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.facts.mixes.mix_blend import MixBlend, mix_blend
from compliance.record import replace


def blend_of_mix(checked: Checked, mark: str) -> MixBlend:
    """The mix `mark` beside every target."""
    practice = checked.needed_references.practice
    volume = checked.facts.of("mix")[mark].facts["mix.volume"].value
    return mix_blend(
        mark,
        project=checked.project,
        soils=checked.evidence.soils,
        practice=practice,
        volume=volume if isinstance(volume, float) else 0.0,
        targets=practice.targets,
    )


def first_that_fits(blend: MixBlend) -> MixBlend:
    """Targets are listed in the order of preference; those that do not fit are named where none before them does."""
    return replace(blend, aims=blend.aims[:1], unfit=blend.unfit_before)
