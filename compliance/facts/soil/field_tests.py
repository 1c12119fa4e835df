"""What a hand test of a soil is commonly taken to mean; the readings and meanings are data."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import SoilError, Values
from compliance.findings import Standing
from compliance.model.soil_tests import FieldTest
from compliance.record import record
from compliance.steps import Source
from compliance.units import MeasureError, measure

CLAY, SILT, SAND, ORGANIC = "clay", "silt", "sand", "organic"
_POINTS = frozenset({CLAY, SILT, SAND, ORGANIC})


@record
class Meaning:
    """What a reading means. `suggests` holds what it points to; `start` is the least length of a range, in m."""

    means: str
    suggests: tuple[str, ...]
    source: Source
    standing: Standing
    start: float = 0.0


@record
class HandTest:
    """One kind of hand test: how it is made, and its readings by word and by length."""

    title: str
    how: str
    words: Mapping[str, Meaning]
    ranges: tuple[Meaning, ...]


@record
class FieldTestPractice:
    """All hand tests by kind, a note that goes with all of them, and what counts as topsoil and as silty."""

    tests: Mapping[str, HandTest]
    note: str
    topsoil_depth: float
    topsoil_source: Source
    topsoil_standing: Standing
    silty_classes: tuple[str, ...]
    silty_standing: Standing

    def tells(self, kind: str, point: str) -> bool:
        """Whether any reading of a hand test points to `point`: only then does another reading speak against it."""
        metrics = self.tests[kind]
        return any(point in meaning.suggests for meaning in (*metrics.words.values(), *metrics.ranges))

    @classmethod
    def from_values(cls, values: Values) -> FieldTestPractice:
        """From the values of the field test reference. Raises ReferenceValueError."""
        root = Part(values)
        tests, topsoil, silty = root.part("tests"), root.part("topsoil"), root.part("silty")
        return cls(
            {kind: _hand_test(tests.part(kind)) for kind in tests},
            note=root.text("note"),
            topsoil_depth=topsoil.measure("shallower_than", "length"),
            topsoil_source=topsoil.source(),
            topsoil_standing=topsoil.standing(),
            silty_classes=silty.texts("classes"),
            silty_standing=silty.standing(),
        )


@record
class FieldReading:
    """One hand test of a soil with what it is taken to mean."""

    test: FieldTest
    title: str
    meaning: Meaning


def read_field_test(test: FieldTest, practice: FieldTestPractice) -> FieldReading:
    """The meaning of one hand test. Raises SoilError for a reading that the reference does not know."""
    metrics = practice.tests.get(test.kind)
    if metrics is None:
        raise SoilError(f"the reference of field tests has no test called {test.kind}")
    if test.reading in metrics.words:
        return FieldReading(test, metrics.title, metrics.words[test.reading])
    if not metrics.ranges:
        raise SoilError(f"{test.reading!r} is no reading of this test; write one of {', '.join(metrics.words)}")
    try:
        length = measure(test.reading, "thickness").si
    except MeasureError as error:
        words = f", or {' or '.join(metrics.words)}" if metrics.words else ""
        raise SoilError(f"{error.wrong}; write the length at which it broke, as in 3 in{words}") from None
    reached = [meaning for meaning in metrics.ranges if meaning.start <= length * (1 + 1e-9)]
    return FieldReading(test, metrics.title, reached[-1])


def _hand_test(part: Part) -> HandTest:
    words = part.part("words")
    ranges = tuple(_meaning(one) for one in part.parts("ranges")) if "ranges" in part else ()
    starts = [one.start for one in ranges]
    if ranges and (starts[0] != 0 or starts != sorted(set(starts))):
        part.refuse("ranges", "must begin with a range without from: and rise from there")
    return HandTest(part.text("title"), part.text("how"), {word: _meaning(words.part(word)) for word in words}, ranges)


def _meaning(part: Part) -> Meaning:
    suggests = tuple(str(item) for item in part.items("suggests"))
    if not set(suggests) <= _POINTS:
        part.refuse("suggests", f"may hold {', '.join(sorted(_POINTS))}")
    start = part.measure("from", "thickness") if "from" in part else 0.0
    return Meaning(part.text("means"), suggests=suggests, source=part.source(), standing=part.standing(), start=start)
