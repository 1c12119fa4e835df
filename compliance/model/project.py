"""The whole building as its builder describes it."""

from pydantic import Field

from compliance.model.base import Described, FilePath, Mark, no_items
from compliance.model.lab import Lab
from compliance.model.materials import Mix, Ordering, Soil, TestSet
from compliance.model.people import (
    AcceptedDeviation,
    Attachment,
    Attestation,
    InspectionRecord,
    Jurisdiction,
    OfficialComment,
    People,
    ProjectHead,
    no_jurisdiction,
)
from compliance.model.site import Room, Site, SitePlan
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.trials import Batch, Trial
from compliance.model.walls import Buttress, Wall, WallBuild


class Project(Described):
    """Every section of `project.yaml` and the files it includes. Things are named by their mark. More of them than
    any building has are refused, so that no file can keep a check busy for hours.

    A project may be of the earth alone: soils, trials, mixes or sets of specimens, and no walls. Only then may it do
    without a jurisdiction (`reading/cross_checks/whole_projects.py`)."""

    project: ProjectHead
    people: People = Field(default_factory=People)
    jurisdiction: Jurisdiction = Field(default_factory=no_jurisdiction)
    site: Site = Field(default_factory=Site)
    site_plan: SitePlan | None = None
    soils: dict[Mark, Soil] = Field(default_factory=dict, max_length=200)
    trials: dict[Mark, Trial] = Field(default_factory=dict, max_length=500)
    mixes: dict[Mark, Mix] = Field(default_factory=dict, max_length=200)
    ordering: Ordering = Field(default_factory=Ordering)
    batches: dict[Mark, Batch] = Field(default_factory=dict, max_length=2_000)
    test_sets: dict[Mark, TestSet] = Field(default_factory=dict, max_length=500)
    lab: Lab = Field(default_factory=Lab)
    stems: dict[Mark, Stem] = Field(default_factory=dict, max_length=100)
    footings: dict[Mark, Footing] = Field(default_factory=dict, max_length=100)
    beams: dict[Mark, BondBeam] = Field(default_factory=dict, max_length=100)
    roofs: dict[Mark, Roof] = Field(default_factory=dict, max_length=100)
    wall_types: dict[Mark, WallBuild] = Field(default_factory=dict, max_length=200)
    walls: dict[Mark, Wall] = Field(default_factory=dict, max_length=20_000)
    rooms: dict[Mark, Room] = Field(default_factory=dict, max_length=200)
    buttresses: dict[Mark, Buttress] = Field(default_factory=dict, max_length=20_000)
    attachments: dict[Mark, Attachment] = Field(default_factory=dict, max_length=500)
    attestations: list[Attestation] = Field(default_factory=no_items, max_length=2_000)
    inspections: list[InspectionRecord] = Field(default_factory=no_items, max_length=2_000)
    accepted: list[AcceptedDeviation] = Field(default_factory=no_items, max_length=500)
    comments: list[OfficialComment] = Field(default_factory=no_items, max_length=500)
    amendments: list[FilePath] = Field(default_factory=no_items, max_length=50)

    @property
    def is_earth_only(self) -> bool:
        """No wall is described: nothing can be said of a building."""
        return not self.walls
