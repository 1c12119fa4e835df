"""What is said of the earth, ready for a screen or a paper."""

from __future__ import annotations

from compliance.record import record


@record
class EarthLine:
    """What it is about and what comes of it, then what it rests on."""

    head: str
    says: tuple[str, ...] = ()


@record
class EarthSection:
    """`remarks` are said once below all lines."""

    title: str
    lines: tuple[EarthLine, ...]
    remarks: tuple[str, ...] = ()


@record
class NextStep:
    """Something to do; `write` is where its result goes in the files, for whoever keeps them."""

    says: str
    write: str = ""


def amount(number: float) -> str:
    """Parts and buckets as they are said: two decimals at most."""
    return f"{round(number, 2):g}"
