"""A limit as it is written and as it is read: its value in SI, and every word of where it comes from."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.problems import Place
from compliance.rules.formulas.types import TextType
from compliance.rules.limit_values import RefusedLimitError, plain_value, read_limit, read_table, type_of_limit
from compliance.rules.schema import LimitText, TableText

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


def test_a_text_that_begins_with_a_digit_must_be_a_measure() -> None:
    for text in ("5 bananas", "55 bananas"):
        with pytest.raises(RefusedLimitError) as found:
            plain_value(text, None)
        assert (found.value.code, found.value.where) == ("measure-unit", ("value",))
    assert plain_value("bananas", None) == ("bananas", "word")


def test_a_number_is_no_word() -> None:
    with pytest.raises(RefusedLimitError) as found:
        plain_value(5, "word")
    assert (found.value.code, found.value.wrong, found.value.where) == ("limit-kind", "'5' is no word", ("value",))


def test_a_limit_of_one_word_can_be_that_word_alone() -> None:
    assert type_of_limit(read_limit("way", limit("air"), HERE)) == TextType(("air",))
    assert type_of_limit(read_limit("way", limit("open", kind="word", standing="open"), HERE)) == TextType(None)


def table(at: list[str], **more: Any) -> TableText:
    said = {"kind": "length", "standing": "recalled", "cells": [["10 ft"]] * len(at), **more}
    return TableText.model_validate({"rows": {"fact": "wall.least_thickness", "at": at, "worse": "smaller"}, **said})


def test_what_is_said_of_a_table_is_kept() -> None:
    said = {"source": "a code", "clause": "5.2", "read_in": "a copy", "note": "for walls"}
    found = read_table("tallest", table(["16 in", "10 in"], **said), HERE)
    assert (found.source, found.clause, found.read_in, found.note) == ("a code", "5.2", "a copy", "for walls")
    assert found.rows.entries == pytest.approx((16 * 0.0254, 10 * 0.0254)) and found.rows.worse == "smaller"
    bare = read_table("tallest", table(["10 in"]), HERE)
    assert (bare.source, bare.clause, bare.read_in, bare.note) == ("", "", "", "")


@pytest.mark.parametrize(
    ("text", "code", "wrong", "where"),
    [
        (table(["10 in"], kind="word"), "limit-kind", "a word is no measure", ("kind",)),
        (table(["10 in", "10 in"]), "table-order", "10 in stands twice in the table", ("rows", "at", 1)),
        (table(["10 in", "16 in", "12 in"]), "table-order", "the rows are out of order", ("rows", "at")),
    ],
)
def test_what_a_table_may_not_be(text: TableText, code: str, wrong: str, where: tuple[str | int, ...]) -> None:
    with pytest.raises(RefusedLimitError) as found:
        read_table("tallest", text, HERE)
    assert (found.value.code, found.value.wrong, found.value.where) == (code, wrong, where)
