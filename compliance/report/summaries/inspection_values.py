"""The values to hold a point of inspection against: what the drawings show of its subject, in words for the site."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from types import MappingProxyType

from compliance.checked import Checked
from compliance.findings import Finding
from compliance.model.structure import Anchor
from compliance.record import record
from compliance.report.inspection_points import SitePoint
from compliance.report.mark_runs import in_runs
from compliance.units import Measure, Writer

_NOT_DESCRIBED = "not described"


@record
class RequiredValues:
    """Subjects of which the same is required, and what."""

    subjects: tuple[str, ...]
    values: str

    @property
    def text(self) -> str:
        return f"{', '.join(in_runs(list(self.subjects)))}: {self.values}"


def required_values(checked: Checked, point: SitePoint) -> tuple[RequiredValues, ...]:
    """Of each subject that is still to be looked at, those alike together; nothing where the point is about work that
    has no measure."""
    described = _Described(checked, point.inspect.stage)
    found: dict[str, list[str]] = {}
    for one in point.to_look_at:
        found.setdefault("; ".join(described.values(one)), []).append(one.subject)
    return tuple(RequiredValues(tuple(marks), values) for values, marks in found.items() if values)


class _Described:
    """Values by kind of subject, those that bear on a stage of the work."""

    def __init__(self, checked: Checked, stage: str) -> None:
        self._project, self._writer, self._stage = checked.project, Writer(checked.project.project.units), stage

    def values(self, finding: Finding) -> Sequence[str]:
        made: Mapping[str, Callable[[str], Iterator[str]]] = MappingProxyType({
            "footing": self._footing, "stem": self._stem, "mix": self._mix, "wall": self._wall,
            "beam": self._beam,
        })  # fmt: skip
        if finding.about == "opening":
            return list(self._opening(finding.wall, finding.own_mark))
        of = made.get(finding.about)
        return list(of(finding.subject)) if of else []

    def _sized(self, measure: Measure | None, what: str, kind: str = "thickness") -> str:
        return f"{self._writer.write(measure.si, kind)} {what}" if measure else f"{what}: {_NOT_DESCRIBED}"

    def _footing(self, mark: str) -> Iterator[str]:
        of = self._project.footings[mark]
        yield of.kind.replace("-", " ")
        yield self._sized(of.width, "wide")
        yield self._sized(of.thickness, "thick")
        yield self._sized(of.bottom, "below grade to its underside")
        if of.kind in ("concrete", "rubble-trench-grade-beam"):
            count = f"{of.bar_count} bars" if of.bar_count is not None else f"bars: {_NOT_DESCRIBED}"
            yield of.bars or count
        yield f"drain: {_NOT_DESCRIBED}" if of.drain is None else "drain" if of.drain else "no drain"

    def _stem(self, mark: str) -> Iterator[str]:
        of = self._project.stems[mark]
        yield of.material.replace("-", " ")
        yield self._sized(of.thickness, "thick")
        yield self._sized(of.above_grade, "above grade at the lowest")
        yield f"capillary break: {(of.moisture_break or _NOT_DESCRIBED).replace('-', ' ')}"
        yield from self._anchors(of.anchors)

    def _mix(self, mark: str) -> Iterator[str]:
        of = self._project.mixes[mark]
        parts = ", ".join(f"{amount:g} {soil}" for soil, amount in of.parts.items())
        straw = f", {of.straw_parts:g} straw" if of.straw_parts else ""
        yield f"parts by loose volume {parts}{straw}"

    def _wall(self, mark: str) -> Iterator[str]:
        of = self._project.walls[mark]
        if self._stage == "anchors":
            beam, stem = self._project.beams.get(of.beam or ""), self._project.stems.get(of.stem or "")
            yield from self._anchors(stem.anchors if stem else None)
            yield from self._anchors(beam.anchors if beam else None, "bond beam anchors")
            yield f"reinforcement: {of.reinforcement or _NOT_DESCRIBED}"
            return
        if self._stage == "finish":
            for side, layers in (("outside", of.outside), ("inside", of.inside)):
                named = ", ".join(self._sized(one.thickness, one.material) for one in layers or ())
                yield f"{side}: {named or _NOT_DESCRIBED}"
            return
        base, top = of.thickness_base or of.thickness, of.thickness_top or of.thickness
        yield self._sized(base, "thick at the base")
        yield self._sized(top, "at the top")
        yield self._sized(of.height, "high over the stem wall", "length")
        if self._stage == "lifts":
            lift = self._writer.write(of.lift_height.si, "length") if of.lift_height else _NOT_DESCRIBED
            yield f"highest lift: {lift}"

    def _opening(self, wall: str, mark: str) -> Iterator[str]:
        of = self._project.walls[wall].openings[mark]
        yield f"{self._writer.write(of.width.si, 'length')} wide, {self._writer.write(of.height.si, 'length')} high"
        if of.lintel is None:
            yield f"lintel: {_NOT_DESCRIBED}"
            return
        yield f"{of.lintel.material.replace('-', ' ')} lintel, {self._sized(of.lintel.width, 'wide')}"
        yield self._sized(of.lintel.depth, "deep")
        yield self._sized(of.lintel.bearing, "bearing at each end")

    def _beam(self, mark: str) -> Iterator[str]:
        of = self._project.beams[mark]
        yield of.material
        yield self._sized(of.width, "wide")
        yield self._sized(of.depth, "deep")
        yield from ([of.bars] if of.bars else [])
        yield from self._anchors(of.anchors)

    def _anchors(self, anchors: Anchor | None, name: str = "anchors") -> Iterator[str]:
        if anchors is None:
            return
        yield f"{name}: {self._sized(anchors.diameter, 'diameter')}"
        yield self._sized(anchors.spacing, "on center", "length")
        yield self._sized(anchors.embedment, "embedment", "length")
