"""Section values and eccentric stresses against sectionproperties, an independent finite-element library."""

from __future__ import annotations

import numpy as np
import pytest
from sectionproperties.analysis.section import Section
from sectionproperties.pre.library.primitive_sections import rectangular_section

from compliance.facts.mechanics.lateral.out_of_plane import flexural_tension
from compliance.facts.mechanics.sections import edge_stresses, kern, second_moment, section_modulus

SIZES = [(1.0, 0.4), (0.09, 0.24), (2.7, 0.61)]


def _section(width: float, depth: float) -> Section:
    geometry = rectangular_section(d=depth, b=width)
    geometry.create_mesh(mesh_sizes=[width * depth / 40])
    section = Section(geometry)
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    return section


def _stresses(section: Section, force: float, moment: float) -> tuple[float, float]:
    """Greatest and least pressure over the section; the library counts tension above zero."""
    found = np.asarray(section.calculate_stress(n=-force, mxx=moment).get_stress()[0]["sig_zz"], dtype=float)
    return float(-found.min()), float(-found.max())


@pytest.mark.parametrize(("width", "depth"), SIZES)
def test_section_values(width: float, depth: float) -> None:
    section = _section(width, depth)
    assert second_moment(width, depth) == pytest.approx(section.get_ic()[0], rel=1e-9)
    assert section_modulus(width, depth) == pytest.approx(section.get_z()[0], rel=1e-9)


@pytest.mark.parametrize(("width", "depth"), SIZES)
@pytest.mark.parametrize("share", [0.0, 0.05, 1 / 6])
def test_pressures_of_a_load_within_the_kern(width: float, depth: float, share: float) -> None:
    force, off = 50_000.0, share * depth
    found = edge_stresses(force, off, depth, width)
    most, least = _stresses(_section(width, depth), force, force * off)
    assert off <= kern(depth)
    assert found.most == pytest.approx(most, rel=1e-8)
    assert found.least == pytest.approx(least, rel=1e-8, abs=1e-6 * most)


@pytest.mark.parametrize(("width", "depth"), SIZES)
@pytest.mark.parametrize("share", [0.2, 0.3, 0.45])
def test_pressures_of_a_load_outside_the_kern(width: float, depth: float, share: float) -> None:
    """The part that stays pressed, taken as a section of its own, is loaded at the edge of its kern."""
    force, off = 50_000.0, share * depth
    found = edge_stresses(force, off, depth, width)
    off_of_part = off - (depth - found.pressed) / 2
    most, least = _stresses(_section(width, found.pressed), force, force * off_of_part)
    assert found.most == pytest.approx(most, rel=1e-8)
    assert least == pytest.approx(0.0, abs=1e-6 * most)
    assert found.least == 0.0


@pytest.mark.parametrize("depth", [0.24, 0.4, 0.61])
def test_tension_of_a_wall_that_bends(depth: float) -> None:
    _, least = _stresses(_section(1.0, depth), 20_000.0, 9_000.0)
    assert flexural_tension(9_000.0, 20_000.0, depth) == pytest.approx(-least, rel=1e-8)
