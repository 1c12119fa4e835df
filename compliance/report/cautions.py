"""The cautions, worded once and printed in every document."""

from __future__ import annotations

SHORT = (
    "A screening against the rule sets named inside. Not a design; does not demonstrate safety. "
    "Verify limits in the adopted code; the official decides."
)
"""Stands on every page."""

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Screening only.",
        "A description of the building was compared with written rules. This is not a design, and nothing in it "
        "certifies that a wall, a roof or a building is safe.",
    ),
    (
        "Verify every limit.",
        "Limits are stated in our own words, from the sources named beside them. Before anything rests on a limit, "
        "read it in the copy of the code that the jurisdiction adopted, with its local amendments.",
    ),
    (
        "The official decides.",
        "What applies, what is accepted and what is still asked for is for the building official to say.",
    ),
    (
        "Marked engineer means engineer.",
        "Where an item is marked so, a licensed engineer must design or review that part before it is built. No other "
        "mark says that an engineer is not needed.",
    ),
    (
        "Tests speak for what was tested.",
        "A strength holds for a wall only as far as its soil, mix, drying and workmanship match the specimens.",
    ),
    (
        "The site may differ.",
        "Figures follow from what was written down. Where the ground, the plan or the wall turns out otherwise, they "
        "no longer hold.",
    ),
    (
        "Local codes and licensed practice come first.",
        "Wherever they ask for more than is printed here, they govern.",
    ),
)
"""A few words that name the caution, and the caution."""
