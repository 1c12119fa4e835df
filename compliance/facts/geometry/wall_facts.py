"""Facts of walls: section, height, lengths, supports, openings, areas."""

from __future__ import annotations

from itertools import pairwise

from compliance.facts.common.fact import Fact, known, lacking, solved, without_meaning
from compliance.facts.geometry.described import field_facts
from compliance.facts.geometry.openings import Opened, length_between
from compliance.facts.geometry.plan.lateral_supports import Placed
from compliance.facts.geometry.plan.stretches import Bay
from compliance.facts.geometry.statements import is_borne_on
from compliance.facts.geometry.wall_finishes import finishes
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine
from compliance.model.lines import Circular
from compliance.model.project import Project
from compliance.model.walls import Wall
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Named, Step

_PLAN = "from the plan"


@record
class WallView:
    """All that the facts of one wall are made from. `pieces` are the marks of the walls it is described by; the stretch
    it is a part of runs along it from `span[0]` to `span[1]` [m], the other way where it is `turned`. A `closed` one is
    a whole round ring."""

    mark: str
    wall: Wall
    place: WallLine
    supports: tuple[Support, ...]
    opened: Opened
    rules: SupportRules
    placed: Placed
    pieces: tuple[str, ...] = ()
    span: tuple[float, float] = (0.0, 0.0)
    turned: bool = False
    closed: bool = False

    def along(self, s: float) -> float:
        """The station along the stretch of one along the wall [m]."""
        return self.span[1] - s if self.turned else self.span[0] + s

    def own_station(self, along: float) -> float | None:
        """The station along the wall of one along the stretch [m]; None where that lies beside the wall. Along a closed
        stretch a wall may run over the place where its stations begin."""
        stretch, (first, last) = self.placed.stretch, self.span
        for place in (along - stretch.length, along, along + stretch.length) if stretch.chain.closed else (along,):
            if first - 1e-6 <= place <= last + 1e-6:
                own = last - place if self.turned else place - first
                return min(max(own, 0.0), self.place.line.length)
        return None

    def bays(self) -> tuple[Bay, ...]:
        """The lengths between supports that the wall lies in, by its own stations; they may reach beyond it."""
        return self._by_own_stations(self.placed.stretch.bays_of(*self.span))

    def spans(self) -> tuple[Bay, ...]:
        """The same, those at an end of the stretch that is held drawn out to it: what bends there counts too."""
        stretch = self.placed.stretch
        bays = [stretch.drawn_out(one) for one in stretch.bays_of(*self.span)]
        return self._by_own_stations(tuple(bays))

    def _by_own_stations(self, found: tuple[Bay, ...]) -> tuple[Bay, ...]:
        if not self.turned:
            return tuple(Bay(one.start - self.span[0], one.end - self.span[0], one.held) for one in found)
        return tuple(Bay(self.span[1] - one.end, self.span[1] - one.start, one.held[::-1]) for one in reversed(found))


def wall_facts(view: WallView, wall: Wall, mark: str, project: Project) -> dict[str, Fact]:
    """Every fact named `wall.…` of a wall as described. `view` is that of the whole wall it is a piece of: what its
    length, openings and supports give is the same for each piece."""
    facts = _section(view) | _along(view) | _faces(view) | _stated(wall, mark)
    facts |= finishes(wall, mark) | _roof_over(mark, project)
    facts["wall.curved"] = known(isinstance(view.place.line, Circular))
    facts["wall.in_ring"] = known(view.placed.stretch.ring is not None)
    if wall.bears_load is False and is_borne_on(project, mark):
        facts |= {"wall.bears_load": known(True), "wall.structural": known(True)}
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


def largest_gap(stations: list[float], length: float) -> tuple[float, float, float]:
    """The largest length without support: (from, to, length). Free ends count from the last support."""
    marks = sorted({0.0, length, *stations})
    gaps = [(start, end, end - start) for start, end in pairwise(marks)]
    return max(gaps, key=lambda gap: gap[2])


IN_A_RING = "the walls make a closed ring without corners: what its curve holds is for an engineer"


def _along(view: WallView) -> dict[str, Fact]:
    length = view.place.line.length
    stretch, standing = view.placed.stretch, view.rules.standing
    free = [view.mark for s in stretch.free_ends if view.span[0] - 1e-6 <= s <= view.span[1] + 1e-6]
    gap = max((one.length for one in view.bays()), default=0.0)
    along = Named("Length of {} along its centre line", _named(view))
    ends = Named("Ends of {} without a lateral support", _named(view))
    return {
        "wall.length": known(
            length,
            lambda: (Step(along, formula="", given=(), result=Given("L", length, "length"), source=_PLAN),),
        ),
        "wall.unsupported_length": without_meaning(IN_A_RING) if stretch.ring
        else known(gap, lambda: _support_steps(view), standing),
        "wall.support_count": known(float(len(stretch.counted)), lambda: _meeting(view), standing),
        "wall.free_ends": known(
            float(len(free)),
            lambda: (*_meeting(view), Step(ends, "", (), Given("", float(len(free)), "count"))),
            standing,
        ),
    }  # fmt: skip


def _named(view: WallView) -> str:
    return ", ".join(view.pieces) if len(view.pieces) > 1 else view.mark


def _meeting(view: WallView) -> tuple[Step, ...]:
    """The walls that run on as one, and each thing that meets them with its station and whether it counts."""
    stretch, steps = view.placed.stretch, []
    if len(stretch.marks) > 1:
        says = f"{', '.join(stretch.marks)} are taken as one wall, built without a joint"
        steps.append(
            Step(says, formula="", given=(), result=Given("L", stretch.length, "length"), source=view.rules.source)
        )
    along = "along them" if len(stretch.marks) > 1 else "along the wall"
    for support in stretch.supports:
        counts = f"not counted, it {support.why_not}" if support.why_not else "counts as a lateral support"
        met = ", ".join(one.wall.mark for one, _ in stretch.chain.at(support.s))
        steps.append(
            Step(Named(f"{{}} meets {{}} ({counts}), station {along}", support.by, met), formula="", given=(),
                 result=Given("s", support.s, "length"), source=view.rules.source)
        )  # fmt: skip
    return tuple(steps)


def _support_steps(view: WallView) -> tuple[Step, ...]:
    """What meets the wall, then the largest gap."""
    bays = view.placed.stretch.bays_of(*view.span)
    worst = max(bays, key=lambda one: one.length)
    return (
        *_meeting(view), length_between.titled("Largest length without lateral support")(worst.start, worst.end).step()
    )  # fmt: skip


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
        "wall.widest_opening": known(max(hole.width for hole in opened.holes))
        if opened.holes
        else without_meaning("the wall has no opening"),
        "wall.narrowest_pier": known(min(pier.width for pier in opened.piers))
        if opened.piers
        else without_meaning("the wall has no opening"),
        "wall.face_area": solved(gross),
        "wall.net_area": solved(net_area.titled(Named("Face of {} without openings", view.mark))(gross, opened.area)),
        "wall.volume": known(
            volume,
            lambda: (
                Step(
                    Named("Volume of {} without openings, at the mean thickness of each part", view.mark),
                    formula="",
                    given=(),
                    result=Given("V", volume, "volume"),
                    source=_PLAN,
                ),
            ),
        ),
    }


def thickness_at(wall: Wall, height_above_stem: float) -> float:
    """Thickness at a height above the stem wall, m."""
    base, top = ends_of_section(wall)
    assert wall.height is not None
    return base - (base - top) * height_above_stem / wall.height.si


def _stated(wall: Wall, mark: str) -> dict[str, Fact]:
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
