"""The whole building as its builder describes it."""

from __future__ import annotations

from pydantic import Field

from compliance.model.base import Described, FilePath, Mark
from compliance.model.lab import Lab
from compliance.model.materials import Mix, Soil, TestSet
from compliance.model.people import (
    Attachment,
    Attestation,
    InspectionRecord,
    Jurisdiction,
    OfficialComment,
    People,
    ProjectHead,
)
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.trials import Batch, Trial
from compliance.model.walls import Buttress, Wall, WallBuild


class Project(Described):
    """Every section of `project.yaml` and the files it includes. Things are named by their mark."""

    project: ProjectHead
    people: People = Field(default_factory=People)
    jurisdiction: Jurisdiction
    site: Site = Field(default_factory=Site)
    soils: dict[Mark, Soil] = Field(default_factory=dict)
    trials: dict[Mark, Trial] = Field(default_factory=dict)
    mixes: dict[Mark, Mix] = Field(default_factory=dict)
    batches: dict[Mark, Batch] = Field(default_factory=dict)
    test_sets: dict[Mark, TestSet] = Field(default_factory=dict)
    lab: Lab = Field(default_factory=Lab)
    stems: dict[Mark, Stem] = Field(default_factory=dict)
    footings: dict[Mark, Footing] = Field(default_factory=dict)
    beams: dict[Mark, BondBeam] = Field(default_factory=dict)
    roofs: dict[Mark, Roof] = Field(default_factory=dict)
    wall_types: dict[Mark, WallBuild] = Field(default_factory=dict)
    walls: dict[Mark, Wall] = Field(min_length=1)
    buttresses: dict[Mark, Buttress] = Field(default_factory=dict)
    attachments: dict[Mark, Attachment] = Field(default_factory=dict)
    attestations: list[Attestation] = Field(default_factory=list)
    inspections: list[InspectionRecord] = Field(default_factory=list)
    comments: list[OfficialComment] = Field(default_factory=list)
    amendments: list[FilePath] = Field(default_factory=list)
