"""Strengths of the earth as tested, and the shares of them that the screening lets a wall use."""

from __future__ import annotations

from compliance.facts.building import Building
from compliance.facts.fact import Fact, lacking
from compliance.facts.mechanics.out_of_plane import allowable_tension, allowable_tension_step
from compliance.facts.needs import Needs
from compliance.facts.subjects import Subject
from compliance.steps import Given, Step


def lowest_compression(building: Building, mix: Subject) -> Fact:
    """The lowest compressive strength of all specimens of the mix [Pa]."""
    return _lowest(building, mix, "compression")


def lowest_rupture(building: Building, mix: Subject) -> Fact:
    """The lowest modulus of rupture of all specimens of the mix [Pa]."""
    return _lowest(building, mix, "rupture")


def _lowest(building: Building, mix: Subject, kind: str) -> Fact:
    """Whatever shape and drying: leaving a value out could only raise the result. Sets without results wait."""
    sets = [one for mark, one in building.subjects["set"].items()
            if (test := building.project.test_sets[mark]).mix == mix.mark and test.kind == kind]  # fmt: skip
    found = [(fact, one.mark) for one in sets if (fact := one.fact("set.lowest_strength")).value is not None]
    if not found:
        waiting = [path for one in sets for path in one.fact("set.lowest_strength").missing]
        return lacking(*(waiting or [("test_sets", f"a {kind} set of mix {mix.mark}")]))
    need = Needs(mix)
    values = {mark: need.number_of(fact) for fact, mark in found}
    value = min(values.values())
    given = tuple(Given(mark, one, "stress", f"lowest of set {mark}") for mark, one in values.items())
    step = Step(f"Lowest {kind} value of mix {mix.mark}", f"min({', '.join(values)})", given,
                Given("f", value, "stress"), "the lowest single value counts")  # fmt: skip
    return need.known(value, lambda: (step,) if len(values) > 1 else ())


def bearing_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable pressure on the earth under plates and lintels [Pa]."""
    return _share(building, wall, "bearing_share", "Allowable pressure on the earth", "F_b")


def shear_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable shear stress of the earth, as a share of its compressive strength [Pa]."""
    return _share(building, wall, "shear_share", "Allowable shear stress", "F_v")


def _share(building: Building, wall: Subject, name: str, says: str, symbol: str) -> Fact:
    need = Needs(wall)
    tested, share = need.number("mix.lowest_compression"), building.screening[name]
    value = need.use(share) * tested
    if need.lacks:
        return need.lacking
    given = (share.given("k", "share of the strength"), Given("f", tested, "stress", "lowest strength"))
    step = Step(says, "k × f", given, Given(symbol, value, "stress"), share.source)
    return need.known(value, lambda: (step,))


def tension_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable tension from bending: the lowest modulus of rupture over a factor of safety [Pa]."""
    need = Needs(wall)
    tested, safety = need.number("mix.lowest_rupture"), need.use(building.screening["rupture_safety"])
    if need.lacks:
        return need.lacking
    return need.known(allowable_tension(tested, safety), lambda: (allowable_tension_step(tested, safety),))
