"""Nothing may be lost on the way down: all that is put on the walls against all that comes out under the footings."""

from __future__ import annotations

import math

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import columns, full_force
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mechanics.gravity import STANDARD_GRAVITY
from compliance.steps import Given, Step


def load_in(building: Building, wall: Subject) -> Fact:
    """All that one wall brings to the ground, from loads and volumes [N]: roofs, single loads, earth by its volume,
    finishes by their area, stem wall and footing."""
    need = Needs(wall)
    top, length, volume, area = (need.number(f"wall.{name}") for name in ("top_load", "length", "volume", "net_area"))
    density, finish = need.number("wall.unit_weight"), need.number("wall.finish_weight")
    stem, footing = need.number("wall.stem_weight"), need.number("wall.footing_weight")
    if need.lacks:
        return need.lacking
    points = sum(full_force(one) for one in building.project.walls[wall.mark].loads.values())
    earth = density * STANDARD_GRAVITY * volume
    value = (top + stem + footing) * length + points + earth + finish * area

    def worked() -> tuple[Step, ...]:
        given = (
            Given("w", top, "line_load", "on the wall's top"), Given("w_s", stem, "line_load", "stem wall"),
            Given("w_F", footing, "line_load", "footing"), Given("L", length, "length"),
            Given("P", points, "force", "single loads"), Given("W", earth, "force", "earth"),
            Given("w_f", finish, "pressure", "finishes"), Given("A", area, "area", "face without openings"),
        )  # fmt: skip
        formula = "(w + w_s + w_F) × L + P + W + w_f × A"
        return (Step(f"Put on {wall.mark}", formula, given, Given("in", value, "force"), "sum of what is described"),)

    return need.known(value, worked)


def load_out(building: Building, wall: Subject) -> Fact:
    """All that comes out under one wall's footing, by its columns and what stands under its sills [N]."""
    need = Needs(wall)
    found = columns(building, need, wall)
    stem, footing = need.number("wall.stem_weight"), need.number("wall.footing_weight")
    length = need.number("wall.length")
    if need.lacks or found is None:
        return need.lacking
    value = math.fsum([*(one.at_base for one in found.all), *found.below_sills, (stem + footing) * length])

    def worked() -> tuple[Step, ...]:
        given = [Given(f"N{place}", one.at_base, "force", one.name) for place, one in enumerate(found.all, 1)]
        given += [Given(f"U{place}", one, "force", "under sills") for place, one in enumerate(found.below_sills, 1)]
        formula = " + ".join(one.symbol for one in given) + " + (w_s + w_F) × L"
        given += [Given("w_s", stem, "line_load"), Given("w_F", footing, "line_load"), Given("L", length, "length")]
        return (Step(f"Comes out under {wall.mark}", formula, tuple(given), Given("out", value, "force"), "columns"),)

    return need.known(value, worked)


def wall_balance(building: Building, wall: Subject) -> Fact:
    """What is lost or gained on the way down one wall, as a share of what was put on it."""
    need = Needs(wall)
    brought, arrived = need.number("wall.load_in"), need.number("wall.load_out")
    return _balance(need, brought, arrived)


def balance(building: Building, project: Subject) -> Fact:
    """The same for the whole building."""
    need = Needs(project)
    walls = [building.subject("wall", mark) for mark in building.views]
    brought = math.fsum(need.number_of(wall.fact("wall.load_in")) for wall in walls)
    arrived = math.fsum(need.number_of(wall.fact("wall.load_out")) for wall in walls)
    return _balance(need, brought, arrived)


def _balance(need: Needs, brought: float, arrived: float) -> Fact:
    if need.lacks:
        return need.lacking
    value = abs(arrived - brought) / brought

    def worked() -> tuple[Step, ...]:
        given = (
            Given("in", brought, "force", "all that is put on"),
            Given("out", arrived, "force", "all that comes out"),
        )
        return (Step("Lost or gained on the way down", "|out − in| / in", given, Given("", value), "by definition"),)

    return need.known(value, worked)
