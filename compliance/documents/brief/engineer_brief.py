"""The engineer's brief: of each wall on the list the question, drawings, geometry, what holds it, loads, earth, what is
not known, its calculations; then, once, building, roof, site, editions and coefficients."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.brief.brief_calculations import calculated_of, calculations, results
from compliance.documents.brief.brief_common import common_pages
from compliance.documents.brief.brief_drawings import wall_drawings
from compliance.documents.brief.brief_facts import assumed, unknown
from compliance.documents.brief.brief_material import material
from compliance.documents.brief.brief_tables import geometry, lines, loads, openings, supports
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import running_text
from compliance.documents.elements.theme import PAPERS, Paper
from compliance.documents.elements.tick_boxes import TickBoxes
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.catalogue import FACTS
from compliance.findings import Finding
from compliance.judging.engineers_list import EngineerItem, engineers_list
from compliance.judging.reasons import RuleSays
from compliance.report.by_rule import SetFindings, by_rule
from compliance.report.marks import Mark
from compliance.report.result_words import format_result, is_in_words
from compliance.report.value_words import NOTHING, counted
from compliance.report.words.missing_words import reason_text
from compliance.units import Writer

CAUTION = (
    "A screening never replaces a design. What stands here is where a check against written rules stopped; verify "
    "every value, load and limit."
)
_ASKED = (
    "Can it be built as described? If not, with what reinforcement, ties or changes, or what has to be designed anew? "
    "What does it ask of the footing, the roof and the walls it meets, and what must be inspected?"
)
_NONE = "Nothing in this project is marked engineer. That does not say that no engineer is needed."
_SIZES = (
    ("wall.length", "long"),
    ("wall.height", "high over its stem wall"),
    ("wall.least_thickness", "thick at least"),
)
_NOTHING_TAKEN = "nothing beyond what the project states"
_NOTHING_LACKS = "nothing that a check asked for is lacking"
_ANSWER = ("as described", "with changes as noted", "needs a design of its own")
_AIR = (1.2, 1.6)


def write_brief(checked: Checked, path: Path, walls: Sequence[str] = ()) -> None:
    """Write the brief of the walls named, or of all that are on the engineer's list, the building among them, to `path`
    as PDF. Raises ValueError for a wall that is not on it, DocumentError or OSError; nothing is written then."""
    register_faces()
    paper = PAPERS[checked.project.project.paper]
    if phrases := not_on_the_list(checked, walls):
        raise ValueError(phrases)
    items = engineers_list(checked.findings)
    shown = [item for item in items if not walls or item.wall in walls]
    sets = by_rule(checked)
    story: list[Any] = []
    for item in shown:
        story += [*([PageBreak()] if story else []), *_pages(checked, sets=sets, item=item, items=items, paper=paper)]
    if shown:
        worked = [one for item in shown for one in _calculated(checked, item)]
        story += [PageBreak(), *common_pages(checked, worked)]
    else:
        story = [running_text([full_row(Words(_NONE, theme.BODY))])]
    head = head_of(checked, "brief for the engineer", caution=CAUTION)
    Book(head, paper, covered=False).write(story, path)


def not_on_the_list(checked: Checked, walls: Sequence[str]) -> str:
    """What to say of the first wall that no rule leaves to an engineer; empty where there is none."""
    items = engineers_list(checked.findings)
    listed = {item.wall for item in items}
    named = ", ".join(item.called for item in items)
    for wall in walls:
        if wall not in listed:
            return f"wall {wall} has no finding marked engineer ({f'on the list: {named}' if named else 'nothing has'})"
    return ""


def _pages(
    checked: Checked, sets: tuple[SetFindings, ...], item: EngineerItem, items: Sequence[EngineerItem], paper: Paper
) -> Iterator[Any]:
    """In the order in which an engineer needs them."""
    writer, wall = Writer(checked.project.project.units), item.wall
    yield _question(checked, item=item, items=items, writer=writer)
    yield _answer()
    if wall:
        yield from wall_drawings(checked, sets, wall, paper)
        yield geometry(checked, wall, writer)
        yield from supports(checked, wall, writer)
        yield from openings(checked, wall, writer)
        yield from loads(checked, wall, writer)
        yield from material(checked, checked.project.walls[wall].mix, writer)
    beside = calculated_of(checked.findings, wall) if wall else []
    own = [one for one in checked.findings if one.wall == wall] if wall else list(item.findings)
    taken = "; ".join(assumed([*item.findings, *beside], writer)) or _NOTHING_TAKEN
    yield lines("Not known", [*(unknown(own) or [("", _NOTHING_LACKS)]), ("Taken, as not stated", taken)])
    yield calculations(item.findings, writer)
    yield from results(beside, writer)


def _calculated(checked: Checked, item: EngineerItem) -> list[Finding]:
    """What calls for the engineer, then what else was calculated of the wall."""
    return [*item.findings, *(calculated_of(checked.findings, item.wall) if item.wall else ())]


def _question(checked: Checked, item: EngineerItem, items: Sequence[EngineerItem], writer: Writer) -> Sheet:
    wall = checked.project.walls.get(item.wall)
    name = f"Wall {item.wall}" + (f"  ·  {wall.name}" if wall and wall.name else "") if item.wall else "The building"
    head, people = checked.project.project, checked.project.people
    to = people.engineer.name if people.engineer else "the engineer"
    sender = next((one.name for one in (people.designer, people.builder, people.owner) if one), "not named")
    others = [one.called for one in items if one is not item]
    address, place = f"{head.address}." if head.address else "", checked.project.jurisdiction.name
    phrases = [f"To {to}. From {sender}.", address, f"Jurisdiction: {place}."]
    also = f"Also on the list: {', '.join(others)}." if others else ""
    reasons = reasons_of(item, writer)
    lead = [
        full_row(Words(name, theme.SECTION), anchor=Anchor(f"brief-{item.wall or 'building'}", name, 0)),
        full_row(Words("  ".join(text for text in (*phrases, also) if text), theme.SMALL)),
        full_row(Words("The question", theme.SUBSECTION), air=(4.0, 0.0)),
        full_row(Words(_put(checked, item, reasons, writer), theme.BODY, after=3.0)),
    ]
    columns = (Column(92), Column(share=11), Column(share=5))
    head_of_table = head_row("Clause", "Check, and the rule in our words", "Found")
    return Sheet(columns, [_reason(one) for one in reasons], head=[head_of_table], lead=lead, below=8)


def _put(checked: Checked, item: EngineerItem, reasons: Sequence[Reason], writer: Writer) -> str:
    """The question for this wall: what it is, in how many respects it is outside, and in which."""
    titles = list(dict.fromkeys(f"{one.check[:1].lower()}{one.check[1:]}" for one in reasons))
    outside = f"is outside the rules named here in {counted(len(titles), 'respect')}: {', '.join(titles)}. {_ASKED}"
    if not item.wall:
        return f"The building as a whole {outside}"
    subject = checked.facts.of("wall")[item.wall]
    sizes = [
        f"{writer.write(value, FACTS[name].kind)} {words}"
        for name, words in _SIZES
        if isinstance(value := subject.fact(name).value, float)
    ]
    return f"Wall {item.wall}, {', '.join(sizes)}, {outside}"


class Reason(NamedTuple):
    """Why an engineer must see a wall: the check and the parts of the wall it is about, what the rule says, and what
    was found."""

    clause: str
    check: str
    parts: tuple[str, ...]
    says: str
    figures: str

    @property
    def title(self) -> str:
        return f"{', '.join(self.parts)}: {self.check}" if self.parts else self.check


def reasons_of(item: EngineerItem, writer: Writer) -> list[Reason]:
    """Every reason of a check, none left out; parts of the wall that share clause, title and figures share one."""
    parts: dict[Reason, list[str]] = {}
    for one in item.findings:
        part = [] if one.subject in (item.wall, one.about) else [one.subject]
        reason = Reason(one.clause, check=one.title, parts=(), says=one.say, figures=_found(one, writer))
        parts.setdefault(reason, []).extend(part)
    return [reason._replace(parts=tuple(of)) for reason, of in parts.items()]


def _found(one: Finding, writer: Writer) -> str:
    """Value beside the limit it misses; the reason where no figures are compared."""
    if is_in_words(one):
        return NOTHING if isinstance(one.reason, RuleSays) else format_result(one, writer)
    return reason_text(one, writer)


def _reason(one: Reason) -> Row:
    """The rule is named as one: beside a check that failed its sentence is no statement about the wall."""
    title: tuple[Part, ...] = (
        Marked(Mark.ENGINEER, one.title, theme.CELL_BOLD),
        Words(f"The rule: {one.says}", theme.CELL_SMALL),
    )
    return Row((cell(one.clause), Cell(title), cell(one.figures)), air=_AIR)


def _answer() -> Sheet:
    """Room for the engineer's answer."""
    boxes: tuple[Part, ...] = (TickBoxes(_ANSWER, True, theme.CELL),)
    lead = [full_row(Words("Answer of the engineer: name, license, date and signature below", theme.LABEL))]
    return Sheet((Column(share=1),), [Row((Cell(boxes),), air=(1.0, 26.0))], lead=lead, below=8)
