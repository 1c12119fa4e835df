"""The table of the corpus: dangers missed, and false alarms on sound buildings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from tests.buildings.judging import Result, order_breaks


def print_table(results: Sequence[Result]) -> None:
    for line in table_lines(results):
        print(line)


def table_lines(results: Sequence[Result]) -> Iterator[str]:
    dangerous = [one for one in results if not one.building.sound]
    sound = [one for one in results if one.building.sound]
    yield from _dangerous(dangerous)
    yield from _sound(sound)
    for mark, broken in order_breaks(results).items():
        yield f"  ORDER   {mark}: {broken}"


def _dangerous(results: Sequence[Result]) -> Iterator[str]:
    yield "Dangerous buildings"
    for one in results:
        if one.crash:
            yield f"  CRASH   {one.building.mark}: {one.crash[:100]}"
        if one.misses:
            what = "missed" if one.building.expect == "found" else "found though it is sound"
            sought = "; ".join(map(str, one.misses))
            yield f"  MISS    {one.building.mark} [item {one.building.item}]: {what}: {sought}"
    plain = [one for one in results if "@" not in one.building.mark]
    variants = [one for one in results if "@" in one.building.mark]
    for says, some in (("buildings", plain), ("variants", variants)):
        missed = sum(bool(one.misses) for one in some)
        yield f"  {len(some)} {says}, {missed} with a miss"
    items = Counter(one.building.item for one in plain)
    missed_items = Counter(one.building.item for one in plain if one.misses)
    shares = [f"{item}: {missed_items[item]} of {items[item]}" for item in sorted(items, key=_number)]
    yield "  missed by item: " + ", ".join(shares)


def _number(item: str) -> tuple[int, str]:
    return (int(item), "") if item.isdigit() else (99, item)


def _sound(results: Sequence[Result]) -> Iterator[str]:
    yield "Sound buildings: engineer findings"
    rules: Counter[str] = Counter()
    houses: Counter[str] = Counter()
    for one in results:
        alarms = one.alarms
        for rule, subjects in alarms.items():
            rules[rule] += len(subjects)
            houses[rule] += 1
        count = sum(map(len, alarms.values()))
        explained = sum(len(subjects) for rule, subjects in alarms.items() if rule in one.building.explained)
        if one.crash or one.problems:
            yield f"  FAILS   {one.building.mark}: {one.crash or one.problems}"
        lacks = f", lacks {len(one.lacking)}" if one.lacking else ""
        yield f"  {count:4d} ({explained} explained) {one.building.mark}{lacks}"
    yield "  by rule: findings (buildings)"
    for rule, count in rules.most_common():
        yield f"  {count:4d} ({houses[rule]}) {rule}"
    total = sum(rules.values())
    yield f"  {len(results)} buildings, {total} engineer findings, {total / max(len(results), 1):.2f} a building"
