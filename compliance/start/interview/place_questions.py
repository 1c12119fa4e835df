"""Where the building stands, what is known of the law there, and the rule sets proposed for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

from compliance.model.people import Jurisdiction
from compliance.model.reference_texts import Pack
from compliance.reading.reference_files.adoption_reference import read_adoption
from compliance.reading.reference_files.packs_reference import read_packs
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.report.adoption_statement import adoption_sentences
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.rule_set_titles import shipped_titles
from compliance.start.project_files.field_help import read_field, read_words

COB_IN_THE_US = "us-cob"


def place_questions(answers: Answers) -> Iterator[Question]:
    yield Question(
        "place", "Where will it stand: the town or county whose building official decides, a comma, and the state",
        lambda text: read_field(Jurisdiction, "name", text), "Quillmoor County, OR", required=True,
        help="The office that issues the permit: the county's building department on county land, the city's inside a "
        "city. With the state, by name or two letters, you are told whether the cob appendix is known to be law there. "
        "Outside the United States write the town alone, and choose the pack of rule sets of your country next.",
    )  # fmt: skip
    yield _rule_sets(answers["place"])


def parted_place(text: str) -> tuple[str, str]:
    """The town or county, and the state by its name; no state where the last part is none."""
    town, comma, last = text.rpartition(",")
    word = " ".join(last.split()).casefold()
    states = _states()
    state = next((name for letters, name in states.items() if word in (letters.casefold(), name.casefold())), "")
    return (town.strip(), state) if comma and town.strip() and state else (text.strip(), "")


def _rule_sets(place: str) -> Question:
    _, state = parted_place(place)
    local = _local_packs(place, state)
    packs = (*local, *(one for one in read_packs() if one not in local))
    names = (*(one.id for one in packs), *shipped_rule_sets())
    cob = next(one for one in packs if one.id == COB_IN_THE_US)
    law = adoption_sentences(read_adoption(), state, cob.rule_sets)
    titles = "\n".join(f" {name}: {title}" for name, title in shipped_titles().items())
    is_proposed = bool(state) and not local
    return Question(
        "rule_sets",
        f"Which rule sets apply? {f'Enter takes {cob.id}; or choose' if is_proposed else 'Choose'} a pack of the list, "
        "or name rule sets, separated by commas (? lists them)",
        lambda text: _expanded(text, names), "" if is_proposed else cob.id, default=cob.id if is_proposed else "",
        required=True, note=law, choices=tuple((one.id, f"{one.material}, {one.place}") for one in packs),
        help="Ask the building official which code is adopted, and with which appendices. A pack is the code of a "
        "place with what goes with it: footings, evidence for the earth, the reasons for an engineer. It can be "
        f"changed later in project.yaml, under jurisdiction. The rule sets one by one:\n{titles}",
    )  # fmt: skip


def _local_packs(place: str, state: str) -> tuple[Pack, ...]:
    """The packs made for this place; which of them applies depends on the material."""
    words = f"{place} {state}".casefold()
    return tuple(one for one in read_packs() if one.place.partition(",")[0].casefold() in words)


def _expanded(text: str, names: tuple[str, ...]) -> str:
    """Rule sets by name, those of each pack in the order to adopt them."""
    packs = {one.id: one for one in read_packs()}
    chosen = read_words(text.casefold() if text.strip().casefold() in packs else text, names).split(", ")
    found = [name for one in chosen for name in (packs[one].rule_sets if one in packs else [one])]
    return ", ".join(dict.fromkeys(found))


@cache
def _states() -> Mapping[str, str]:
    return {key: str(name) for key, name in read_yaml(Path(__file__).with_name("us_states.yaml"), "states").items()}
