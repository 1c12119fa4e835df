"""Every share of the bracing plan as a figure: solid lengths down, pushes across."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.bracing.bracing_subject import NOT_HELD, share_text
from compliance.facts.bracing.brace_forces import BracedWalls
from compliance.facts.bracing.brace_shares import Braced
from compliance.facts.bracing.solid_lengths import Solid
from compliance.record import record
from compliance.report.value_words import NOTHING
from compliance.units import Writer

_COLUMNS = (Column(share=0.7), Column(share=1.8), *(Column(share=1.0) for _ in range(6)))


@record
class _Shared:
    """One solid length with its part of two pushes of one direction."""

    solid: Solid
    count: int
    parts: tuple[Braced, ...]


def shares_table(found: BracedWalls, direction: float, writer: Writer) -> Sheet:
    """Every solid length with its shares of both pushes of the direction; below, the pushes themselves."""
    count = {wall: len(keys) for wall, keys in found.by_wall.items()}
    shared = [
        _Shared(
            solid, count[solid.wall], tuple(one for one in found.taken[key] if one.push.seen.direction == direction)
        )
        for key, solid in found.solids.items()
    ]
    pushes = [one.push for one in shared[0].parts]
    titles = [
        f"{push.name.capitalize()}, {wording}" for push in pushes for wording in ("by line", "rigid diaphragm", "taken")
    ]
    head = head_row("Wall", "Solid length", *titles, right=tuple(range(2, 8)))
    rows = [_row(one, writer) for one in shared]
    caption = f"Shares of each solid length {direction_words(direction, writer)}"
    lead, carried = (
        [full_row(Words(f"{caption}{more}", theme.CELL_BOLD), air=(2.0, 2.0))] for more in ("", ", continued")
    )
    return Sheet(_COLUMNS, [*rows, _together(shared, writer)], head=[head], lead=lead, carried=carried, below=14.0)


def direction_words(direction: float, writer: Writer) -> str:
    """A direction in words, as it lies on the page."""
    if math.isclose(direction, 0.0, abs_tol=1e-9):
        return "across the page"
    if math.isclose(direction, math.pi / 2):
        return "up the page"
    return f"at {writer.write(direction, 'angle')} to the foot of the page"


def _row(one: _Shared, writer: Writer) -> Row:
    wording = f"{one.solid.index + 1} of {one.count}, {writer.write(one.solid.length, 'length')}"
    return Row(
        (
            cell(one.solid.wall, theme.CELL_BOLD),
            cell(wording),
            *(_cell for each in one.parts for _cell in _cells(each, writer)),
        )
    )


def _cells(one: Braced, writer: Writer) -> list[Cell]:
    whole = one.push.force
    loose, stiff = (_share(force, whole) for force in (one.loose, one.stiff))
    force = writer.write(one.force, "force") if math.isfinite(one.force) else NOT_HELD
    return [cell(loose, theme.NUMBER), cell(stiff, theme.NUMBER), cell(force, theme.NUMBER)]


def _share(force: float, whole: float) -> str:
    return share_text(force / whole) if whole else NOTHING


def _together(shared: Sequence[_Shared], writer: Writer) -> Row:
    """The shares by line together, and the push they make up. Those of a rigid diaphragm are each taken at its own
    worst and make no sum."""
    cells = [cell("Together", theme.CELL_BOLD), cell("and the push itself")]
    for place, one in enumerate(shared[0].parts):
        loose = math.fsum(each.parts[place].loose for each in shared)
        whole = cell(writer.write(one.push.force, "force"), theme.NUMBER)
        cells += [cell(_share(loose, one.push.force), theme.NUMBER), cell("", theme.NUMBER), whole]
    return Row(tuple(cells))
