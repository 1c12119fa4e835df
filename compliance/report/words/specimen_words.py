"""What a test rule asks of a set of specimens, as one phrase."""

from __future__ import annotations

from compliance.rules.required_specimens import RequiredSpecimens
from compliance.units import Writer


def in_words(required: RequiredSpecimens, writer: Writer) -> str:
    """What is asked of a set, as one phrase; what is open is said to be."""
    phrases = [f"at least {required.count}" if required.count is not None else "number not stated by this rule"]
    if required.shapes:
        phrases.append(" or ".join(required.shapes))
    if required.dried:
        phrases.append(f"dried: {' or '.join(required.dried)}")
    if required.least_age is not None:
        phrases.append(f"{writer.write(required.least_age, 'age')} old or more")
    phrases += [f"{what} open" for what in required.opened]
    return "; ".join(phrases)
