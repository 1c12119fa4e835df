"""Facts of walls: section, height, lengths, supports, openings, areas."""

from __future__ import annotations

from itertools import pairwise

from compliance.facts.common.fact import Fact, known, lacking, solved, without_meaning
from compliance.facts.geometry.described import field_facts
from compliance.facts.geometry.openings import Opened, length_between
from compliance.facts.geometry.wall_finishes import finishes
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine
from compliance.model.project import Project
from compliance.model.walls import Wall
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_PLAN = "from the plan"


@record
class WallView:
    """All that the facts of one wall are made from."""

    mark: str
    wall: Wall
    place: WallLine
    supports: tuple[Support, ...]
    opened: Opened
    rules: SupportRules


def wall_facts(view: WallView, project: Project) -> dict[str, Fact]:
    """Every fact named `wall.…` of one wall."""
    facts = _section(view) | _along(view) | _faces(view) | _stated(view)
    facts |= finishes(view.wall, view.mark) | _roof_over(view.mark, project)
    return facts


def ends_of_section(wall: Wall) -> tuple[float, float]:
    """Thickness at the base and at the top, in m."""
    base, top = wall.thickness_base or wall.thickness, wall.thickness_top or wall.thickness
    assert base is not None and top is not None
    return base.si, top.si


_BASE, _TOP = Symbol("t_base", "thickness"), Symbol("t_top", "thickness")
_HEIGHT, _LENGTH, _FACE = Symbol("h", "length"), Symbol("L", "length"), Symbol("A", "area")

least_thickness = equation(
    "Least thickness", "min(base, top)", Symbol("t", "thickness"), "as described", base=_BASE, top=_TOP
)  # fmt: skip

mean_thickness = equation(
    "Mean thickness", "(base + top) / 2", Symbol("", "thickness"), "geometry", base=_BASE, top=_TOP
)  # fmt: skip

upper_thickness = equation(
    "Thickness at one third of the height, the greatest of the upper two thirds", "base - (base - top) / 3",
    Symbol("", "thickness"), "geometry", base=_BASE, top=_TOP,
)  # fmt: skip

height_to_thickness = equation(
    "Height to thickness", "height / thickness", Symbol("h/t"), "by definition",
    height=_HEIGHT, thickness=Symbol("t", "thickness"),
)  # fmt: skip

share_of_openings = equation(
    "Share of openings", "widths / length", Symbol("", "share"), "by definition",
    widths=Symbol("Σb", "length", "widths of the openings"), length=_LENGTH,
)  # fmt: skip

face_area = equation("Face", "length * height", _FACE, "geometry", length=_LENGTH, height=_HEIGHT)

net_area = equation(
    "Face without openings", "face - openings", Symbol("", "area"), "geometry",
    face=_FACE, openings=Symbol("ΣA_o", "area"),
)  # fmt: skip

EQUATIONS = (
    least_thickness, mean_thickness, upper_thickness, height_to_thickness, share_of_openings,
    face_area, net_area,
)  # fmt: skip


def _section(view: WallView) -> dict[str, Fact]:
    """Thickness between base and top varies in a straight line."""
    base, top = ends_of_section(view.wall)
    least = least_thickness(base, top)
    return {
        "wall.height": known(view.place.height),
        "wall.base_thickness": known(base),
        "wall.least_thickness": solved(least),
        "wall.mean_thickness": solved(mean_thickness(base, top)),
        "wall.upper_thickness": solved(upper_thickness(base, top)),
        "wall.height_to_thickness": solved(height_to_thickness(view.place.height, least)),
    }


def counted_stations(view: WallView) -> list[float]:
    return [support.s for support in view.supports if not support.why_not]


def largest_gap(stations: list[float], length: float) -> tuple[float, float, float]:
    """The largest length without support: (from, to, length). Free ends count from the last support."""
    marks = sorted({0.0, length, *stations})
    gaps = [(start, end, end - start) for start, end in pairwise(marks)]
    return max(gaps, key=lambda gap: gap[2])


