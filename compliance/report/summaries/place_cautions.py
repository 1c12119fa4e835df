"""Which cautions of a place or an edition bear on a project, for the section of the papers that prints them."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.model.reference_texts import PlaceCaution, Section

_KNOWN = {
    "confirmed": "confirmed in the adopted copy",
    "read": "read in a third party's copy; the official says what is in force",
    "reported": "reported second-hand; the official says what is in force",
    "recalled": "from memory; the official says what is in force",
}


def place_cautions(checked: Checked, section: Section) -> tuple[str, ...]:
    """Each as a sentence or two with its clause and how well it is known, in the order of the reference."""
    state = (checked.project.jurisdiction.state or "").strip().casefold()
    adopted = {one.id for one in checked.rule_sets}
    return tuple(
        f"{one.says} {one.clause}, {_KNOWN[one.standing]}."
        for one in checked.needed_references.place_cautions().cautions
        if one.prints_in == section and _bears(one, state, adopted)
    )


def _bears(one: PlaceCaution, state: str, adopted: set[str]) -> bool:
    """In the state named, by its name or letters, and with a rule set named; what names neither bears everywhere."""
    states = {text.casefold() for pair in one.states.items() for text in pair}
    return (not states or state in states) and (not one.rule_sets or bool(adopted & set(one.rule_sets)))
