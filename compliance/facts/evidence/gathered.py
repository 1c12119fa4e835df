"""All that is known of the materials, worked out once: for the facts, and for the documents to print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

from compliance.facts.doubts.doubt import Doubt
from compliance.facts.doubts.of_sets import doubts_of_sets
from compliance.facts.doubts.outlier_doubts import outlier_doubts
from compliance.facts.evidence.chain import Chain
from compliance.facts.mixes.mix_composition import MixRecord, mix_record
from compliance.facts.mixes.trial_ranking import Ranking, ranked_trials
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.soil_record import SoilRecord, soil_record
from compliance.facts.specimens.set_record import SetRecord, set_record
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.record import record

NO_RANKING = Ranking((), "", ())


@record
class Evidence:
    """Records of soils, mixes and sets, the chain of each wall, and the doubts about each set, all by mark.
    `ranking` is that of the trials."""

    soils: Mapping[str, SoilRecord] = field(default_factory=dict)
    ranking: Ranking = NO_RANKING
    mixes: Mapping[str, MixRecord] = field(default_factory=dict)
    sets: Mapping[str, SetRecord] = field(default_factory=dict)
    chains: Mapping[str, Chain] = field(default_factory=dict)
    doubts: Mapping[str, tuple[Doubt, ...]] = field(default_factory=dict)


NO_EVIDENCE = Evidence()


def gathered(project: Project, specimens: Mapping[str, Sequence[Specimen]], practice: MaterialPractice) -> Evidence:
    """Raises SoilError for a soil test that makes no sense; the reader of projects refuses those beforehand."""
    soils = {mark: soil_record(soil, practice) for mark, soil in project.soils.items()}
    ranking = ranked_trials(project.trials, practice.trials)
    sets = {mark: set_record(test.kind, specimens.get(mark, ()), practice) for mark, test in project.test_sets.items()}
    doubts = doubts_of_sets(project, specimens, practice)
    for mark, one in sets.items():
        if apart := outlier_doubts(mark, one):
            doubts[mark] = (*doubts.get(mark, ()), *apart)
    return Evidence(
        soils=soils,
        ranking=ranking,
        mixes={mark: mix_record(mix, project, soils, ranking) for mark, mix in project.mixes.items()},
        sets=sets,
        chains={mark: Chain(mark, project, specimens) for mark in project.walls},
        doubts=doubts,
    )