def _along(view: WallView) -> dict[str, Fact]:
    length = view.place.line.length
    stations = counted_stations(view)
    _, _, gap = largest_gap(stations, length)
    slack = view.place.thickness
    free = (not stations or min(stations) > slack) + (not stations or max(stations) < length - slack)
    standing = view.rules.standing
    return {
        "wall.curved": known(view.wall.arc is not None),
        "wall.length": known(
            length,
            lambda: (
                Step(f"Length of {view.mark} along its centre line", "", (), Given("L", length, "length"), _PLAN),
            ),
        ),
        "wall.unsupported_length": known(gap, lambda: _support_steps(view), standing),
        "wall.support_count": known(float(len(stations)), lambda: _support_steps(view), standing),
        "wall.free_ends": known(
            float(free),
            lambda: (
                *_meeting(view),
                Step(f"Ends of {view.mark} without a lateral support", "", (), Given("", float(free), "count")),
            ),
            standing,
        ),
    }


def _meeting(view: WallView) -> list[Step]:
    """Each thing that meets the wall with its station and whether it counts."""
    steps = []
    for support in view.supports:
        counts = f"not counted, it {support.why_not}" if support.why_not else "counts as a lateral support"
        steps.append(
            Step(f"{support.by} meets {view.mark} ({counts}), station along the wall", "", (),
                 Given("s", support.s, "length"), view.rules.source)
        )  # fmt: skip
    return steps


def _support_steps(view: WallView) -> tuple[Step, ...]:
    """What meets the wall, then the largest gap."""
    start, end, _ = largest_gap(counted_stations(view), view.place.line.length)
    return (*_meeting(view), length_between.titled("Largest length without lateral support")(start, end).step())


def _faces(view: WallView) -> dict[str, Fact]:
    length, height, opened = view.place.line.length, view.place.height, view.opened
    base, top = ends_of_section(view.wall)
    gross = face_area(length, height)
    volume = gross * (base + top) / 2 - sum(
        hole.width * hole.height * thickness_at(view.wall, hole.sill + hole.height / 2) for hole in opened.holes
    )
    return {
        "wall.opening_count": known(float(len(opened.holes))),
        "wall.opening_share": solved(share_of_openings(opened.widths, length)),
        "wall.widest_opening": known(max(hole.width for hole in opened.holes)) if opened.holes
        else without_meaning("the wall has no opening"),
        "wall.narrowest_pier": known(min(pier.width for pier in opened.piers)) if opened.piers
        else without_meaning("the wall has no opening"),
        "wall.face_area": solved(gross),
        "wall.net_area": solved(net_area.titled(f"Face of {view.mark} without openings")(gross, opened.area)),
        "wall.volume": known(
            volume,
            lambda: (Step(f"Volume of {view.mark} without openings, at the mean thickness of each part", "", (),
                          Given("V", volume, "volume"), _PLAN),),
        ),
    }  # fmt: skip


def thickness_at(wall: Wall, height_above_stem: float) -> float:
    """Thickness at a height above the stem wall, m."""
    base, top = ends_of_section(wall)
    assert wall.height is not None
    return base - (base - top) * height_above_stem / wall.height.si


def _stated(view: WallView) -> dict[str, Fact]:
    wall, mark = view.wall, view.mark
    structural: Fact
    if wall.bears_load or wall.braces:
        structural = known(True)
    elif wall.bears_load is None or wall.braces is None:
        lack = [("walls", mark, name) for name in ("bears_load", "braces") if getattr(wall, name) is None]
        structural = lacking(*lack)
    else:
        structural = known(False)
    return {
        **field_facts("wall", wall, ("walls", mark)),
        "wall.structural": structural,
        "wall.has_beam": known(wall.beam is not None),
        "wall.has_stem": known(wall.stem is not None),
    }


def _roof_over(mark: str, project: Project) -> dict[str, Fact]:
    """The least overhang of the roofs that bear on the wall."""
    over = [(name, roof) for name, roof in project.roofs.items() if any(b.wall == mark for b in roof.bears_on)]
    if not over:
        return {"wall.overhang": without_meaning("no roof is said to bear on the wall")}
    lack = [("roofs", name, "overhang") for name, roof in over if roof.overhang is None]
    if lack:
        return {"wall.overhang": lacking(*lack)}
    return {"wall.overhang": known(min(roof.overhang.si for _, roof in over if roof.overhang))}
