"""The building as described: site, walls with their geometry, openings, and what they stand on and carry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from compliance.checked import Checked
from compliance.documents.earth.trial_table import parts_of, straw_of
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.page.rows import Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.common.draft import elevation_key
from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Subject
from compliance.report.mark_runs import in_runs
from compliance.report.summaries.design_data import stands_alone
from compliance.report.value_words import NOTHING, as_words
from compliance.units import KINDS, Writer

NOT_GIVEN = "not given"
NO_LENGTHS: Mapping[str, str] = MappingProxyType({})
_INTRODUCTION = (
    "Geometry follows from the plan as described. Unsupported length is the largest length along the centerline "
    "without a lateral support."
)
_WALL = (
    ("wall.use", "Place"),
    ("wall.bears_load", "Bears"),
    ("wall.braces", "Braces"),
    ("wall.length", "Length"),
    ("wall.height", "Height"),
    ("wall.base_thickness", "Base"),
    ("wall.least_thickness", "Least"),
    ("wall.height_to_thickness", "h / t"),
    ("wall.unsupported_length", "Unsupported"),
    ("wall.opening_count", "Openings"),
    ("wall.opening_share", "Open share"),
    ("wall.line_load", "Line load"),
)
_OPENING = (
    ("opening.kind", "Kind"),
    ("opening.width", "Width"),
    ("opening.height", "Height"),
    ("opening.head", "Wall above"),
    ("opening.corner_distance", "To corner"),
    ("opening.lintel", "Lintel"),
    ("opening.lintel_bearing", "Bearing"),
    ("opening.lintel_depth", "Lintel depth"),
    ("opening.lintel_width", "Lintel width"),
)
_PARTS = ("stem", "footing", "beam", "roof")
_OF_ROOFS = ("roof.dead", "roof.ring_tension", "roof.ring_capacity")


def schedule(checked: Checked) -> list[Any]:
    writer = Writer(checked.project.project.units)
    walls = checked.facts.of("wall")
    story = on_this_page()
    described = checked.project.project.description
    if stands_alone(checked):  # its page says how long, high and thick each wall is
        lead = title("schedule", "What the walls stand on", *([described] if described else []))
        return [*story, _described(checked, writer, lead), *_mixes(checked)]
    lead = title(
        "schedule", "Building and walls", *([described] if described else []), _INTRODUCTION, *_run_on(checked)
    ) + part("schedule-walls", "Walls")
    lengths = {mark: own_length(checked, one, writer) for mark, one in walls.items()}
    story.append(_table(list(walls.values()), fields=_WALL, first="Wall", writer=writer, lead=lead, lengths=lengths))
    story.append(_ties(checked))
    openings = list(checked.facts.of("opening").values())
    if openings:
        story.append(
            _table(
                openings, fields=_OPENING, first="Opening", writer=writer, lead=part("schedule-openings", "Openings")
            )
        )
    lead = part("schedule-parts", "Stem walls, footings, beams and roofs")
    return [*story, _described(checked, writer, lead), *_mixes(checked)]


def own_length(checked: Checked, wall: Subject, writer: Writer) -> str:
    """Of the wall along its own line; of one that has none in the plan as the facts have it."""
    view = checked.facts.views.get(wall.mark)
    if view is not None:
        return writer.write(view.place.line.length, "length")
    return shown(wall.fact("wall.length"), "length", writer)


def run_on(checked: Checked, mark: str) -> tuple[str, ...]:
    """The walls that one is taken together with as one wall; empty where it stands for itself."""
    view = checked.facts.views.get(mark)
    marks = view.placed.stretch.marks if view else ()
    return marks if len(marks) > 1 else ()


def _run_on(checked: Checked) -> list[str]:
    """Walls that are taken as one, and what is counted along them together."""
    writer = Writer(checked.project.project.units)
    said = {}
    for mark, view in checked.facts.views.items():
        if marks := run_on(checked, mark):
            whole = writer.write(view.placed.stretch.length, "length")
            said[marks] = f"{', '.join(marks)} are taken as one wall, {whole} long"
    if not said:
        return []
    return [f"{'; '.join(said.values())}: their unsupported length, openings and open share are counted together."]


def shown(fact: Fact, kind: str, writer: Writer) -> str:
    """A fact for a table: not given where the project does not say, a dash where it has no meaning."""
    if fact.value is None:
        return NOT_GIVEN if fact.missing else NOTHING
    if isinstance(fact.value, bool):
        return "yes" if fact.value else "no"
    if isinstance(fact.value, float) and kind in KINDS:
        return writer.write(fact.value, kind)
    if isinstance(fact.value, frozenset):
        return as_words(", ".join(sorted(fact.value)))
    return as_words(str(fact.value))


def _table(
    subjects: Sequence[Subject],
    fields: Sequence[tuple[str, str]],
    first: str,
    writer: Writer,
    lead: list[Row],
    lengths: Mapping[str, str] = NO_LENGTHS,
) -> Sheet:
    kinds = [FACTS[name].kind for name, _ in fields]
    styles = [theme.NUMBER if kind in KINDS else theme.CELL for kind in kinds]
    rows = [
        Row(
            (
                cell(one.mark, theme.CELL_BOLD, link=elevation_key(one.wall)),
                *(
                    cell(_text(one, name=name, kind=kind, writer=writer, lengths=lengths), style)
                    for (name, _), kind, style in zip(fields, kinds, styles, strict=True)
                ),
            )
        )
        for one in subjects
    ]
    right = [index for index, kind in enumerate(kinds, start=1) if kind in KINDS]
    head = head_row(first, *(label for _, label in fields), right=right)
    return Sheet([Column(natural=True)] * (1 + len(fields)), rows, head=[head], lead=lead, below=12)


def _text(subject: Subject, name: str, kind: str, writer: Writer, lengths: Mapping[str, str]) -> str:
    if name == "wall.length" and subject.mark in lengths:
        return lengths[subject.mark]
    return shown(subject.fact(name), kind, writer)


def _ties(checked: Checked) -> Sheet:
    """Which mix, stem wall, footing and beam each wall names, and its name and note."""
    rows = []
    for mark, wall in checked.project.walls.items():
        named = (wall.name, wall.mix, wall.stem, wall.footing, wall.beam, wall.note)
        rows.append(Row((cell(mark, theme.CELL_BOLD), *(cell(text or NOTHING) for text in named))))
    head = head_row("Wall", "Name", "Mix", "Stem wall", "Footing", "Bond beam", "Note")
    columns = (Column(natural=True), Column(share=2), *(Column(natural=True) for _ in range(4)), Column(share=3))
    return Sheet(columns, rows, head=[head], below=12)


def _mixes(checked: Checked) -> list[Sheet]:
    """Each mix with its proportions and the walls it is used in; nothing where no mix is described."""
    rows = []
    for mark, mix in checked.project.mixes.items():
        parts = ", ".join(text for text in (parts_of(mix), straw_of(mix)) if text and text != NOTHING)
        walls = [wall for wall, one in checked.project.walls.items() if one.mix == mark]
        used = ", ".join(in_runs(walls)) if walls else "no wall"
        rows.append(Row((cell(mark, theme.CELL_BOLD), cell(mix.name or NOTHING), cell(parts or NOT_GIVEN), cell(used))))
    if not rows:
        return []
    head = head_row("Mix", "Name", "Parts by loose volume", "Walls")
    columns = (Column(natural=True), Column(share=2), Column(share=3), Column(share=1))
    return [Sheet(columns, rows, head=[head], lead=part("schedule-mixes", "Mixes"), below=12)]


def _described(checked: Checked, writer: Writer, lead: list[Row]) -> Sheet:
    """Every stated fact of the building's parts, one part a row; of a roof also its weight, and what a ring takes."""
    rows = []
    for about in _PARTS:
        for subject in checked.facts.of(about).values():
            phrases = [
                f"{FACTS[name].label}: {shown(fact, FACTS[name].kind, writer)}"
                for name, fact in {**subject.facts, **_worked_out(about, subject)}.items()
                if fact.value is not None
            ]
            name = about if subject.mark == about else f"{about} {subject.mark}"
            rows.append(Row((cell(name, theme.CELL_BOLD), cell("; ".join(phrases) or NOT_GIVEN))))
    return Sheet((Column(84), Column(share=1)), rows, head=[head_row("Part", "As described")], lead=lead, below=12)


def _worked_out(about: str, subject: Subject) -> dict[str, Fact]:
    return {name: subject.fact(name) for name in _OF_ROOFS} if about == "roof" else {}
