"""Earthquake at the site, as stated and as it follows from what the project says.

Where both can be had they are compared: the more severe is used until the contradiction is cleared, and it is told.
"""

from __future__ import annotations

from compliance.facts.common.fact import Fact, lacking, stated, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.statements import SEVERER
from compliance.facts.geometry.subjects import Subject
from compliance.facts.site.seismic_category import (
    CategoryFound,
    asce_category,
    differing_acceleration,
    differing_category,
    residential_category,
)
from compliance.facts.site.seismic_site import GroundMotion, ground_motion
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

_HELD = "ASCE 7-22 sets ground motion in another way, which is not held here: state the design accelerations"


def derived_sds(building: Building, site: Subject) -> Fact:
    """S_DS from mapped accelerations and site class (ASCE 7 section 11.4)."""
    return _acceleration(building, site, "sds")


def derived_sd1(building: Building, site: Subject) -> Fact:
    """S_D1 from mapped accelerations and site class (ASCE 7 section 11.4)."""
    return _acceleration(building, site, "sd1")


def _acceleration(building: Building, site: Subject, name: str) -> Fact:
    need = Needs(site)
    motion = _motion(building, need)
    if motion is None:
        return need.lacking
    value = motion.sds if name == "sds" else motion.sd1
    if value is None:
        need.lack("; ".join(motion.missing), ("site", name))
        return need.lacking
    need.rest_on(motion.standing)
    symbols = {"sds": ("Fa", "SMS", "SDS"), "sd1": ("Fv", "SM1", "SD1")}[name]
    remarks = tuple(
        Step(one, formula="", given=(), result=Given("", "see there", "word"), source="remark")
        for one in motion.remarks
    )
    return need.known(value, lambda: (*remarks, *(one for one in motion.steps if one.result.symbol in symbols)))


def site_study(building: Building, site: Subject) -> Fact:
    """Whether nothing at the site asks for a study of its ground motion, or for an engineer's choice between values."""
    need = Needs(site)
    motion = _motion(building, need)
    if motion is None:
        return without_meaning("the site has no mapped accelerations and site class to tell by")
    need.rest_on(motion.standing)
    steps = tuple(
        Step(one, formula="", given=(), result=Given("", "yes", "word"), source="remark") for one in motion.studies
    )
    return need.known(not motion.studies, lambda: steps)


def _motion(building: Building, need: Needs) -> GroundMotion | None:
    """None where the project lacks a value for it; `need` then says which."""
    site = building.project.site
    ss, s1 = need.field(site.ss, "site", "ss"), need.field(site.s1, "site", "s1")
    named = need.field(site.site_class, "site", "site_class")
    edition = need.field(site.asce7, "site", "asce7")
    if need.lacks:
        return None
    if edition not in building.tables.seismic:
        need.lack(_HELD, ("site", "sds"), ("site", "sd1"))
        return None
    tables = building.tables.seismic[edition].site
    return ground_motion(ss, s1=s1, site_class=named, measured=bool(site.site_class_measured), tables=tables)


def sds(building: Building, site: Subject) -> Fact:
    """The greater of the stated and the derived S_DS; the stated one where they agree within rounding."""
    return _severer_acceleration(building, site, "sds", "SDS")


def sd1(building: Building, site: Subject) -> Fact:
    """The greater of the stated and the derived S_D1; the stated one where they agree within rounding."""
    return _severer_acceleration(building, site, "sd1", "SD1")


def _severer_acceleration(building: Building, site: Subject, name: str, symbol: str) -> Fact:
    derived, given = site.fact(f"site.derived_{name}"), getattr(building.project.site, name)
    if given is None:
        return _derived_or(derived, name)
    if derived.value is None or site.fact(f"site.{name}_agrees").value is not False:
        return Fact(given)
    need = Needs(site)
    return need.solved(severer_acceleration.titled(f"{symbol} used, the greater of the two"), given,
                       need.number_of(derived))  # fmt: skip


severer_acceleration = equation(
    "Acceleration used, the greater of the two", "max(given, derived)", Symbol("S_D"),
    "two statements disagree: the more severe is used until that is cleared",
    given=Symbol("given", "ratio", "as stated"), derived=Symbol("derived", "ratio", "from the mapped acceleration"),
)  # fmt: skip

_BY_SEVERITY = ("A", "B", "C", "D", "D0", "D1", "D2", "E", "F")


def category(building: Building, site: Subject) -> Fact:
    """The more severe of the stated category and the one that follows from the accelerations in use."""
    derived, given = site.fact("site.derived_category"), building.project.site.seismic_category
    if given is None:
        return _derived_or(derived, "seismic_category")
    if derived.value is None or _BY_SEVERITY.index(given) >= _BY_SEVERITY.index(str(derived.value)):
        return Fact(given)
    need = Needs(site)
    need.of(derived)
    says = Given("", str(derived.value), "word")
    step = Step(
        "Category used, the more severe of the two",
        formula="",
        given=(Given("stated", given, "word"),),
        result=says,
        source=SEVERER,
    )
    return need.known(str(derived.value), lambda: (step,))


def _derived_or(derived: Fact, field: str) -> Fact:
    if derived.value is not None:
        return derived
    return Fact(None, (("site", field),), derived.reason, derived.standing)


