"""Strengths of the earth as tested, and the shares of them that the screening lets a wall use."""

from __future__ import annotations

from typing import Literal

from compliance.facts.common.fact import Fact, known, lacking
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.lateral.out_of_plane import allowable_tension
from compliance.facts.specimens.specimen_results import measured
from compliance.findings import Lack, Missing
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Named, Source, Step

share_of_strength = equation(
    "Allowable stress", "share * tested", Symbol("F", "stress"), "",
    share=Symbol("k", "ratio", "share of the strength"), tested=Symbol("f", "stress", "lowest strength"),
)  # fmt: skip

TestKind = Literal["compression", "rupture"]


def lowest_compression(building: Building, mix: Subject) -> Fact:
    """The lowest compressive strength of all specimens of the mix [Pa]."""
    return _lowest(building, mix, "compression")


def lowest_rupture(building: Building, mix: Subject) -> Fact:
    """The lowest modulus of rupture of all specimens of the mix [Pa]."""
    return _lowest(building, mix, "rupture")


def _lowest(building: Building, mix: Subject, kind: TestKind) -> Fact:
    """As crushed or bent, whatever shape and drying: leaving a value out could only raise the result. Squat specimens
    seem stronger than a wall is; the shares that the screening takes of a strength are small for that reason too."""
    tests = {mark: test for mark, test in building.project.test_sets.items()
             if test.mix == mix.mark and test.kind == kind}  # fmt: skip
    if not tests:
        return lacking(Missing(Lack.TEST_SET, (kind, mix.mark), ""))
    doubtful = [mark for mark in tests if building.subjects["set"][mark].facts["set.doubts"].value]
    if doubtful:
        file = building.project.lab.file_of(kind)
        lacks = tuple(Missing(Lack.CELLS, ("plausible results", mark), file) for mark in doubtful)
        return Fact(None, missing=lacks, reason=f"a result of {', '.join(doubtful)} is in doubt, see the warnings")
    found = [(one, result) for mark in tests for one in building.specimens.get(mark, ())
             if (result := measured(one)).value is not None]  # fmt: skip
    if not found:
        return lacking(Missing(Lack.ROWS, tuple(tests), building.project.lab.file_of(kind)))
    values = [result.value for _, result in found if result.value is not None]
    value = min(values)
    weakest, result = found[values.index(value)]

    def worked() -> tuple[Step, ...]:
        form = f"{{}} of set {{}}, the weakest of {len(found)} specimens of mix {{}}"
        says = Named(form, weakest.mark, weakest.set, mix.mark)
        last = Step(
            says,
            formula="",
            given=(),
            result=Given("f", value, "stress"),
            source=Source("the lowest single value counts"),
        )
        return (result.step, last) if result.step else (last,)

    return known(value, worked)


def bearing_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable pressure on the earth under plates and lintels [Pa]."""
    return _share(building, wall=wall, name="bearing_share", says="Allowable pressure on the earth", symbol="F_b")


def shear_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable shear stress of the earth, as a share of its compressive strength [Pa]."""
    return _share(building, wall=wall, name="shear_share", says="Allowable shear stress", symbol="F_v")


def pier_shear_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable shear stress of one pier of a wall whose mean stays within the allowable [Pa]."""
    return _share(
        building, wall=wall, name="pier_shear_share", says="Allowable shear stress of one pier", symbol="F_vp"
    )


def toe_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable pressure on the toe of a pier pushed along the wall [Pa]."""
    return _share(building, wall=wall, name="toe_share", says="Allowable pressure on a toe", symbol="F_t")


def _share(building: Building, wall: Subject, name: str, says: str, symbol: str) -> Fact:
    need = Needs(wall)
    tested, share = need.number("mix.lowest_compression"), building.screening[name]
    need.use(share)
    found = share_of_strength.titled(says).giving(symbol).sourced(share.source)
    return need.solved(found, share.given("k", "share of the strength"), tested)


def tension_allowed(building: Building, wall: Subject) -> Fact:
    """Allowable tension from bending: the lowest modulus of rupture over a factor of safety [Pa]."""
    need = Needs(wall)
    tested, safety = need.number("mix.lowest_rupture"), need.use(building.screening["rupture_safety"])
    return need.solved(allowable_tension, tested, safety)


EQUATIONS = (share_of_strength,)
