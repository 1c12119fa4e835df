"""Snow blown from one slope of a roof onto the other, and snow that drifts against a higher wall.

Both after ASCE 7 chapter 7 as the reference file screening says; parapets and drifts that meet are not worked out.
"""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_lines import roof_plan
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive

_SPANNING = ("framed", "trussed", "living")
_ONE_SLOPE = "the roof has one slope only, or its plan does not tell"

leeward_snow = equation(
    "Snow on the leeward slope, windward slope bare", "importance * ground", Symbol("p_u", "pressure"), "",
    importance=not_negative("Is"), ground=not_negative("pg", "pressure", "ground snow load"),
)  # fmt: skip

leeward_share = equation(
    "Leeward snow over that of an even load of its size on the wall", "(3 * half + past) / (4 * half)",
    Symbol("c_u", "ratio"), "rafters tied at the plate, snow on one slope, statics",
    half=positive("s", "length", "from the ridge to the wall"), past=not_negative("o", "length", "past the wall"),
)  # fmt: skip

drift_height = equation(
    "Height of the drift, feet and psf as numbers",
    "min(max(times * long - less, 0), step)", Symbol("h_d", "ratio"), "",
    times=Symbol("c"), long=positive("l_u^(1/3) (p_g + 10)^(1/4)", "ratio"), less=Symbol("c_3"),
    step=not_negative("h_c", "ratio", "clear height of the step"),
)  # fmt: skip

drift_pressure = equation(
    "Most that the drift adds", "height * density", Symbol("p_d", "pressure"), "",
    height=not_negative("h_d", "ratio", "in feet"), density=Symbol("γ", "pressure", "of snow, for each foot"),
)  # fmt: skip

from_eave_to_ridge = equation(
    "From eave to ridge on plan", "width / 2", Symbol("W", "length"), "ridge midway, from the plan",
    width=positive("B", "length", "roof across the ridge"),
)  # fmt: skip

EQUATIONS = (leeward_snow, leeward_share, drift_height, drift_pressure, from_eave_to_ridge)
_FOOT, _PSF = 0.3048, 47.88025898


def unbalanced_snow(building: Building, roof: Subject) -> Fact:
    """Snow on the leeward slope of a roof of two slopes whose windward slope is blown bare [Pa]. Steep and nearly flat
    roofs keep their balanced snow."""
    described = building.project.roofs[roof.mark]
    plan = roof_plan(building, roof.mark)
    if described.kind not in _SPANNING or plan is None or len(plan.lines) != 2 or one_slope(building, roof.mark):
        return without_meaning(_ONE_SLOPE)
    need = Needs(roof)
    ground, slope = need.number("site.ground_snow"), need.number("roof.slope")
    risk = need.field(building.project.site.risk_category, "site", "risk_category")
    least, most = building.screening["unbalanced_least_slope"], building.screening["unbalanced_greatest_slope"]
    for one in (least, most):
        need.use(one)
    if need.lacks:
        return need.lacking
    if not least.value <= slope <= most.value:
        return known(0.0)
    return need.solved(leeward_snow.sourced(most.source), building.tables.snow.importance[risk], ground)


def one_slope(building: Building, roof: str) -> bool:
    """Whether a roof falls one way only: its run from eave to ridge reaches across most of it."""
    run, plan = si(building.project.roofs[roof].run), roof_plan(building, roof)
    return run is not None and plan is not None and plan.width is not None and run > 0.75 * plan.width


def eave_to_ridge(building: Building, roof: Subject) -> Fact:
    """From the eave to the ridge on plan, of a roof of two slopes that snow may leave on one side [m]."""
    unbalanced = roof.fact("roof.unbalanced_snow")
    if unbalanced.reason and not unbalanced.missing:
        return unbalanced
    need, plan = Needs(roof), roof_plan(building, roof.mark)
    if need.number_of(unbalanced) == 0:
        return without_meaning("no snow lies on one slope alone")
    if plan is None or plan.width is None:
        need.field(None, "roofs", roof.mark, "overhang")
        return need.lacking
    return need.solved(from_eave_to_ridge, plan.width)


