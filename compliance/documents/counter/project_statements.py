"""What the project already says of a question to the official, in a line each: an explicit list by name."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.findings import BINDING, Outcome
from compliance.report.adoption_statement import state_adoption
from compliance.report.by_rule import by_rule
from compliance.report.inspection_points import site_points
from compliance.report.value_words import counted
from compliance.units import KINDS, Writer

_SITE = (
    "site.seismic_category", "site.wind_speed", "site.wind_exposure", "site.ground_snow", "site.frost_depth",
    "site.flood_zone", "site.soil_bearing",
)  # fmt: skip
_PEOPLE = ("owner", "builder", "designer", "engineer")


def _rule_sets(checked: Checked) -> str:
    """What binds by its edition; guides and practice are nothing that could be adopted."""
    binding = [one.edition for one in checked.rule_sets if one.status in BINDING]
    named = "; ".join(dict.fromkeys(binding)) or "no code or standard named"
    place = checked.project.jurisdiction
    if place.adopts_earthen_code is False:
        law = f"{place.adopting_text}; " if place.adopting_text else ""
        statement = f"{law}no code adopted for these walls, by the project"
    elif place.adopting_text:
        statement = f"adopted by {place.adopting_text}; {named}"
    else:
        statement = f"adopting ordinance not stated; {named}"
    state = state_adoption(checked)
    return f"{statement}. {state}" if state else statement


def _amendments(checked: Checked) -> str:
    if not checked.amendments:
        return "none entered"
    return f"{counted(len(checked.amendments), 'amendment')} entered, listed in the register of limits"


def _site(checked: Checked) -> str:
    writer = Writer(checked.project.project.units)
    phrases = []
    site = checked.facts.of("site").get("site")
    for name in _SITE:
        fact, spec = site.fact(name) if site else None, FACTS[name]
        value = fact.value if fact else None
        if value is None:
            shown = "not stated"
        elif isinstance(value, bool):
            shown = "yes" if value else "no"
        else:
            shown = writer.write(value, spec.kind) if isinstance(value, float) and spec.kind in KINDS else str(value)
        phrases.append(f"{spec.label} {shown}")
    return "; ".join(phrases)


def _lab(checked: Checked) -> str:
    lab = checked.project.people.lab
    testers = dict.fromkeys(test.tested_by for test in checked.project.test_sets.values() if test.tested_by)
    named = list(dict.fromkeys([*([lab.name] if lab else []), *testers]))
    return f"tests by {', '.join(named)}" if named else "no laboratory named"


def _tests(checked: Checked) -> str:
    tests = checked.project.test_sets
    shown = [
        f"{mark} on {test.shown_to_official.isoformat()}" for mark, test in tests.items() if test.shown_to_official
    ]
    if not tests:
        return "no test on record"
    return f"{counted(len(tests), 'set')} on record; shown to the official: {', '.join(shown) or 'none yet'}"


def _inspections(checked: Checked) -> str:
    points = site_points(by_rule(checked))
    holds = sum(point.is_hold for point in points)
    return (
        f"{counted(holds, 'hold point')} and {counted(len(points) - holds, 'witness point')} in the plan"
        if points
        else "the rule sets name no points"
    )


def _engineer(checked: Checked) -> str:
    subjects = dict.fromkeys(one.wall or one.subject for one in checked.findings if one.outcome is Outcome.ENGINEER)
    engineer = checked.project.people.engineer
    named = f"engineer: {engineer.name}" if engineer else "no engineer named"
    return f"marked engineer: {', '.join(subjects) or 'nothing'}; {named}"


def _people(checked: Checked) -> str:
    found = [(role, getattr(checked.project.people, role)) for role in _PEOPLE]
    return "; ".join(f"{role} {person.name}" for role, person in found if person) or "nobody named"


SAYINGS: Mapping[str, Callable[[Checked], str]] = {
    "rule-sets": _rule_sets,
    "amendments": _amendments,
    "site": _site,
    "lab": _lab,
    "tests": _tests,
    "inspections": _inspections,
    "engineer": _engineer,
    "people": _people,
}
