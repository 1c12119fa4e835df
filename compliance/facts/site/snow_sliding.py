"""Snow that slides from a roof onto a lower one beside it (ASCE 7 section 7.9)."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_lines import roof_plan
from compliance.facts.site.roof_actions import snow_from_ground
from compliance.facts.site.snow_unbalanced import one_slope, walls_at
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive
from compliance.steps import Named

sliding_pressure = equation(
    "Snow that slides onto the lower roof", "share * flat * run / over", Symbol("p_s", "pressure"), "",
    share=Symbol("c"), flat=not_negative("pf", "pressure", "flat-roof snow load of the roof above"),
    run=not_negative("W", "length", "eave to ridge of the roof above"),
    over=positive("b", "length", "length of lower roof that it lies on"),
)  # fmt: skip

EQUATIONS = (sliding_pressure,)
_NAMES = ("sliding_share", "sliding_over", "sliding_slope", "sliding_slope_slippery")


def sliding(building: Building, roof: Subject) -> Fact:
    """What snow that slides from roofs with an eave above this one adds to it at the higher wall [Pa]; zero where no
    such roof is steep enough to shed it."""
    need = Needs(roof)
    found = [one for mark in _above(building, roof.mark) for one in _from(building, need, mark)]
    if need.lacks:
        return need.lacking
    return need.worked(max(found, key=float)) if found else known(0.0)


def _above(building: Building, roof: str) -> list[str]:
    """Roofs that bear on a wall beside this one, higher than its top there."""
    on, near = walls_at(building, roof)
    if not on:
        return []
    height = {mark: building.views[mark].place.height for mark in on | near}
    low, rise = min(height[mark] for mark in on), si(building.project.roofs[roof].rise) or 0.0
    tops = {mark: low + (rise if mark in on else 0.0) for mark in on | near}
    return [
        mark for mark, other in building.project.roofs.items()
        if mark != roof
        and any(height[wall] > tops[wall] for one in other.bears_on
                if (wall := building.views[one.wall].mark) in tops)
    ]  # fmt: skip


def _from(building: Building, need: Needs, above: str) -> list[Solved]:
    """What slides from one roof, where it is steep enough."""
    subject, described = building.subject("roof", above), building.project.roofs[above]
    slope, ground = need.number_of(subject.fact("roof.slope")), need.number("site.ground_snow")
    share, over, steep, slick = (need.use(building.screening[name]) for name in _NAMES)
    if need.lacks or ground == 0 or slope <= (slick if described.slippery else steep):
        return []
    found, plan, run = snow_from_ground(building, need, above), roof_plan(building, above), si(described.run)
    if run is None and plan is not None and plan.width is not None:
        run = plan.width if one_slope(building, above) else plan.width / 2
    run = need.field(run, "roofs", above, "run")
    if need.lacks or found is None or found.flat is None:
        return []
    source = building.screening["sliding_share"].source
    says = Named(f"{sliding_pressure.title} from {{}}", above)
    return [sliding_pressure.titled(says).sourced(source)(share, found.flat, run, over)]
