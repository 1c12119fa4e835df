"""What is known of the law in the project's state on the cob appendix, in a sentence or two."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.checked import Checked
from compliance.findings import BINDING
from compliance.model.reference_texts import Adoption, StateAdoption

_STATUS = {
    "adopted": "{appendix} is part of the {code}, {clause}.",
    "printed-only": "{appendix} is printed in the {code} for information only and not adopted, {clause}.",
    "not-adopted": "The {code} names the appendices it adopts, and {appendix} is none of them, {clause}.",
    "struck": "{appendix} was struck from the {code}, {clause}.",
    "local-ordinance": "Under the {code}, {appendix} binds only where a local ordinance adopts it, {clause}.",
}
_NOT_LAW = ("printed-only", "not-adopted", "struck")
_ALTERNATIVE = "Without a local ordinance the walls need the official's approval as an alternative."
_KNOWN = {
    "confirmed": "Confirmed in the adopted copy.",
    "read": "Read in a third party's copy of that edition; the official says what is in force.",
    "reported": "Reported second-hand; the official says what is in force.",
    "recalled": "From memory; the official says what is in force.",
}


def state_adoption(checked: Checked) -> str:
    """The sentences; empty where the project names no state or adopts no rule set on the cob appendix."""
    adoption, state = checked.needed_references.adoption(), checked.project.jurisdiction.state
    return adoption_sentences(adoption, state, [one.id for one in checked.rule_sets])


def is_adopted(checked: Checked) -> bool:
    """Whether the project names the text that adopts a code or standard among its rule sets: a local ordinance may
    adopt what the state does not. A text that is said to adopt none for these walls does not count."""
    place = checked.project.jurisdiction
    if not place.adopting_text or place.adopts_earthen_code is False:
        return False
    return any(one.status in BINDING for one in checked.rule_sets)


def adoption_sentences(adoption: Adoption, state: str | None, rule_sets: Sequence[str]) -> str:
    used = [adoption.rule_sets[name] for name in rule_sets if name in adoption.rule_sets]
    if not state or not used:
        return ""
    found = adoption.of(state)
    if found is None:
        return f"This tool has no record of whether {state} adopts the cob appendix; ask the building official."
    parts = [
        _STATUS[found.status].format(appendix=f"Appendix {found.appendix} (cob)", code=found.code, clause=found.clause),
        found.note,
    ]
    if found.status in _NOT_LAW:
        parts.append(_ALTERNATIVE)
    parts += [_other_edition(found, used), _KNOWN[found.standing]]
    return " ".join(part for part in parts if part)


def _other_edition(found: StateAdoption, used: Sequence[str]) -> str:
    """Said where the rule set comes from another edition's appendix than the state's code."""
    others = sorted({one for one in used if one != found.appendix})
    if not others:
        return ""
    return f"The rule sets here follow Appendix {' and '.join(others)} instead; the state's base is {found.base}."
