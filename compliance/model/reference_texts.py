"""The form of shipped references that papers print: questions of the counter sheet, to be worded for one's own county,
where the cob appendix of the residential code is law, and cautions that hold in one place or edition."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from compliance.model.base import Described, LongText, Text, YesNo, no_items

Appendix = Literal["AU", "BK"]
Section = Literal["code-path", "tests", "inspections", "sign-off"]
StateLetters = Annotated[str, Field(pattern=r"^[A-Z]{2}$")]


class CounterQuestion(Described):
    """One question: why it is asked, answers to tick, a line to write on, and which saying of the project goes with
    it."""

    ask: LongText
    why: LongText | None = None
    boxes: list[Text] = Field(default_factory=list, max_length=4)
    write: YesNo = False
    shows: Text | None = None


class CounterSection(Described):
    section: Text
    questions: list[CounterQuestion] = Field(min_length=1)


class Pack(Described):
    """Rule sets that go together for one material in one place, in the order to adopt them."""

    id: Text
    place: Text
    material: Text
    rule_sets: list[Text] = Field(min_length=1, max_length=12)
    note: LongText | None = None


class WallSketch(Described):
    """What wall types of a rule set have, in words and in a drawing of a few lines of text."""

    rule_set: Text
    types: list[Text] = Field(min_length=1, max_length=20)
    says: Text
    drawing: str = Field(max_length=2000)


class StateAdoption(Described):
    """What one state's code says of the appendix. `base` is the model code it is made from; `standing` tells how well
    this is known."""

    state: Text
    abbreviation: Annotated[str, Field(pattern=r"^[A-Z]{2}$")]
    code: Text
    base: Text
    appendix: Appendix
    status: Literal["adopted", "printed-only", "not-adopted", "struck", "local-ordinance"]
    clause: Text
    standing: Literal["confirmed", "read", "reported", "recalled"]
    source: Text
    note: LongText | None = None


class Adoption(Described):
    """The rule sets that come from the appendix, and the states that were looked into."""

    rule_sets: dict[str, Appendix]
    states: list[StateAdoption] = Field(min_length=1, max_length=60)

    @model_validator(mode="after")
    def _names_a_state_once(self) -> Self:
        for names in ([one.state for one in self.states], [one.abbreviation for one in self.states]):
            twice = sorted({name for name in names if names.count(name) > 1})
            if twice:
                raise ValueError(f"{', '.join(twice)} stands there twice")
        return self

    def of(self, state: str) -> StateAdoption | None:
        """What is known of a state by its name or its two letters, whatever their case."""
        wanted = " ".join(state.split()).casefold()
        found = (one for one in self.states if wanted in (one.state.casefold(), one.abbreviation.casefold()))
        return next(found, None)


class PlaceCaution(Described):
    """Where it bears, which section of the papers prints it, what it says and how well that is known."""

    id: Text
    states: dict[StateLetters, Text] = Field(default_factory=dict, max_length=60)
    rule_sets: list[Text] = Field(default_factory=no_items, max_length=20)
    prints_in: Section
    clause: Text
    standing: Literal["confirmed", "read", "reported", "recalled"]
    source: Text
    says: LongText


class PlaceCautions(Described):
    cautions: list[PlaceCaution] = Field(min_length=1, max_length=200)

    @model_validator(mode="after")
    def _names_each_once(self) -> Self:
        names = [one.id for one in self.cautions]
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            raise ValueError(f"{', '.join(twice)} stands there twice")
        return self
