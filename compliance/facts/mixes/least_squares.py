"""Nonnegative least squares and the nearest blend, worked in exact fractions with the standard library.

Exact arithmetic needs no tolerances: the active-set method of Lawson and Hanson (Solving Least Squares Problems,
1974, chapter 23) then always ends, and a column that repeats others never makes it stumble.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

Rows = list[list[Fraction]]


def nonnegative_least_squares(
    columns: Sequence[Sequence[float | Fraction]], aim: Sequence[float | Fraction]
) -> tuple[Fraction, ...]:
    """Weights x >= 0 for which the sum of x × column is nearest to `aim`. Raises ValueError for uneven lengths.

    Where several answers are equally near, columns that stand first are used first.
    """
    exact = [[Fraction(value) for value in column] for column in columns]
    target = [Fraction(value) for value in aim]
    if any(len(column) != len(target) for column in exact):
        raise ValueError("every column needs as many values as the aim")
    weights = [Fraction(0)] * len(exact)
    free: list[int] = []
    while True:
        left = [goal - _blended(exact, weights, row) for row, goal in enumerate(target)]
        gains = {index: _dot(column, left) for index, column in enumerate(exact) if index not in free}
        best = max(gains, key=lambda index: (gains[index], -index), default=None)
        if best is None or gains[best] <= 0:
            return tuple(weights)
        free.append(best)
        _settle(exact, target, weights, free)


def nearest_blend(points: Sequence[Sequence[float]], aim: Sequence[float]) -> tuple[Fraction, ...]:
    """Weights >= 0 that sum to one for which the blend of `points` is nearest to `aim`. Raises ValueError for none.

    With q = point − aim and x = s × w, |Σ x q|² + (Σ x − 1)² is least for the same w that makes |Σ w q|² least among
    weights that sum to one. So the blend is a plain nonnegative problem, scaled to one afterwards.
    """
    if not points:
        raise ValueError("a blend needs at least one material")
    if any(len(point) != len(aim) for point in points):
        raise ValueError("every material needs as many values as the aim")
    target = [Fraction(value) for value in aim]
    columns = [[Fraction(value) - goal for value, goal in zip(point, target, strict=True)] for point in points]
    found = nonnegative_least_squares([[*column, Fraction(1)] for column in columns], [*([Fraction(0)] * len(aim)), 1])
    total = sum(found, Fraction(0))
    return tuple(weight / total for weight in found)


def _settle(columns: Rows, target: list[Fraction], weights: list[Fraction], free: list[int]) -> None:
    """Move the free weights to their least squares; those that reach zero on the way are fixed there."""
    while True:
        wanted = _solve(columns, target, free)
        short = [index for index in free if wanted[index] <= 0]
        if not short:
            for index in free:
                weights[index] = wanted[index]
            return
        step = min(weights[index] / (weights[index] - wanted[index]) for index in short)
        for index in free:
            weights[index] += step * (wanted[index] - weights[index])
        free[:] = [index for index in free if weights[index] > 0]


def _solve(columns: Rows, target: list[Fraction], free: list[int]) -> dict[int, Fraction]:
    """Plain least squares over the free columns by the normal equations; these columns are never dependent."""
    rows = [[_dot(columns[i], columns[j]) for j in free] + [_dot(columns[i], target)] for i in free]
    for pivot in range(len(rows)):
        rows[pivot] = [value / rows[pivot][pivot] for value in rows[pivot]]
        for other in range(len(rows)):
            factor = rows[other][pivot]
            if other != pivot and factor:
                rows[other] = [a - factor * b for a, b in zip(rows[other], rows[pivot], strict=True)]
    return {index: row[-1] for index, row in zip(free, rows, strict=True)}


def _dot(left: Sequence[Fraction], right: Sequence[Fraction]) -> Fraction:
    return sum((a * b for a, b in zip(left, right, strict=True)), Fraction(0))


def _blended(columns: Rows, weights: list[Fraction], row: int) -> Fraction:
    return sum((weight * column[row] for weight, column in zip(weights, columns, strict=True) if weight), Fraction(0))
