"""What stands behind one wall: the checks of its height, the evidence of its strength, the points where it is looked
at, and items requiring action. Gathered here for the documents that tell of a wall in one place."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from compliance.checked import Checked
from compliance.findings import Finding, Outcome
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.inspection_points import SitePoint
from compliance.rules.rule_set import Rule

_OF_HEIGHT = frozenset({"wall.height", "wall.height_to_thickness", "wall.exposed_height"})
_OF_STRENGTH = frozenset({
    "wall.compression_sets", "wall.compression_evidence", "wall.rupture_evidence", "wall.shrinkage_evidence",
    "wall.tests_shown",
})  # fmt: skip
_ASKING = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING)


@record
class WallFinding:
    """One finding with the rule that reports it."""

    group: RuleFindings
    finding: Finding


@record
class WallEvidence:
    """`height` and `strength` are judged findings of the wall or of its mix and sets; `asking` those of the wall, its
    openings and piers that are for an engineer, to revise or missing and do not stand above. `open` counts findings of
    the wall that wait for a limit. `points` are with the subjects that concern this wall."""

    mark: str
    height: tuple[WallFinding, ...]
    strength: tuple[WallFinding, ...]
    asking: tuple[WallFinding, ...]
    open: int
    points: tuple[tuple[SitePoint, tuple[Finding, ...]], ...]


def wall_evidence(
    checked: Checked, sets: tuple[SetFindings, ...], points: Sequence[SitePoint]
) -> tuple[WallEvidence, ...]:
    """For every wall, in the order of the project."""
    index = _Index(sets)
    of_points = _points_by_wall(checked, points)
    return tuple(_one(checked, index, mark, of_points.get(mark, {})) for mark in checked.project.walls)


class _Index:
    """Judged findings by wall, and those of mixes and sets by subject; the rules that speak of height and strength."""

    def __init__(self, sets: tuple[SetFindings, ...]) -> None:
        self.by_wall: dict[str, list[WallFinding]] = defaultdict(list)
        self.by_subject: dict[str, list[WallFinding]] = defaultdict(list)
        self.of_height: set[str] = set()
        self.of_strength: set[str] = set()
        for one in sets:
            rules = {rule.id: rule for rule in one.rule_set.rules}
            for group in one.rules:
                self._add(group, rules[group.rule])

    def _add(self, group: RuleFindings, rule: Rule) -> None:
        names = _names(rule)
        if names & _OF_HEIGHT:
            self.of_height.add(group.code)
        if rule.test or rule.covers or names & _OF_STRENGTH:
            self.of_strength.add(group.code)
        for finding in group.judged:
            if finding.wall:
                self.by_wall[finding.wall].append(WallFinding(group, finding))
            elif finding.about in ("mix", "set"):
                self.by_subject[finding.subject].append(WallFinding(group, finding))


def _names(rule: Rule) -> frozenset[str]:
    """Every fact the check of a rule looks at, in its formula and in its tables."""
    own = rule.check.names if rule.check else frozenset()
    return own | {name for table in rule.looked_up.values() for name in table.fact_names}


def _one(checked: Checked, index: _Index, mark: str, points: Points) -> WallEvidence:
    mix, own = checked.project.walls[mark].mix, index.by_wall[mark]
    tested = [mix, *(name for name, test in checked.project.test_sets.items() if test.mix == mix)] if mix else []
    height = [shown for shown in own if shown.group.code in index.of_height]
    of_mix = [shown for name in tested for shown in index.by_subject[name]]
    strength = [shown for shown in (*of_mix, *own) if shown.group.code in index.of_strength]
    above = {id(shown.finding) for shown in (*height, *strength)}
    asking = [shown for shown in own if shown.finding.outcome in _ASKING and id(shown.finding) not in above]
    return WallEvidence(
        mark,
        height=tuple(height),
        strength=tuple(strength),
        asking=tuple(sorted(asking, key=lambda shown: shown.finding.outcome.rank)),
        open=sum(shown.finding.outcome is Outcome.CONFIRM for shown in own),
        points=tuple((point, tuple(found)) for point, found in points.values()),
    )


Points = dict[str, tuple[SitePoint, list[Finding]]]


def _points_by_wall(checked: Checked, points: Sequence[SitePoint]) -> dict[str, Points]:
    """The points of each wall by their code, with the findings that concern it: its own, and those of what it stands
    on, is built of and carries."""
    walls_of = _walls_by_part(checked)
    found: dict[str, Points] = defaultdict(dict)
    for point in points:
        for finding in (*point.to_look_at, *point.passed):
            walls = [finding.wall] if finding.wall else walls_of.get((finding.about, finding.subject), [])
            for wall in walls:
                found[wall].setdefault(point.code, (point, []))[1].append(finding)
    return found


def _walls_by_part(checked: Checked) -> dict[tuple[str, str], list[str]]:
    """The walls that a mix, stem wall, footing, beam or roof belongs to."""
    found: dict[tuple[str, str], list[str]] = defaultdict(list)
    for mark, wall in checked.project.walls.items():
        for about in ("mix", "stem", "footing", "beam"):
            if part := getattr(wall, about):
                found[about, part].append(mark)
    for roof, of in checked.project.roofs.items():
        for bearing in of.bears_on:
            found["roof", roof].append(bearing.wall)
    return found
