"""What the engineer's brief says of one wall or of the building: geometry, loads, material, what is taken for granted
and what nobody knows. All of it comes from facts and findings; nothing is worked out here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.papers.schedule import NOT_GIVEN, shown
from compliance.facts.catalogue import FACTS
from compliance.facts.common.coefficients import CoefficientStep
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_plan import Support
from compliance.findings import Finding, Outcome
from compliance.report.counting_results import counting_results
from compliance.report.value_words import NOTHING, counted
from compliance.report.words.missing_words import missing_text
from compliance.steps import Source, Step
from compliance.units import Writer

LabeledText = tuple[str, str]
"""A label and what is said."""
Listed = tuple[str, tuple[str, ...]]
"""A label and the parts of what is said, some of which may be left out where room is short."""

GEOMETRY = (
    ("wall.length", "Length"), ("wall.height", "Height over stem"), ("wall.base_thickness", "Base thickness"),
    ("wall.least_thickness", "Least thickness"), ("wall.unsupported_length", "Unsupported length"),
    ("wall.height_to_thickness", "Height to thickness"), ("wall.top_restraint", "Held at the top"),
    ("wall.base_restraint", "Held at the foot"), ("stem.above_grade", "Stem above grade"),
    ("footing.width", "Footing width"), ("footing.thickness", "Footing thickness"), ("footing.bottom", "Footing depth"),
    ("beam.material", "Bond beam of"), ("beam.width", "Bond beam width"), ("beam.depth", "Bond beam depth"),
    ("beam.anchor_spacing", "Anchor spacing"),
)  # fmt: skip
LOADS = (
    ("wall.top_dead", "Dead on top"), ("wall.top_live", "Live on top"), ("wall.top_snow", "Snow on top"),
    ("wall.top_water", "Water on top"), ("wall.line_load", "Stated on top"), ("wall.top_load", "On top, governing"),
    ("wall.load_offset", "Off the middle"), ("wall.point_load", "Single load"), ("wall.own_weight", "Own weight"),
    ("wall.base_load", "At the base"), ("wall.soil_load", "On the footing"), ("wall.wind_pressure", "Wind on the face"),
    ("wall.seismic_pressure", "Earthquake on it"), ("wall.lateral_pressure", "Governing on it"),
    ("wall.uplift", "Net uplift on top"), ("wall.top_thrust", "Roof thrust on top"),
    ("wall.anchorage_force", "Tie of the top"), ("wall.brace_shear", "Along the wall"),
)  # fmt: skip
BUILDING = (
    ("project.use", "Use"), ("project.stories", "Stories"), ("project.building_height", "Height"),
    ("project.seismic_weight", "Weight that shakes"), ("project.base_shear", "Earthquake on it"),
    ("project.braced_both_ways", "Braced both ways"),
    ("project.least_side_solid", "Least solid side"),
)  # fmt: skip
SITE = (
    ("site.seismic_category", "Seismic category"), ("site.sds", "S_DS, of g"), ("site.sd1", "S_D1, of g"),
    ("site.wind_speed", "Design wind speed"), ("site.wind_exposure", "Wind exposure"),
    ("site.ground_snow", "Ground snow"), ("site.frost_depth", "Frost depth"), ("site.soil_bearing", "Soil bearing"),
    ("site.soil_group", "Soil group"), ("site.expansive_soil", "Expansive soil"),
    ("site.ground_slope", "Ground slope"), ("site.flood_zone", "Flood zone"),
)  # fmt: skip


def fact_texts(subject: Subject, named: Sequence[tuple[str, str]], writer: Writer) -> list[LabeledText]:
    """A fact without meaning here is left out, one that is not known is said to be."""
    phrases = []
    for name, label in named:
        fact = subject.fact(name)
        value = shown(fact, FACTS[name].kind, writer)
        if value != NOTHING:
            phrases.append((label, value))
    return phrases


def opening_texts(checked: Checked, wall: str, writer: Writer) -> list[Listed]:
    """Each opening on one line."""
    phrases: list[Listed] = []
    for subject in checked.facts.of("opening").values():
        if subject.wall != wall:
            continue
        of = {
            name: shown(subject.fact(f"opening.{name}"), FACTS[f"opening.{name}"].kind, writer)
            for name in ("kind", "width", "height", "corner_distance", "lintel", "lintel_bearing")
        }
        phrases.append((
            subject.own_mark,
            (f"{of['kind']} {of['width']} × {of['height']}, {of['corner_distance']} to the corner, "
             f"lintel {of['lintel']} bearing {of['lintel_bearing']}",),
        ))  # fmt: skip
    return phrases


def support_texts(checked: Checked, wall: str, writer: Writer) -> tuple[str, ...]:
    """What holds the wall sideways along its length, in words."""
    view = checked.facts.views.get(wall)
    if view is None or not view.supports:
        return ("nothing meets the wall",)
    return tuple(_support(one, writer) for one in view.supports)


def _support(one: Support, writer: Writer) -> str:
    counts = f", not counted: it {one.why_not}" if one.why_not else ""
    return f"{one.by} at {writer.write(one.s, 'length')}{counts}"


def material_texts(checked: Checked, mix: str | None, writer: Writer) -> list[Listed]:
    """The mix with its tests: how many results each set has, their mean and their lowest."""
    found = checked.project.mixes.get(mix or "")
    if mix is None or found is None:
        return [("Mix", ("not described",))]
    parts = " : ".join(f"{amount:g} {mark}" for mark, amount in found.parts.items())
    straw = f", straw {found.straw or 'not stated'}"
    dry = writer.write(found.dry_density.si, "density") if found.dry_density else NOT_GIVEN
    phrases: list[Listed] = [(f"Mix {mix}", (found.name, f"parts {parts}{straw}", f"dry density {dry}"))]
    sets = {mark: test for mark, test in checked.project.test_sets.items() if test.mix == mix}
    phrases += [
        (f"Set {mark}, {test.kind}", (_tested(checked, mark, test.kind, writer),)) for mark, test in sets.items()
    ]
    if not any(test.kind == "compression" for test in sets.values()):
        phrases.append(("Compressive strength", ("not tested",)))
    return phrases


def _tested(checked: Checked, mark: str, kind: str, writer: Writer) -> str:
    counting = counting_results(checked, mark)
    figures = counting.summary
    if figures is None:
        return f"no result counts; {counting.beside}" if counting.aside else "no result on record"
    unit = "share" if kind == "shrinkage" else "stress"
    worst = f"highest {writer.write(figures.highest, unit)}" if unit == "share" else (
        f"lowest {writer.write(figures.lowest, unit)}")  # fmt: skip
    scatter = f", coefficient of variation {writer.write(figures.variation, 'share')}" if figures.variation else ""
    beside = f"; {counting.beside}" if counting.beside else ""
    return f"{counted(figures.count, 'result')}: mean {writer.write(figures.mean, unit)}, {worst}{scatter}{beside}"


def assumed(findings: Iterable[Finding], writer: Writer) -> list[Listed]:
    """What the calculations take for granted: values that nobody stated, and coefficients by their standing."""
    steps = _steps(findings)
    taken = [f"{step.says} {step.result.written(writer)}" for step in steps if step.is_assumed]
    known: dict[str, list[str]] = {}
    for step in steps:
        if isinstance(step, CoefficientStep):
            known.setdefault(step.standing, []).append(f"{step.name} {step.result.written(writer)}")
    phrases = [("Not stated", taken), *((f"Coefficients, {standing}", names) for standing, names in known.items())]
    return [(label, tuple(dict.fromkeys(texts))) for label, texts in phrases if texts]


def doubted(findings: Iterable[Finding]) -> list[Listed]:
    """Forms and tables whose source was not read in full, the shortest first."""
    found = {step.source for step in _steps(findings) if not isinstance(step, CoefficientStep) and is_doubtful(step)}
    return [("Forms and tables", tuple(sorted(found, key=lambda text: (len(text), text))))] if found else []


def is_doubtful(step: Step) -> bool:
    return isinstance(step.source, Source) and bool(step.source) and step.source.is_doubtful


def _steps(findings: Iterable[Finding]) -> list[Step]:
    return list(dict.fromkeys(step for finding in findings for step in finding.steps))


def unknown(findings: Iterable[Finding]) -> list[Listed]:
    """Fields that the project lacks, then limits that are open, each once; without labels."""
    found = list(findings)
    lacking = dict.fromkeys(missing_text(lack) for one in found if one.kind != "attest" for lack in one.missing)
    answers = dict.fromkeys(one.title for one in found if one.kind == "attest" and one.outcome is Outcome.MISSING)
    opened = dict.fromkeys(f"{one.title} ({one.clause})" for one in found if one.outcome is Outcome.CONFIRM)
    return [*_listed("Not in the project", lacking), *_listed("Nobody has answered", answers),
            *_listed("Limits or rules not known here", opened)]  # fmt: skip


def _listed(label: str, names: Iterable[str]) -> Iterator[Listed]:
    """One sentence, its names the parts."""
    parts = list(names)
    if parts:
        parts[0], parts[-1] = f"{label}: {parts[0]}", f"{parts[-1]}."
        yield "", tuple(parts)
