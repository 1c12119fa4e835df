"""The questions of the counter sheet, as data that can be worded for one's own county."""

from __future__ import annotations

from pydantic import Field

from compliance.model.base import Described, LongText, Text, YesNo


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
