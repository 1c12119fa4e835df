"""Walls whose top the wind lifts: worked figures of rigid blocks, in feet and pounds. Statics, by hand.

Wall 16 in thick and 8 ft high at 110 pcf, strength 100 psi, 14 400 psf: a = 110 × 4/3 × 8 / (2 × 14 400) = 0.04074 ft,
T = 16/12 − 2 a = 1.25185 ft, W = 0.6 × 110 × 4/3 × 8 = 704 plf.
"""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.lateral.rocking import held_top_capacity, lifted_capacity, restoring_moment

T, W, H = 16 / 12 - 2 * 0.0407407, 704.0, 8.0


@pytest.mark.parametrize(
    ("lift", "rods", "by_hand"),
    [
        # 2 T / h × [(W − U) / (h − d) − U / (2 d)]; at U 100, d 2: 0.31296 × (100.67 − 25). At U 50 that is 30.20, more
        # than 2 T W / h² = 27.54, at which the wall folds at its top without any load there.
        (50, 2.0, 27.54), (100, 2.0, 23.68), (150, 2.0, 17.16),
        (100, 1.2, 14.76),  # just past d_0 = 100 / 88 = 1.136 ft
        (100, 1.0, 1.251852 * 704 / 64),  # rods too short: they pull out, the wall stands free, W T / h²
        (100, 8.0, 2 * 1.251852 * 704 / 64),  # rods to the foot: as without any load on top
    ],
)  # fmt: skip
def test_net_uplift_takes_from_what_holds(lift: float, rods: float, by_hand: float) -> None:
    assert lifted_capacity(W, lift=lift, top_offset=0.0, height=H, wide=T, rods=rods) == pytest.approx(
        by_hand, rel=5e-4
    )


def test_at_the_depth_that_just_holds_it_stands_as_free() -> None:
    """d_0 = U h / W."""
    depth = 100 * H / W
    assert lifted_capacity(W, lift=100, top_offset=0.0, height=H, wide=T, rods=depth) == pytest.approx(T * W / H**2)


def test_no_lift_is_no_more_than_no_load_on_top() -> None:
    without = held_top_capacity(W, top_load=0.0, top_offset=0.0, height=H, thickness=16 / 12, inset=0.0407407)
    for lift in (0.001, 20, 60):
        assert lifted_capacity(W, lift=lift, top_offset=0.0, height=H, wide=T, rods=2.0) <= without * (1 + 1e-9)


def test_a_free_wall_is_tipped_by_what_lifts_it() -> None:
    """M_r = W (t / 2 − a) − U (t / 2 + e − a)."""
    stands = restoring_moment(W, -100.0, -0.1, 16 / 12, 0.04074)
    assert stands == pytest.approx(704 * (2 / 3 - 0.04074) - 100 * (2 / 3 + 0.1 - 0.04074))
