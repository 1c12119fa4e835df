"""What the engineer's brief says of one wall or of the building: geometry, loads by case, what holds the wall, what the
calculations take for granted and what nobody knows. All of it is facts and findings; nothing is worked out here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.papers.schedule import NOT_GIVEN, shown
from compliance.facts.catalogue import FACTS
from compliance.facts.common.coefficients import CoefficientStep
from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_plan import Support
from compliance.findings import Finding, Lack, Missing, Outcome
from compliance.model.structure import BondBeam
from compliance.record import record
from compliance.report.value_words import NOTHING
from compliance.report.words.plain_missing import plain_list, plain_missing
from compliance.steps import Source, Step
from compliance.units import Writer

LabeledText = tuple[str, str]
"""A label and what is said."""

GEOMETRY = (
    ("wall.length", "Length"), ("wall.height", "Height over the stem wall"), ("wall.base_thickness", "Thickness, base"),
    ("wall.least_thickness", "Thickness, least"), ("wall.unsupported_length", "Unsupported length"),
    ("wall.height_to_thickness", "Height to thickness"), ("wall.braces", "Braces in plane"),
    ("wall.bears_load", "Bears load"), ("wall.reinforced", "Reinforced"),
    ("stem.above_grade", "Stem wall above grade"), ("stem.thickness", "Stem wall thickness"),
    ("stem.material", "Stem wall of"), ("footing.kind", "Footing"),
    ("footing.width", "Footing width"), ("footing.thickness", "Footing thickness"), ("footing.bottom", "Footing depth"),
    ("beam.material", "Bond beam of"), ("beam.width", "Bond beam width"), ("beam.depth", "Bond beam depth"),
    ("beam.anchor_spacing", "Anchor spacing"), ("beam.anchor_capacity", "Anchor capacity upward"),
    ("beam.anchor_shear", "Anchor capacity sideways"),
)  # fmt: skip
LOADS = (
    ("D", "wall.top_dead", "roofs and bond beam, on top"), ("D", "wall.own_weight", "the wall with its finishes"),
    ("D", "wall.stem_weight", "stem wall"), ("D", "wall.footing_weight", "footing"),
    ("L", "wall.top_live", "roof live load, on top"), ("S", "wall.top_snow", "snow, on top"),
    ("R", "wall.top_water", "water in a drainage layer, on top"),
    ("D, L, S", "wall.line_load", "on top together, as used"), ("D, L, S", "wall.end_load", "on the end of the wall"),
    ("", "wall.load_offset", "eccentricity of the load on top"),
    ("", "wall.top_thrust", "roof thrust left to the wall"),
    ("W", "wall.wind_pressure", "on the face, out of plane"), ("W", "wall.lift", "roof uplift before dead load"),
    ("0.6D + W", "wall.uplift", "net uplift on top"), ("E", "wall.seismic_pressure", "on the face, out of plane"),
    ("E", "wall.anchorage_force", "anchorage of the top"), ("W, E", "wall.brace_shear", "in plane, the larger"),
    ("all", "wall.base_load", "at the base, most loaded pier"), ("all", "wall.soil_load", "on the footing"),
)  # fmt: skip
BUILDING = (
    ("project.use", "Use"), ("project.stories", "Stories"), ("project.building_height", "Height"),
    ("project.diaphragm", "Stiffness of the roof as a diaphragm"),
    ("project.seismic_weight", "Effective seismic weight"), ("project.base_shear", "Base shear"),
    ("project.braced_both_ways", "Braced both ways"), ("project.least_side_solid", "Least solid side"),
)  # fmt: skip
ROOF = (
    ("roof.kind", "Kind"), ("roof.span", "Span"), ("roof.slope", "Slope"), ("roof.rafter_spacing", "Rafter spacing"),
    ("roof.overhang", "Overhang"), ("roof.dead", "D"), ("roof.live", "L"), ("roof.snow", "S, as stated"),
    ("roof.unbalanced_snow", "S, unbalanced"), ("roof.drift_snow", "S, drift"), ("roof.suction", "W, suction (ASD)"),
    ("roof.eave_suction", "W, suction at eaves (ASD)"), ("roof.thrust", "Thrust at the plate"),
    ("roof.thrust_held", "Thrust held by other than walls"), ("roof.tie_force", "Force in a tie"),
    ("roof.tie_capacity", "Capacity of a tie"), ("roof.ring_tension", "Tension in the ring"),
    ("roof.ring_capacity", "Capacity of the ring"), ("roof.anchor_uplift", "Uplift on an anchor"),
    ("roof.uplift_anchor", "Capacity of an anchor upward"),
)  # fmt: skip


def fact_texts(subject: Subject, named: Sequence[tuple[str, str]], writer: Writer) -> list[LabeledText]:
    """A fact without meaning here is left out, one that is not known is said to be."""
    phrases = []
    for name, label in named:
        value = shown(subject.fact(name), FACTS[name].kind, writer)
        if value != NOTHING:
            phrases.append((label, value))
    return phrases


@record
class LoadText:
    """A load of one case with where its value comes from."""

    case: str
    what: str
    value: str
    source: str


def load_texts(wall: Subject, writer: Writer) -> Iterator[LoadText]:
    """Loads by case; those without meaning for the wall are left out."""
    for case, name, what in LOADS:
        fact = wall.fact(name)
        value = shown(fact, FACTS[name].kind, writer)
        if value != NOTHING:
            yield LoadText(case, what, value, _source(fact))


def _source(fact: Fact) -> str:
    """Of the line that gives the value."""
    if fact.value is None:
        lacks = [
            plain_missing(path if isinstance(path, Missing) else Missing(Lack.FIELD, path, "")) for path in fact.missing
        ]
        return f"not given: {plain_list(lacks)}" if lacks else NOT_GIVEN
    return next((step.source for step in reversed(fact.steps) if step.source), "as described")


def top_and_base(checked: Checked, wall: str, writer: Writer) -> list[LabeledText]:
    """What keeps top and base of the wall in place, and at which height over the base of the earth."""
    of, subject = checked.project.walls[wall], checked.facts.of("wall")[wall]
    high = writer.write(of.height.si, "length") if of.height else NOT_GIVEN
    top = shown(subject.fact("wall.top_restraint"), "word", writer).replace("-", " ")
    base = shown(subject.fact("wall.base_restraint"), "word", writer).replace("-", " ")
    beam = checked.project.beams.get(of.beam or "")
    return [
        ("Top", f"{top}, {high} over the base{_anchored(beam, writer)}"),
        ("Base", f"{base}, at the top of the stem wall"),
    ]


def _anchored(beam: BondBeam | None, writer: Writer) -> str:
    """How the bond beam is held down, where that is described."""
    if beam is None or beam.anchors is None:
        return ""
    spacing = beam.anchors.spacing
    return f"; anchors at {writer.write(spacing.si, 'thickness')} on center" if spacing else "; anchored"


def support_texts(checked: Checked, wall: str, writer: Writer) -> list[tuple[str, str, str, str]]:
    """What meets the wall along its length: mark, station, height of what meets it, whether it counts."""
    view = checked.facts.views.get(wall)
    return [_support(checked, one, writer) for one in view.supports] if view else []


def _support(checked: Checked, one: Support, writer: Writer) -> tuple[str, str, str, str]:
    of = checked.project.walls.get(one.by) or checked.project.buttresses.get(one.by)
    high = writer.write(of.height.si, "length") if of and of.height else NOTHING
    counts = f"no: it {one.why_not}" if one.why_not else "yes"
    return one.by, writer.write(one.s, "length"), high, counts


@record
class Taken:
    """A coefficient the calculations take for granted."""

    name: str
    value: str
    standing: str
    source: str


def coefficients(findings: Iterable[Finding], writer: Writer) -> list[Taken]:
    """Every coefficient, the least known first."""
    found = {step.name: step for step in _steps(findings) if isinstance(step, CoefficientStep)}
    ordered = sorted(found.values(), key=lambda step: (-step.standing.rank, step.name))
    return [Taken(one.name, one.result.written(writer), one.standing.value, one.source) for one in ordered]


def assumed(findings: Iterable[Finding], writer: Writer) -> list[str]:
    """Values that the project does not state and the calculations take, each once."""
    taken = (f"{step.says} {step.result.written(writer)}" for step in _steps(findings) if step.is_assumed)
    return list(dict.fromkeys(taken))


def doubted(findings: Iterable[Finding]) -> list[str]:
    """Sources of forms and tables that were not read in full."""
    found = {step.source for step in _steps(findings) if not isinstance(step, CoefficientStep) and is_doubtful(step)}
    return sorted(found)


def is_doubtful(step: Step) -> bool:
    return isinstance(step.source, Source) and bool(step.source) and step.source.is_doubtful


def _steps(findings: Iterable[Finding]) -> list[Step]:
    return list(dict.fromkeys(step for finding in findings for step in finding.steps))


def unknown(findings: Iterable[Finding]) -> list[LabeledText]:
    """What the project lacks, questions nobody has answered, limits that are open: each once."""
    found = list(findings)
    lacks = [plain_missing(lack) for one in found if one.kind != "attest" for lack in one.missing]
    lacking = [plain_list(dict.fromkeys(lacks))] if lacks else []
    answers = [one.title for one in found if one.kind == "attest" and one.outcome is Outcome.MISSING]
    opened = [f"{one.title} ({one.clause})" for one in found if one.outcome is Outcome.CONFIRM]
    named = (("Not given", lacking), ("Not answered", answers), ("Limits or rules not known here", opened))
    return [(label, "; ".join(dict.fromkeys(texts))) for label, texts in named if texts]