def derived_category(building: Building, site: Subject) -> Fact:
    """The category by the tables that `category_by` names, from the design accelerations in use."""
    need, described = Needs(site), building.project.site
    by = need.field(described.category_by, "site", "category_by")
    if need.lacks:
        return need.lacking
    short = need.number("site.sds")
    if by != "asce7":
        if need.lacks:
            return need.lacking
        return _category(need, residential_category(short, building.tables.residential[by]))
    long, s1 = need.number("site.sd1"), need.number("site.s1")
    risk = need.field(described.risk_category, "site", "risk_category")
    edition = need.field(described.asce7, "site", "asce7")
    if need.lacks:
        return need.lacking
    if edition not in building.tables.seismic:
        return lacking(("site", "seismic_category"))
    return _category(
        need, asce_category(short, sd1=long, s1=s1, risk=risk, tables=building.tables.seismic[edition].categories)
    )


def _category(need: Needs, found: CategoryFound) -> Fact:
    need.rest_on(found.standing)
    assert found.name is not None
    return need.known(found.name, lambda: found.steps)


def sds_agrees(building: Building, site: Subject) -> Fact:
    """Whether the given S_DS is the one that follows from the mapped accelerations."""
    return _agrees(building, site, "sds", "SDS")


def sd1_agrees(building: Building, site: Subject) -> Fact:
    return _agrees(building, site, "sd1", "SD1")


def _agrees(building: Building, site: Subject, name: str, symbol: str) -> Fact:
    stated, derived = getattr(building.project.site, name), site.fact(f"site.derived_{name}")
    if stated is None or derived.value is None:
        return without_meaning(f"{symbol} is not both given and derived, so there is nothing to compare")
    edition = building.project.site.asce7
    assert isinstance(derived.value, float) and edition is not None
    need = Needs(site)
    worked = need.number_of(derived)
    rounding = building.tables.seismic[edition].rounding
    holds = not differing_acceleration(symbol, stated, worked, rounding)
    named = difference.titled(f"{symbol} as given against as derived, difference")
    step = named.sourced(f"rounding for print explains {rounding:g}")(stated, worked).step()
    return need.known(holds, lambda: (step,))


difference = equation(
    "As given against as derived, difference", "abs(given - derived)", Symbol(""), "",
    given=Symbol("given"), derived=Symbol("derived"),
)  # fmt: skip

EQUATIONS = (severer_acceleration, difference)


def category_agrees(building: Building, site: Subject) -> Fact:
    """Whether the given category is the one that follows from the design accelerations."""
    given, derived = building.project.site.seismic_category, site.fact("site.derived_category")
    if given is None or derived.value is None:
        return without_meaning("the category is not both given and derived, so there is nothing to compare")
    need = Needs(site)
    need.of(derived)
    step = Step(
        "Category as given", formula="", given=(), result=Given("", given, "word"), source="as the project states it"
    )
    return need.known(given == derived.value, lambda: (step,))


def expansive_soil(building: Building, site: Subject) -> Fact:
    """Whether the soil swells: yes if either the project or the soil group says so."""
    described, swelling = building.project.site, building.screening.swelling
    if described.expansive_soil is False and described.soil_group in swelling.groups:
        need = Needs(site)
        need.rest_on(swelling.standing)
        step = Step(
            "Soil group that swells, stated as not expansive",
            formula="",
            given=(Given("stated", "no", "word"),),
            result=Given("", described.soil_group, "word"),
            source=f"{swelling.source}; {SEVERER}",
        )
        return need.known(True, lambda: (step,))
    return stated(described.expansive_soil, "site", "expansive_soil")


def importance(building: Building, site: Subject) -> Fact:
    """The importance factor of earthquake loads, by risk category."""
    need = Needs(site)
    risk = need.field(building.project.site.risk_category, "site", "risk_category")
    if need.lacks:
        return need.lacking
    factor = building.screening.importance["seismic"][risk]
    value = need.use(factor)
    step = Step(
        f"Importance factor, risk category {risk}", formula="", given=(), result=factor.given("I"), source=factor.source
    )
    return need.known(value, lambda: (step,))


def contradictions(building: Building, site: Subject) -> dict[str, str]:
    """A sentence for each field of the site that another statement of the project contradicts, whichever rules
    apply."""
    found: dict[str, str] = {}
    described = building.project.site
    for name, symbol in (("sds", "SDS"), ("sd1", "SD1")):
        if site.fact(f"site.{name}_agrees").value is False:
            derived = site.fact(f"site.derived_{name}").value
            assert isinstance(derived, float)
            found[name] = differing_acceleration(symbol, getattr(described, name), derived, 0.0)
    if site.fact("site.category_agrees").value is False:
        derived_name = str(site.fact("site.derived_category").value)
        found["seismic_category"] = differing_category(described.seismic_category, derived_name, _order(building))
    return found


def _order(building: Building) -> tuple[str, ...]:
    described = building.project.site
    assert described.category_by is not None
    if described.category_by != "asce7":
        return building.tables.residential[described.category_by].order
    assert described.asce7 is not None
    return building.tables.seismic[described.asce7].categories.order
