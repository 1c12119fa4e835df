"""From the described building to the facts of every subject. The one door into this package."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from compliance.facts.common.fact import Fact, FieldPath
from compliance.facts.common.kept_facts import Before, kept
from compliance.facts.common.on_demand import attach
from compliance.facts.evidence.evidence_facts import mix_evidence_facts, set_evidence_facts, wall_evidence_facts
from compliance.facts.evidence.gathered import NO_EVIDENCE, Evidence
from compliance.facts.evidence.shown_results import shown_fact
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.described import (
    beam_facts,
    field_facts,
    project_facts,
    roof_facts,
    site_facts,
)
from compliance.facts.geometry.opening_facts import opening_facts
from compliance.facts.geometry.openings import pier_facts
from compliance.facts.geometry.plan.runs import hole_mark
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.facts.geometry.wall_facts import ends_of_section, wall_facts
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.facts.geometry.wall_views import Views, find_views
from compliance.facts.soil.soil_facts import soil_facts
from compliance.facts.specimens.material_facts import mix_facts, set_facts
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.model.walls import Wall

if TYPE_CHECKING:
    from compliance.facts.site.action_tables import ActionTables

Parents = dict[str, Subject | FieldPath]


def derive(
    project: Project, specimens: Mapping[str, Sequence[Specimen]], rules: SupportRules,
    evidence: Evidence = NO_EVIDENCE, tables: Callable[[], ActionTables] | None = None, before: Before | None = None,
) -> Facts:  # fmt: skip
    """All facts of `project`. `specimens` by mark of their set; `rules` say what supports a wall sideways.

    `evidence` holds the records of the materials; what it does not hold counts as not told. `tables` gives what loads
    are worked out with, when the first rule asks for one; without it there are no facts of loads and structure.
    `before` is a building that differs a little: what nothing has changed keeps its facts. Where it wants one wall
    only, the others have none, and what is said of all walls together, as for a mix, is left as it was.
    """
    before = before if before is not None and before.near(project) else None
    near = before is not None
    alike = before is not None and before.same_height(project)
    stated = kept(before, same=alike, about="project", mark="project", make=partial(project_facts, project))
    ground: Parents = {"project": Subject("project", "project", ("project",), stated)}
    stated = kept(before, same=near, about="site", mark="site", make=partial(site_facts, project))
    ground["site"] = Subject("site", mark="site", path=("site",), facts=stated, parents={"project": ground["project"]})
    subjects: dict[str, dict[str, Subject]] = {"project": {}, "site": {}}
    for about in ("project", "site"):
        one = ground[about]
        assert isinstance(one, Subject)
        subjects[about][about] = one
    subjects |= _parts(project, ground, evidence, before)
    found = _views(project, rules, before)
    views, only = found.runs, _wanted(found, before)
    same = {mark for mark in views if before is not None and before.same_wall(mark, found)}

    def of_wall(mark: str) -> dict[str, Fact]:
        evidence_facts = wall_evidence_facts(mark, project, specimens, evidence.chains.get(mark))
        return wall_facts(views[mark], project.walls[mark], mark, project) | evidence_facts

    walls = {
        mark: Subject(
            "wall",
            mark,
            ("walls", mark),
            kept(before, same=mark in same, about="wall", mark=mark, make=partial(of_wall, mark)),
            wall=mark,
        )
        for mark in views
        if mark in only
    }
    whole = {mark: wall for mark, wall in walls.items() if views[mark].mark == mark}
    subjects["mix"] = _mixes(project, specimens=specimens, walls=whole, evidence=evidence, ground=ground, before=before)
    subjects["set"] = _sets(project, specimens=specimens, evidence=evidence, ground=ground, mixes=subjects["mix"])
    subjects["wall"] = walls
    for mark, wall in walls.items():
        wall.parents = ground | _wall_parents(mark, project.walls[mark], subjects)
    subjects["opening"], subjects["pier"] = _openings(found, project=project, walls=walls, before=before, same=same)
    if tables is None:
        return Facts(subjects, found.pieces, views)
    building = Building(project, specimens=specimens, views=found, subjects=subjects, tables=tables)
    attach(building, subjects)
    return Facts(subjects, found.pieces, views, building)


def _mixes(
    project: Project, specimens: Mapping[str, Sequence[Specimen]], walls: Mapping[str, Subject], evidence: Evidence,
    ground: Parents, before: Before | None,
) -> dict[str, Subject]:  # fmt: skip
    def made(mark: str) -> dict[str, Fact]:
        mix = project.mixes[mark]
        evidence_facts = mix_evidence_facts(
            mark, mix=mix, project=project, specimens=specimens, record=evidence.mixes.get(mark)
        )
        return mix_facts(mark, mix, project, walls) | evidence_facts

    one_wall = before is not None and before.only != ""
    return {
        mark: Subject(
            "mix",
            mark=mark,
            path=("mixes", mark),
            facts=kept(before, same=one_wall, about="mix", mark=mark, make=partial(made, mark)),
            parents=ground,
        )
        for mark in project.mixes
    }


def _sets(
    project: Project, specimens: Mapping[str, Sequence[Specimen]], evidence: Evidence, ground: Parents,
    mixes: Mapping[str, Subject],
) -> dict[str, Subject]:  # fmt: skip
    found = {}
    for mark, test in project.test_sets.items():
        lab = project.lab.file_of(test.kind)
        facts = set_facts(
            mark, test=test, specimens=specimens.get(mark, ()), doubts=evidence.doubts.get(mark, ()), lab=lab
        )
        facts["set.shown_to_official"] = shown_fact(mark, test, project, specimens)
        facts |= set_evidence_facts(mark, test, evidence.sets.get(mark), lab)
        found[mark] = Subject(
            "set", mark=mark, path=("test_sets", mark), facts=facts, parents=ground | {"mix": mixes[test.mix]}
        )
    return found


def _parts(
    project: Project, ground: Parents, evidence: Evidence, before: Before | None
) -> dict[str, dict[str, Subject]]:
    """Soils, stem walls, footings, beams and roofs."""

    def of(about: str, section: str, facts: Callable[[Any, FieldPath], dict[str, Fact]]) -> dict[str, Subject]:
        old = getattr(before.project, section) if before else {}
        found = {}
        for mark, record in getattr(project, section).items():
            path = (section, mark)
            same = kept(before, same=old.get(mark) is record, about=about, mark=mark, make=partial(facts, record, path))
            found[mark] = Subject(about, mark=mark, path=path, facts=same, parents=ground)
        return found

    return {
        "soil": of(
            "soil", "soils", lambda record, path: soil_facts(str(path[1]), record, evidence.soils.get(str(path[1])))
        ),
        "stem": of("stem", "stems", lambda record, path: field_facts("stem", record, path)),
        "footing": of("footing", "footings", lambda record, path: field_facts("footing", record, path)),
        "beam": of("beam", "beams", beam_facts),
        "roof": of("roof", "roofs", roof_facts),
    }


def _views(project: Project, rules: SupportRules, before: Before | None) -> Views:
    """Walls whose line the reader has already found sound."""
    if before and before.same_plan(project):
        return Views(before.facts.views, before.facts.runs)
    return find_views(project, rules)


def _wanted(views: Views, before: Before | None) -> frozenset[str]:
    """The walls whose facts are wanted: all, or one with the wall that it is a piece of."""
    if before is None or not before.only:
        return frozenset(views.runs)
    return frozenset({before.only, views.runs[before.only].mark} if before.only in views.runs else ())


def _wall_parents(mark: str, wall: Wall, subjects: Mapping[str, Mapping[str, Subject]]) -> Parents:
    """The mix, stem, footing and beam of a wall, or the path of the field that would name each."""
    parents: Parents = {}
    for about in ("mix", "stem", "footing", "beam"):
        named = getattr(wall, about)
        parents[about] = subjects[about][named] if named else ("walls", mark, about)
    return parents


def _openings(
    views: Views, project: Project, walls: Mapping[str, Subject], before: Before | None, same: Collection[str]
) -> tuple[dict[str, Subject], dict[str, Subject]]:
    """Openings by the piece of wall that describes them, piers by the whole wall."""
    openings: dict[str, Subject] = {}
    piers: dict[str, Subject] = {}
    for wall_mark in walls:
        view, stays = views.runs[wall_mark], wall_mark in same
        parents = {**walls[wall_mark].parents, "wall": walls[wall_mark]}
        for own, described in project.walls[wall_mark].openings.items():
            mark, path = f"{wall_mark}.{own}", ("walls", wall_mark, "openings", own)
            hole = next(one for one in view.opened.holes if one.mark == hole_mark(view.mark, wall_mark, own))
            facts = kept(
                before, same=stays, about="opening", mark=mark, make=partial(opening_facts, path, described, hole, view)
            )
            openings[mark] = Subject("opening", mark=mark, path=path, facts=facts, parents=parents, wall=wall_mark)
        if view.mark != wall_mark:
            continue
        for pier in view.opened.piers:
            mark = f"{wall_mark}.{pier.mark}"
            facts = kept(
                before,
                same=stays,
                about="pier",
                mark=mark,
                make=partial(pier_facts, pier, min(ends_of_section(view.wall))),
            )
            piers[mark] = Subject(
                "pier", mark=mark, path=("walls", wall_mark), facts=facts, parents=parents, wall=wall_mark
            )
    return openings, piers