def leeward_of(building: Building, need: Needs, roof: str) -> tuple[float, Solved | None]:
    """Leeward snow [Pa], zero where there is none, and the share of it that an even load of its size would bring to the
    wall; none under a ridge beam, where it brings all of it."""
    fact = building.subject("roof", roof).fact("roof.unbalanced_snow")
    if fact.value is None:
        if fact.missing:
            need.of(fact)
        return 0.0, None
    snow, plan, described = need.number_of(fact), roof_plan(building, roof), building.project.roofs[roof]
    eave = si(described.overhang)
    if not snow or plan is None or eave is None or described.thrust_held_by == "ridge-beam":
        return snow, None
    half = (plan.lines[1] - plan.lines[0]) / 2
    return snow, leeward_share(half, min(plan.bearings[0].thickness / 2 + eave, half))


def drift(building: Building, roof: Subject) -> Fact:
    """What snow that drifts against a higher wall adds to the roof at the wall [Pa]; zero where no wall stands higher.
    The roof above is as long as the plan says, at least the least length of the form."""
    step = _step(building, roof.mark)
    if step <= 0:
        return known(0.0)
    need = Needs(roof)
    ground = need.number("site.ground_snow")
    names = ("drift_factor", "drift_ground", "drift_less", "drift_least_length", "drift_density", "drift_density_base",
             "drift_density_most", "drift_none_up_to", "drift_least_step")  # fmt: skip
    c = {name: need.use(building.screening[name]) for name in names}
    if need.lacks:
        return need.lacking
    if ground <= c["drift_none_up_to"]:
        return known(0.0)
    psf, source = ground / _PSF, building.screening["drift_factor"].source
    density = min(c["drift_density"] * psf + c["drift_density_base"], c["drift_density_most"])
    balanced = need.number("roof.snow")
    if need.lacks:
        return need.lacking
    lying = balanced / _PSF / density
    clear = step / _FOOT - lying
    if clear <= c["drift_least_step"] * lying:
        return known(0.0)
    above = max(_above(building, roof.mark) / _FOOT, c["drift_least_length"])
    long = above ** (1 / 3) * (psf + c["drift_ground"]) ** (1 / 4)
    high = drift_height.sourced(source)(c["drift_factor"], long, c["drift_less"], clear)
    added = drift_pressure.sourced(source)(high, density * _PSF)
    return need.known(float(added), lambda: (high.step(), added.step()))


def walls_at(building: Building, roof: str) -> tuple[set[str], set[str]]:
    """Walls that the roof bears on, and those that meet them."""
    on = {building.views[one.wall].mark for one in building.project.roofs[roof].bears_on}
    near = {by for mark in on for one in building.views[mark].supports for by in one.at_joint if by in building.views}
    return on, {building.views[mark].mark for mark in near} - on


def _step(building: Building, roof: str) -> float:
    """How far the highest wall beside the roof stands above it [m]: above its top at a wall that it bears on, above its
    eaves at one that ends it and carries another roof."""
    on, near = walls_at(building, roof)
    if not on:
        return 0.0
    height = {mark: building.views[mark].place.height for mark in on | near}
    low, rise = min(height[mark] for mark in on), si(building.project.roofs[roof].rise) or 0.0
    other = {building.views[one.wall].mark for mark, each in building.project.roofs.items() if mark != roof
             for one in each.bears_on}  # fmt: skip
    steps = [height[mark] - low - rise for mark in on if height[mark] > low]
    steps += [height[mark] - low for mark in near if mark in other]
    return max(steps, default=0.0)


def _above(building: Building, roof: str) -> float:
    """Length of the higher roof, the longer way [m]; zero where the plan does not tell."""
    on, near = walls_at(building, roof)
    lengths = [0.0]
    for mark, each in building.project.roofs.items():
        plan = roof_plan(building, mark)
        if mark != roof and plan and {building.views[one.wall].mark for one in each.bears_on} & (on | near):
            lengths += [plan.width or 0.0, plan.length or plan.walls_length]
    return max(lengths)
