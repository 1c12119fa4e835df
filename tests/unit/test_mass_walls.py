"""Heat through walls as a project states it: what follows, what lacks, and figures that are a slip of the unit."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.facts.common.fact import Fact
from compliance.findings import Outcome
from compliance.problems import ProblemsFound
from tests.conftest import Write

HEAD = """\
project: {name: Heat, date: 2026-12-30, units: us}
jurisdiction: {name: Nowhere, rule_sets: [irc-2021-energy-mass-walls]}
site: {climate_zone: 4C}
soils: {S1: {name: clay}}
mixes:
  M1: {name: cob, form: cob, parts: {S1: 1}, dry_density: 110 pcf}
  M2: {name: cob, form: cob, parts: {S1: 1}, dry_density: 110 pcf, specific_heat: 0.25 Btu/(lb*F),
       conductivity: 4 Btu*in/(h*ft2*F), thermal_source: report of a laboratory}
  M3: {name: cob, form: cob, parts: {S1: 1}, specific_heat: 0.25 Btu/(lb*F), conductivity: 0.6 W/(m*K)}
walls:
"""
WALL = "run: {{from: [0 ft, {at} ft], to: [20 ft, {at} ft]}}, height: 8 ft, use: exterior"
R, CAPACITY, U = 0.1761102, 20441.748028, 5.678263341


def walls(**more: str) -> str:
    return "".join(f"  {mark}: {{{WALL.format(at=20 * at)}, {text}}}\n" for at, (mark, text) in enumerate(more.items()))


def insulated(*layers: tuple[str, str]) -> str:
    return "insulation: [" + ", ".join(f"{{side: {side}, resistance: {r}}}" for side, r in layers) + "]"


WALLS = walls(
    W1=f"thickness: 12 in, mix: M1, {insulated(('outside', 'R-13'))}",
    W2=f"thickness_base: 20 in, thickness_top: 16 in, mix: M2, {insulated(('inside', 'R 5'), ('within', 'R5'))}",
    W3=f"thickness: 16 in, mix: M3, {insulated(('inside', '0.9 m2*K/W'), ('outside', 'R-5'))}",
    W4="thickness: 16 in, mix: M1, insulation: []",
    W5="thickness: 16 in",
)


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, str], Fact]:
    folder = tmp_path_factory.mktemp("heat")
    (folder / "project.yaml").write_text(HEAD + WALLS, encoding="utf-8")
    facts = check_folder(folder).facts.of("wall")
    names = ("heat_capacity", "insulation_resistance", "insulation_side", "u_factor")
    return {(mark, name): wall.fact(f"wall.{name}") for mark, wall in facts.items() for name in names}


@pytest.mark.parametrize(
    ("mark", "name", "value"),
    [
        ("W1", "heat_capacity", 22 * CAPACITY),  # 110 pcf × 0.2 × 1 ft
        ("W2", "heat_capacity", 110 * 0.25 * 16 / 12 * CAPACITY),  # the least thickness of a tapered wall
        ("W1", "insulation_resistance", 13 * R),
        ("W2", "insulation_resistance", 10 * R),
        ("W4", "insulation_resistance", 0.0),
        ("W1", "insulation_side", "outside"),
        ("W2", "insulation_side", "outside"),  # half is not more than half; within is not inside
        ("W3", "insulation_side", "inside"),  # 0.9 against 0.88
        ("W4", "insulation_side", "outside"),
        ("W2", "u_factor", U / (16 / 4 + 10)),
    ],
)
def test_what_follows(found: dict[tuple[str, str], Fact], mark: str, name: str, value: float | str) -> None:
    got = found[mark, name].value
    assert got == (pytest.approx(value, rel=1e-6) if isinstance(value, float) else value)


@pytest.mark.parametrize(
    ("mark", "name", "lacks"),
    [
        ("W1", "u_factor", {("mixes", "M1", "conductivity"), ("mixes", "M1", "thermal_source")}),
        ("W3", "u_factor", {("mixes", "M3", "thermal_source")}),
        ("W3", "heat_capacity", {("mixes", "M3", "dry_density"), ("mixes", "M3", "thermal_source")}),
        ("W5", "heat_capacity", {("walls", "W5", "mix")}),
        ("W5", "u_factor", {("walls", "W5", "mix"), ("walls", "W5", "insulation")}),
        ("W5", "insulation_side", {("walls", "W5", "insulation")}),
    ],
)
def test_what_lacks(
    found: dict[tuple[str, str], Fact], mark: str, name: str, lacks: set[tuple[str | int, ...]]
) -> None:
    fact = found[mark, name]
    assert fact.value is None and set(fact.missing) == lacks


def test_marine_four_is_insulated_as_five_and_blanks_never_meet(project: Write) -> None:
    """R-13 outside meets in 4C by the row of 5; R-8, enough in 4A and 4B, does not."""
    short = walls(W1=f"thickness: 16 in, mix: M2, {insulated(('outside', 'R-8'))}")
    enough = walls(W1=f"thickness: 16 in, mix: M1, {insulated(('outside', 'R-13'))}")
    for text, zone, outcome in (
        (enough, "site: {climate_zone: 4C}", Outcome.MEETS),
        (enough, "site: {climate_zone: 6A}", Outcome.MISSING),  # the earth's conductivity could still help
        (short, "site: {climate_zone: 4C}", Outcome.REVISE),
        (short, "site: {climate_zone: 4A}", Outcome.MEETS),
        (short, "site: {climate_zone: 8}", Outcome.REVISE),
        (enough, "site: {}", Outcome.MISSING),
    ):
        checked = check_folder(project(text, head=HEAD.replace("site: {climate_zone: 4C}", zone)))
        one = next(one for one in checked.findings if one.rule == "wall-insulation")
        late = Outcome.LATER if outcome is Outcome.MISSING else outcome
        assert one.outcome in (outcome, late), (zone, one.outcome)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("units: us", "units: si", "measure-form"),  # R-13 of no system
        ("R-13", "13", "measure-no-unit"),
        ("R-13", "13 m2*K/W", "thermal-implausible"),
        ("R-13", "R-0", "measure-zero"),
        ("0.25 Btu/(lb*F)", "0.25 kJ/(kg*K)", "thermal-implausible"),
        ("4 Btu*in/(h*ft2*F)", "4 W/(m*K)", "thermal-implausible"),
        ("4 Btu*in/(h*ft2*F)", "4 Btu/(h*ft2*F)", "measure-dimension"),
        ("4C", "4", "word-unknown"),  # marine or not
        ("4C", "7A", "word-unknown"),
    ],
)
def test_slips_are_refused(project: Write, old: str, new: str, code: str) -> None:
    both = HEAD + walls(W1=f"thickness: 12 in, mix: M1, {insulated(('outside', 'R-13'))}")
    assert old in both
    folder: Path = project("", head=both.replace(old, new, 1))
    with pytest.raises(ProblemsFound) as refused:
        check_folder(folder)
    assert code in {one.code for one in refused.value.problems}


def test_vapor_passes_insulation_as_it_passes_a_finish(project: Write) -> None:
    """Foam of 1 perm behind lime plaster of 20 perms is 20/21 perm: called insulation it hides from no rule."""
    finish = "outside: [{material: lime, permeance: 20 perms}], inside: []"
    text = walls(
        W1=f"thickness: 16 in, {finish}",
        W2=f"thickness: 16 in, {finish}, insulation: [{{side: outside, resistance: R-5, permeance: 1 perm}}]",
        W3=f"thickness: 16 in, {finish}, {insulated(('outside', 'R-5'))}",
        W4=f"thickness: 16 in, {finish}, {insulated(('within', 'R-5'))}",
        W5="thickness: 1 ft, outside: [], inside: [], insulation: [{side: inside, resistance: R-5, permeance: 3 perm}]",
    )
    facts = check_folder(project(text, head=HEAD)).facts.of("wall")
    perm = 5.72135e-11
    found = {mark: facts[mark].fact("wall.finish_permeance") for mark in facts}
    values = {mark: one.value for mark, one in found.items()}
    assert values == {
        "W1": pytest.approx(20 * perm), "W2": pytest.approx(20 / 21 * perm), "W3": None, "W4": pytest.approx(20 * perm),
        "W5": pytest.approx(3 * perm),
    }  # fmt: skip
    assert found["W3"].missing == (("walls", "W3", "insulation", 0, "permeance"),)
