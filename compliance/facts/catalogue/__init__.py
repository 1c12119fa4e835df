"""The one catalogue of facts: every fact with its kind, label, plausible range and the function that computes it.

A value outside its plausible range is reported as a warning and used all the same. Kinds are those of
`compliance.units.KINDS`, or `yes-no`, or `word`.
"""

from __future__ import annotations

from compliance.facts.catalogue.energy_catalogue import ENERGY_FACTS
from compliance.facts.catalogue.material_catalogue import MATERIAL_FACTS
from compliance.facts.catalogue.opening_catalogue import OPENING_FACTS
from compliance.facts.catalogue.roof_catalogue import ROOF_FACTS
from compliance.facts.catalogue.site_catalogue import SITE_FACTS
from compliance.facts.catalogue.support_catalogue import SUPPORT_FACTS
from compliance.facts.catalogue.wall_catalogue import WALL_FACTS
from compliance.facts.catalogue.wall_load_catalogue import WALL_LOAD_FACTS
from compliance.facts.common.fact_spec import WORD, YES_NO, FactSpec

__all__ = ["ABOUTS", "ABOUT_LABELS", "FACTS", "STATED", "WORD", "YES_NO", "FactSpec"]

ABOUTS: dict[str, tuple[str, ...]] = {
    "project": (),
    "site": ("project",),
    "soil": ("project", "site"),
    "mix": ("project", "site"),
    "set": ("mix", "project", "site"),
    "stem": ("project", "site"),
    "footing": ("project", "site"),
    "beam": ("project", "site"),
    "roof": ("project", "site"),
    "wall": ("mix", "stem", "footing", "beam", "project", "site"),
    "opening": ("wall", "mix", "stem", "footing", "beam", "project", "site"),
    "pier": ("wall", "mix", "stem", "footing", "beam", "project", "site"),
}
"""What a rule may be about, and whose facts it may use besides its own subject's."""

ABOUT_LABELS = {
    "project": "project", "site": "site", "soil": "soil", "mix": "mix", "set": "test set", "stem": "stem wall",
    "footing": "footing", "beam": "bond beam", "roof": "roof", "wall": "wall", "opening": "opening", "pier": "pier",
}  # fmt: skip

FACTS: dict[str, FactSpec] = {
    spec.name: spec
    for spec in (
        *SITE_FACTS, *MATERIAL_FACTS, *SUPPORT_FACTS, *ROOF_FACTS, *WALL_FACTS, *WALL_LOAD_FACTS, *OPENING_FACTS,
        *ENERGY_FACTS,
    )
}  # fmt: skip
"""What is known of every fact, by its full name."""

STATED: dict[str, tuple[str, ...]] = {
    about: tuple(spec.field for spec in FACTS.values() if spec.stated and spec.about == about) for about in ABOUTS
}
"""For each kind of subject the fields of its description that are facts as they stand."""
