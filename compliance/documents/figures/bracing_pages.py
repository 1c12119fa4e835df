"""The plan with the bracing shares drawn, one for each direction, and under it every share as a figure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import groupby
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, running_text, title
from compliance.documents.elements.theme import Paper
from compliance.documents.figures.bracing_table import direction_words, shares_table
from compliance.documents.figures.drawing_block import PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import full_row
from compliance.drawings.bracing.bracing_drawing import shares_plan
from compliance.drawings.bracing.bracing_subject import LEAST_SHOWN, SharesSubject, Taken, share_text
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.facts.bracing.brace_forces import EARTHQUAKE, BracedWalls, braced_walls
from compliance.facts.bracing.brace_shares import Braced, Push
from compliance.facts.bracing.solid_lengths import Solid, lengths
from compliance.facts.common.needs import Needs
from compliance.facts.mechanics.lateral.torsion import Bracing
from compliance.findings import Standing
from compliance.report.value_words import counted
from compliance.report.words.plain_missing import plain_lacking
from compliance.units import Writer

_TITLE = "Plan with the bracing shares"
_KEY = "bracing-shares"
_SAYS = (
    "What pushes the building along its walls at the height of their tops, earthquake or wind, and how the solid "
    "lengths of the bracing walls share the push, one drawing for each direction in which walls run. Under a rigid "
    "diaphragm each takes its share by stiffness, with the push set off to the worse side and torsion never taking "
    "anything off. Under any other, and where none is stated, a line of walls takes what stands nearest to it: of an "
    "earthquake the weights, of the wind the width of the building.",
    "A screening: it tells where to look. It is no design of the bracing, the diaphragm, the joints or the ground "
    "under the walls; that is a licensed engineer's work, and the adopted code comes first.",
)
_TALLEST = 356.0
_MOST_DRAWN = 6


def bracing_shares(checked: Checked, paper: Paper) -> list[Any]:
    """Nothing without walls in the plan; what lacks where the shares cannot be worked out."""
    building = checked.facts.building
    if building is None or not building.views:
        return []
    need = Needs(building.subject("project", "project"))
    found = braced_walls(building, need)
    if found is None:
        return [running_text(part(_KEY, _TITLE, f"Not drawn, for the shares could not be worked out: {_lacks(need)}."))]
    if not found.taken:
        return [running_text(part(_KEY, _TITLE, "Not drawn: no wall with a solid length is counted on to brace."))]
    standing = need.known(True, lambda: ()).standing
    rests = (
        () if standing is None else (f"The lowest standing of the figures that this rests on is: {standing.value}.",)
    )
    if standing in (Standing.CONFIRMED, Standing.READ):
        rests = ()
    subjects = shares_subjects(checked, found)
    issue = Issue(checked.project.project.units, checked.project.project.revision)
    metrics = TextMetrics(letters, Writer(checked.project.project.units))
    story: list[Any] = [*on_this_page(), running_text(title(_KEY, _TITLE, *_SAYS, *rests), below=4.0)]
    for number, subject in enumerate(subjects):
        # Before its drawing: a table is cut at the end of a page, and a drawing would leave it empty.
        story.append(shares_table(found, subject.direction, metrics.writer))
        if number >= _MOST_DRAWN:
            continue
        draft = shares_plan(subject, metrics, paper.body_width - 2 * PAD, _TALLEST)
        height = least_height(draft, None, paper.body_width)
        story.append(
            block := DrawingBlock(draft, heading=None, width=paper.body_width, height=height, issue=issue, level=1)
        )
        if block.drawing.unset:
            phrases = f"No room on the drawing for: {'; '.join(block.drawing.unset)}."
            story.append(running_text([full_row(Words(phrases, theme.SMALL))]))
    if len(subjects) > _MOST_DRAWN:
        story.append(running_text([full_row(Words(_further(len(subjects) - _MOST_DRAWN), theme.BODY))]))
    return story


def _further(count: int) -> str:
    return f"{counted(count, 'direction')} not drawn, given in figures alone."


def _lacks(need: Needs) -> str:
    """The reasons, and what is not given."""
    lacking = need.lacking
    phrases = [lacking.reason] if lacking.reason else []
    phrases += [f"not given: {plain_lacking(lacking.missing)}"] if lacking.missing else []
    return "; ".join(phrases)


def shares_subjects(checked: Checked, found: BracedWalls) -> list[SharesSubject]:
    """One drawing for each direction, of the greater push in it; walls described in pieces are drawn whole."""
    project = checked.project
    views = {mark: view for mark, view in checked.facts.runs.items() if view.mark == mark}
    plan = PlanSubject(
        views, walls=project.walls, buttresses=project.buttresses, outside=outside_faces(views),
        north=project.site.north.si if project.site.north else None,
    )  # fmt: skip
    stiffness = Bracing([one.panel for one in found.solids.values()]).centre if found.two_way else None
    first = next(iter(found.taken.values()))
    made = []
    for number, indexes in enumerate(_by_direction([one.push for one in first]), start=1):
        index = max(indexes, key=lambda one: first[one].push.force)
        push = first[index].push
        mass = next(first[one].push.at for one in indexes if first[one].push.name == EARTHQUAKE)
        taken = tuple(_taken(checked, found.solids[key], parts[index]) for key, parts in found.taken.items())
        name = f"{_TITLE}, {push.name} {direction_words(push.seen.direction, Writer(project.project.units))}"
        made.append(
            SharesSubject(
                f"{_KEY}-{number}",
                name=name,
                plan=plan,
                push=push.name,
                force=push.force,
                direction=push.seen.direction,
                at=push.at,
                mass=mass,
                stiffness=stiffness,
                taken=taken,
                notes=_notes(taken, push),
            )
        )
    return made


def _by_direction(pushes: Sequence[Push]) -> list[list[int]]:
    """The places of the pushes of each direction, in their order."""
    grouped = groupby(range(len(pushes)), key=lambda index: pushes[index].seen.direction)
    return [list(indexes) for _, indexes in grouped]


def _taken(checked: Checked, solid: Solid, part_of: Braced) -> Taken:
    start, end = lengths(checked.facts.runs[solid.wall])[solid.index]
    share = part_of.force / part_of.push.force if part_of.push.force else 0.0
    return Taken(solid.wall, start=start, end=end, share=share, force=part_of.force)


def _notes(taken: Sequence[Taken], push: Push) -> tuple[str, ...]:
    held = [one.share for one in taken if math.isfinite(one.share)]
    notes = []
    if held:
        notes.append(f"Bars are as wide as the share; the widest is {share_text(max(held))} of the {push.name}.")
    notes.append(
        "The push may come from either side. Solid lengths without a bar are not counted on to brace. A share of less "
        f"than {LEAST_SHOWN * 100:g} % has no label."
    )
    if len(held) < len(taken):
        notes.append(
            "Dashed: under a rigid diaphragm the walls cannot hold this push. An engineer must look at the bracing."
        )
    return tuple(notes)
