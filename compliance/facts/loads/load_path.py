"""From the roofs down to the top of each wall: loads by case, and the combination that governs."""

from __future__ import annotations

from compliance.facts.common.fact import Fact, known, lacking, si, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.statements import is_borne_on
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.tributary import hung
from compliance.facts.mechanics.gravity import governing, tributary_load
from compliance.facts.site.snow_unbalanced import leeward_of
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Series, Symbol
from compliance.steps import Given, Named, Source, Step

_SAME = 1e-9
CASES = ("dead", "live", "snow", "water")
_SAYS = {"dead": "Dead load", "live": "Live load", "snow": "Snow", "water": "Drainage water"}


def top_dead(building: Building, wall: Subject) -> Fact:
    """Dead load on the wall's top along its length: roofs and bond beam [N/m]."""
    return _case(building, wall, "dead")


def top_live(building: Building, wall: Subject) -> Fact:
    return _case(building, wall, "live")


def top_snow(building: Building, wall: Subject) -> Fact:
    return _case(building, wall, "snow")


def top_water(building: Building, wall: Subject) -> Fact:
    return _case(building, wall, "water")


def _case(building: Building, wall: Subject, case: str) -> Fact:
    need = Needs(wall)
    parts, widths = [], list[Step]()
    for one in building.roofs_on(wall.mark):
        load = need.number_of(building.subject("roof", one.roof).fact(f"roof.{case}"))
        of_roof = hung(building, need, one.roof, one.index)
        says = f"{_SAYS[case]} of {one.roof}"
        if case == "snow":
            leeward, share = leeward_of(building, need, one.roof)
            uneven = leeward if share is None else leeward_on_wall(leeward, share)
            if not need.lacks and float(uneven) > load:
                says, load = f"Snow on the leeward slope of {one.roof}", float(uneven)
                widths += (share.step(), uneven.step()) if isinstance(uneven, Solved) and share is not None else ()
        parts.append((says, load, of_roof.width))
        widths += of_roof.steps
    beam = need.number("wall.beam_weight") if case == "dead" else 0.0
    _under_a_story(building, need, wall)
    if not parts:
        _needs_to_say(building, need, wall)
    if need.lacks:
        return need.lacking
    hanging = [tributary_load.titled(says)(load, width) for says, load, width in parts]
    terms = [Given(f"w{place}", float(one), "line_load", part[0]) for place, (one, part) in enumerate(
        zip(hanging, parts, strict=True), 1)]  # fmt: skip
    terms += [Given("w_b", beam, "line_load", "bond beam")] if beam else []
    total = sum_on_top.titled(f"{_SAYS[case]} on the wall's top")(terms)

    def worked() -> tuple[Step, ...]:
        return (*widths, *(one.step() for one in hanging), *(total.steps() if len(terms) > 1 else ()))

    return need.known(float(total), worked)


leeward_on_wall = equation(
    "Even snow that would bring as much to the wall", "snow * share", Symbol("p", "pressure"), "statics",
    snow=Symbol("p_u", "pressure", "on the leeward slope"), share=Symbol("c_u"),
)  # fmt: skip

sum_on_top = equation(
    "Load on the wall's top", "sum(load)", Symbol("w", "line_load"), "sum", load=Series("w", "line_load")
)  # fmt: skip


def _under_a_story(building: Building, need: Needs, wall: Subject) -> None:
    """Floors and walls above are not added by themselves: what they bring is stated with the rest."""
    if building.story_above(wall.mark) and building.project.walls[wall.mark].line_load is None:
        need.lack("a story stands above, whose load has to be stated", ("walls", wall.mark, "line_load"))


def _needs_to_say(building: Building, need: Needs, wall: Subject) -> None:
    """A wall without a roof carries nothing only where the project says so, or states its load."""
    described = building.views[wall.mark].wall
    borne_on = any(is_borne_on(building.project, one) for one in building.views[wall.mark].pieces)
    if described.line_load is not None or described.loads or borne_on or described.bears_load is False:
        return
    field = "line_load" if described.bears_load else "bears_load"
    need.field(None, "walls", wall.mark, field)


