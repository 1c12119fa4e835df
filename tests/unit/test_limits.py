"""A limit as it is written and as it is read: its value in SI, and every word of where it comes from."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.problems import Place
from compliance.rules.limits import RefusedLimitError, plain_value, read_limit
from compliance.rules.schema import LimitText

HERE = Place("rules.yaml")


def limit(value: Any, **more: str) -> LimitText:
    return LimitText.model_validate({"value": value, "standing": "recalled", **more})


def test_what_is_said_of_a_limit_is_kept() -> None:
    said = {"source": "a code", "clause": "5.2", "read_in": "a copy", "note": "for walls"}
    found = read_limit("least", limit("10 in", **said), HERE)
    assert (found.name, found.written, found.kind, found.place) == ("least", "10 in", "thickness", HERE)
    assert found.value == pytest.approx(0.254)
    assert (found.source, found.clause, found.read_in, found.note) == ("a code", "5.2", "a copy", "for walls")
    bare = read_limit("least", limit("10 in", kind="length"), HERE)
    assert (bare.kind, bare.source, bare.clause, bare.read_in, bare.note) == ("length", "", "", "", "")


def test_an_open_limit_has_no_value() -> None:
    found = read_limit("most", limit("open", kind="ratio", standing="open"), HERE)
    assert (found.value, found.kind, found.given) == (None, "ratio", None)
    with pytest.raises(RefusedLimitError, match="no kind of measure"):
        read_limit("most", limit("open", kind="furlongs", standing="open"), HERE)


@pytest.mark.parametrize(
    ("written", "kind", "value", "read_as"),
    [
        (["clay", "sand"], None, frozenset({"clay", "sand"}), "words"),
        (True, None, True, "yes-no"),
        ("yes", None, True, "yes-no"),
        ("no", "yes-no", False, "yes-no"),
        ("yes", "word", "yes", "word"),
        (7, None, 7.0, "ratio"),
        ("2 %", "share", 0.02, "share"),
    ],
)
def test_values_of_every_sort(written: Any, kind: str | None, value: object, read_as: str) -> None:
    assert plain_value(written, kind) == (value, read_as)
