"""Facts of walls: section, height, lengths, supports, openings, areas."""

from __future__ import annotations

from itertools import pairwise

from compliance.facts.common.fact import Fact, known, lacking, one_step, si, stated, without_meaning
from compliance.facts.geometry.openings import Opened
from compliance.facts.geometry.wall_finishes import finishes
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine
from compliance.model.project import Project
from compliance.model.walls import Wall
from compliance.record import record
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


def _section(view: WallView) -> dict[str, Fact]:
    """Thickness between base and top varies in a straight line."""
    base, top = ends_of_section(view.wall)
    height, least = view.place.height, min(base, top)
    two_thirds = base - (base - top) / 3
    t_base, t_top = Given("t_base", base, "thickness"), Given("t_top", top, "thickness")
    return {
        "wall.height": known(height),
        "wall.base_thickness": known(base),
        "wall.least_thickness": known(
            least,
            one_step("Least thickness", "min(t_base, t_top)", (t_base, t_top), Given("t", least, "thickness"),
                     "as described"),
        ),
        "wall.mean_thickness": known(
            (base + top) / 2,
            one_step(
                "Mean thickness", "(t_base + t_top) / 2", (t_base, t_top), Given("", (base + top) / 2, "thickness"),
                "geometry",
            ),
        ),
        "wall.upper_thickness": known(
            two_thirds,
            one_step(
                "Thickness at one third of the height, the greatest of the upper two thirds",
                "t_base − (t_base − t_top) / 3", (t_base, t_top), Given("", two_thirds, "thickness"), "geometry",
            ),
        ),
        "wall.height_to_thickness": known(
            height / least,
            one_step(
                "Height to thickness", "h / t",
                (Given("h", height, "length"), Given("t", least, "thickness")), Given("h/t", height / least),
                "by definition",
            ),
        ),
    }  # fmt: skip


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
            one_step(f"Length of {view.mark} along its centre line", "", (), Given("L", length, "length"), _PLAN),
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
    start, end, gap = largest_gap(counted_stations(view), view.place.line.length)
    given = (Given("s₂", end, "length"), Given("s₁", start, "length"))
    largest = Step("Largest length without lateral support", "s₂ − s₁", given, Given("", gap, "length"), _PLAN)
    return (*_meeting(view), largest)


def _faces(view: WallView) -> dict[str, Fact]:
    length, height, opened = view.place.line.length, view.place.height, view.opened
    base, top = ends_of_section(view.wall)
    gross = length * height
    net = gross - opened.area
    volume = gross * (base + top) / 2 - sum(
        hole.width * hole.height * thickness_at(view.wall, hole.sill + hole.height / 2) for hole in opened.holes
    )
    length_given = Given("L", length, "length")
    openings = Given("Σb", opened.widths, "length", "widths of the openings")
    return {
        "wall.opening_count": known(float(len(opened.holes))),
        "wall.opening_share": known(
            opened.widths / length,
            one_step("Share of openings", "Σb / L", (openings, length_given),
                     Given("", opened.widths / length, "share"), "by definition"),
        ),
        "wall.widest_opening": known(max(hole.width for hole in opened.holes)) if opened.holes
        else without_meaning("the wall has no opening"),
        "wall.narrowest_pier": known(min(pier.width for pier in opened.piers)) if opened.piers
        else without_meaning("the wall has no opening"),
        "wall.face_area": known(
            gross,
            one_step("Face", "L × h", (length_given, Given("h", height, "length")), Given("A", gross, "area"),
                     "geometry"),
        ),
        "wall.net_area": known(
            net,
            one_step(f"Face of {view.mark} without openings", "A − ΣA_o",
                     (Given("A", gross, "area"), Given("ΣA_o", opened.area, "area")), Given("", net, "area"),
                     "geometry"),
        ),
        "wall.volume": known(
            volume,
            one_step(f"Volume of {view.mark} without openings, at the mean thickness of each part", "", (),
                     Given("V", volume, "volume"), _PLAN),
        ),
    }  # fmt: skip


def thickness_at(wall: Wall, height_above_stem: float) -> float:
    """Thickness at a height above the stem wall, m."""
    base, top = ends_of_section(wall)
    assert wall.height is not None
    return base - (base - top) * height_above_stem / wall.height.si


def _stated(view: WallView) -> dict[str, Fact]:
    wall, mark = view.wall, view.mark

    def said(name: str, value: object) -> Fact:
        return stated(value, "walls", mark, name)  # type: ignore[arg-type]

    structural: Fact
    if wall.bears_load or wall.braces:
        structural = known(True)
    elif wall.bears_load is None or wall.braces is None:
        lack = [("walls", mark, name) for name in ("bears_load", "braces") if getattr(wall, name) is None]
        structural = lacking(*lack)
    else:
        structural = known(False)
    return {
        "wall.use": said("use", wall.use),
        "wall.bears_load": said("bears_load", wall.bears_load),
        "wall.braces": said("braces", wall.braces),
        "wall.structural": structural,
        "wall.line_load": said("line_load", si(wall.line_load)),
        "wall.method": said("method", wall.method),
        "wall.top_restraint": said("top_restraint", wall.top_restraint),
        "wall.has_beam": known(wall.beam is not None),
        "wall.has_stem": known(wall.stem is not None),
        "wall.retains_soil": said("retains_soil", wall.retains_soil),
        "wall.rain_exposed": said("rain_exposed", wall.rain_exposed),
        "wall.reinforced": said("reinforced", wall.reinforced),
        "wall.exposed_height": said("exposed_height", si(wall.exposed_height)),
        "wall.lift_height": said("lift_height", si(wall.lift_height)),
        "wall.drying_holes": said("drying_holes", wall.drying_holes),
        "wall.drying_hole_diameter": said("drying_hole_diameter", si(wall.drying_hole_diameter)),
        "wall.drying_hole_spacing": said("drying_hole_spacing", si(wall.drying_hole_spacing)),
        "wall.story": said("story", None if wall.story is None else float(wall.story)),
        "wall.solar_mass": said("solar_mass", wall.solar_mass),
        "wall.gable": said("gable", wall.gable),
        "wall.unit_lap": said("unit_lap", si(wall.unit_lap)),
        "wall.stabilised_to": said("stabilised_to", si(wall.stabilised_to)),
        "wall.lath_fastener_spacing": said("lath_fastener_spacing", si(wall.lath_fastener_spacing)),
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