def beam_weight(building: Building, wall: Subject) -> Fact:
    """Weight of the bond beam along the wall [N/m]; zero where there is none."""
    mark = building.project.walls[wall.mark].beam
    if mark is None:
        return known(0.0)
    need = Needs(wall)
    wide, high = need.number("beam.width"), need.number("beam.depth")
    density = building.screening.weights["beam"].get(building.project.beams[mark].material)
    need.use(density)
    if need.lacks or density is None:
        return need.lacking
    named = weight_of_beam.titled(Named("Weight of bond beam {}", mark))
    return need.worked(named(density.given("ρ", density.source), wide, high))


weight_of_beam = equation(
    "Weight of the bond beam", "density * gravity * width * depth", Symbol("w_b", "line_load"), "mass × gravity",
    density=Symbol("ρ", "density"), width=Symbol("b", "thickness"), depth=Symbol("d", "thickness"), gravity=GRAVITY,
)  # fmt: skip


def derived_line_load(building: Building, wall: Subject) -> Fact:
    """The combination of the described loads that governs on the wall's top [N/m]."""
    need = Needs(wall)
    loads = {case: need.number(f"wall.top_{case}") for case in CASES}
    if need.lacks:
        return need.lacking
    screening = building.screening
    need.rest_on(screening.combination_standing)
    source = Source(
        f"{screening.combination_source}; {screening.combination_standing}", screening.combination_source.is_doubtful
    )
    return need.worked(governing(loads, screening.combinations, source)[1])


def line_load(building: Building, wall: Subject) -> Fact:
    """Under a roof the greater of the stated load and of what follows from the roofs that bear on the wall."""
    if not building.roofs_on(wall.mark):
        return lacking(("walls", wall.mark, "line_load"))
    return wall.fact("wall.top_load")


def top_load(building: Building, wall: Subject) -> Fact:
    """The load that the screening goes on with: the greater of the stated and of the derived one [N/m]."""
    stated = si(building.project.walls[wall.mark].line_load)
    derived = wall.fact("wall.derived_load")
    if stated is None:
        return derived
    if derived.value is None:
        return known(stated)
    need = Needs(wall)
    return need.solved(greater_load, stated, need.number_of(derived))


greater_load = equation(
    "Load on the wall's top, the greater of the stated and the derived", "max(stated, derived)",
    Symbol("w", "line_load"), "the greater of the two",
    stated=Symbol("stated", "line_load"), derived=Symbol("derived", "line_load"),
)  # fmt: skip

EQUATIONS = (leeward_on_wall, sum_on_top, weight_of_beam, greater_load)


def line_load_agrees(building: Building, wall: Subject) -> Fact:
    """Whether the stated load is no less than what the roofs that bear on the wall put there."""
    stated = si(building.project.walls[wall.mark].line_load)
    derived = wall.fact("wall.derived_load")
    if stated is None or derived.value is None or not building.roofs_on(wall.mark):
        return without_meaning("the load is not both stated and given by roofs, so there is nothing to compare")
    need = Needs(wall)
    least = need.number_of(derived)
    step = Step(
        "Load as stated", formula="", given=(), result=Given("", stated, "line_load"), source="as the project states it"
    )
    return need.known(stated >= least * (1 - _SAME), lambda: (step,))


def load_offset(building: Building, wall: Subject) -> Fact:
    """How far off the middle of the wall's top its load bears, the greatest of all that bear [m]."""
    need, described = Needs(wall), building.project.walls[wall.mark]
    bearings = building.roofs_on(wall.mark)
    offsets = [
        need.field(si(one.bearing.eccentricity), "roofs", one.roof, "bears_on", one.index, "eccentricity")
        for one in bearings
    ]
    if described.line_load is not None and described.line_load.si > 0 and not bearings:
        offsets.append(need.field(si(described.load_eccentricity), "walls", wall.mark, "load_eccentricity"))
    if need.lacks:
        return need.lacking
    value = max(offsets, default=0.0)
    step = Step("Load off the middle of the wall's top, taken towards the worse side", formula="", given=(),
                result=Given("e", value, "thickness"), source="as described")  # fmt: skip
    return need.known(value, lambda: (step,) if value else ())
