"""Strict YAML: what is read, what is refused, and exactly where.

Sources: YAML 1.2.2 (yaml.org/spec/1.2.2), section 10.2 with example 10.8; JSON (RFC 8259), a subset of YAML 1.2;
PyYAML's own loader as a second reader of plain files; RFC 3629 for UTF-8.
"""

from __future__ import annotations

import json
import math
import os
import socket
from pathlib import Path
from typing import Any, Literal

import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from compliance.files.characters import HIDDEN
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.yaml import strict_yaml
from compliance.reading.yaml.placed import PlacedDict, PlacedList, place_of
from compliance.reading.yaml.strict_yaml import MOST_BYTES, parse_yaml, read_yaml
from compliance.reading.yaml.syntax import SlowParser, syntax_problem
from compliance.reading.yaml.tree import DEEPEST, MOST_NODES
from compliance.refused import MOST_PROBLEMS
from tests.tries import tries

Found = list[tuple[int, int, str]]


@pytest.fixture(params=[yaml.CSafeLoader, SlowParser], ids=["libyaml", "python"])
def either_parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strict_yaml, "_PARSER", request.param)


def problems_of(text: str) -> Found:
    with pytest.raises(ProblemsFound) as caught:
        parse_yaml(text, "wall.yaml")
    assert all(problem.place.file == "wall.yaml" and problem.wrong for problem in caught.value.problems)
    return [(problem.place.line, problem.place.column, problem.code) for problem in caught.value.problems]


def problems_of_file(path: Path) -> Found:
    with pytest.raises(ProblemsFound) as caught:
        read_yaml(path, "wall.yaml")
    return [(problem.place.line, problem.place.column, problem.code) for problem in caught.value.problems]


@pytest.mark.usefixtures("either_parser")
class TestMeaning:
    def test_example_10_8_of_yaml_1_2_2(self) -> None:
        """Where the JSON schema calls a scalar invalid it is text here. `0.` is text too: the note to section
        10.2.1.4 says that JSON's form, with a digit after the point, was meant."""
        text = (
            "A null: null\n"
            "Booleans: [ true, false ]\n"
            "Integers: [ 0, -0, 3, -19 ]\n"
            "Floats: [ 0., -0.0, 12e03, -2E+05 ]\n"
            "Invalid: [ True, Null, 0o7, 0x3A, +12.3 ]\n"
        )
        read = parse_yaml(text, "wall.yaml")
        assert read == {
            "A null": None,
            "Booleans": [True, False],
            "Integers": [0, 0, 3, -19],
            "Floats": ["0.", -0.0, 12000.0, -200000.0],
            "Invalid": ["True", "Null", "0o7", "0x3A", "+12.3"],
        }
        assert [type(value) for value in read["Integers"]] == [int] * 4
        assert [type(value) for value in read["Floats"]] == [str, float, float, float]

    @pytest.mark.parametrize(
        "plain",
        ["no", "yes", "on", "off", "y", "NO", "010", "1_000", "1:6", "190:20:30", "0b1", "2024-05-01", ".5", "5.", "+5",
         "1e", "--1", "16 in", "1,5", "nan", "inf", "NULL", "TRUE", "=", "1.2.3", "-", "-.", "1e5x"],
    )  # fmt: skip
    def test_stays_text(self, plain: str) -> None:
        assert parse_yaml(f"mix: [{plain}]" if plain != "1,5" else f"mix:\n- {plain}", "wall.yaml") == {"mix": [plain]}

    @pytest.mark.parametrize(
        ("plain", "value"),
        [("~", None), ("", None), ("1e3", 1000.0), ("0.85", 0.85), ("-7", -7), ("999999999999999", 10**15 - 1)],
    )
    def test_is_a_value(self, plain: str, value: object) -> None:
        read = parse_yaml(f"factor: {plain}", "wall.yaml")["factor"]
        assert read == value and type(read) is type(value)

    def test_quoted_is_text(self) -> None:
        text = "a: \"5\"\nb: 'true'\nc: |\n  null\nd: >-\n  1.5\n"
        assert parse_yaml(text, "wall.yaml") == {"a": "5", "b": "true", "c": "null\n", "d": "1.5"}

    def test_keys_stay_text(self) -> None:
        assert list(parse_yaml("no: 1\n1:6: 2\n010: 3\n'5': 4\n\"true\": 5\n", "wall.yaml")) == [
            "no", "1:6", "010", "5", "true",
        ]  # fmt: skip


NAMES = st.text(st.characters(codec="utf-8"), max_size=12).filter(lambda text: not HIDDEN.search(text))
NUMBERS = st.integers(-(10**15) + 1, 10**15 - 1) | st.floats(allow_nan=False, allow_infinity=False)
DATA = st.recursive(
    st.none() | st.booleans() | NUMBERS | NAMES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES.filter(bool), inner, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(NAMES.filter(bool), DATA, max_size=4))
def test_json_reads_as_json_does(data: dict[str, Any]) -> None:
    """JSON is a subset of YAML 1.2 (YAML 1.2.2, section 1.2)."""
    assume(not any(len(repr(key)) > 900 for key in data))
    text = json.dumps(data, ensure_ascii=False)
    assert parse_yaml(text, "wall.yaml") == json.loads(text)


WORDS = st.from_regex(r"[a-z]{2,8}( [a-z]{2,8}){0,3}", fullmatch=True).filter(
    lambda word: word not in ("no", "on", "yes", "off", "null", "true", "false")
)
PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-9999, 9999) | st.decimals(-99, 99, places=3).map(float) | WORDS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(WORDS, inner, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(WORDS, PLAIN, min_size=1, max_size=5), st.booleans())
def test_without_traps_reads_as_pyyaml_does(data: dict[str, Any], flow: bool) -> None:
    text = yaml.safe_dump(data, default_flow_style=flow, sort_keys=False)
    assert parse_yaml(text, "wall.yaml") == yaml.safe_load(text) == data


YAML_TEXT = st.text(max_size=60) | st.text(st.sampled_from("ab1.-:?,[]{}&*!|>'\"%@`#~< \n\t\\x0eu"), max_size=60)


@settings(max_examples=tries(500))
@given(YAML_TEXT)
def test_any_text_is_read_or_refused(text: str) -> None:
    for parser in (yaml.CSafeLoader, SlowParser):
        tree = YamlReading(parser, text).tree
        assert tree is None or isinstance(tree, PlacedDict)


class YamlReading:
    """One reading with one parser; hypothesis does not go with function-scoped fixtures."""

    def __init__(self, parser: Any, text: str) -> None:
        kept, strict_yaml._PARSER = strict_yaml._PARSER, parser
        try:
            self.tree: PlacedDict | None = parse_yaml(text, "wall.yaml")
        except ProblemsFound as found:
            self.tree = None
            assert found.problems
        finally:
            strict_yaml._PARSER = kept


@given(st.binary(max_size=80))
def test_any_bytes_are_read_or_refused(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(data)
    try:
        assert isinstance(read_yaml(path, "any.yaml"), PlacedDict)
    except ProblemsFound as found:
        assert found.problems


@pytest.mark.usefixtures("either_parser")
class TestRefused:
    @pytest.mark.parametrize(
        ("text", "expected"),
        [
            ("a: 1\nb:\n  c: 1\n  c: 2\na: 3\n", [(4, 3, "yaml-duplicate-key"), (5, 1, "yaml-duplicate-key")]),
            ("a: {x: 1, 'x': 2}\n", [(1, 11, "yaml-duplicate-key")]),
            ('a: 1\n"\\x61": 2\n', [(2, 1, "yaml-duplicate-key")]),
            ("a: &w 1\nb: *w\n", [(1, 4, "yaml-anchor"), (2, 4, "yaml-alias")]),
            ("a: &w [*w]\n", [(1, 4, "yaml-anchor"), (1, 8, "yaml-alias")]),
            ("a: &w {b: 1}\n*w : 2\n", [(1, 4, "yaml-anchor"), (2, 1, "yaml-alias")]),
            ("a: !!str 5\nb: !wall {c: 1}\n", [(1, 4, "yaml-tag"), (2, 4, "yaml-tag")]),
            ("a: ! 5\n", [(1, 4, "yaml-tag")]),
            ("!!map\na: 1\n", [(1, 1, "yaml-tag")]),
            ("a: !x!y 5\n", [(1, 4, "yaml-tag")]),
            ("a: !x &y 5\n", [(1, 4, "yaml-anchor"), (1, 4, "yaml-tag")]),
            ("a:\n  <<: {b: 1}\n", [(2, 3, "yaml-merge-key")]),
            ("a: &w {b: 1}\nc:\n  <<: *w\n", [(1, 4, "yaml-anchor"), (3, 3, "yaml-merge-key"), (3, 7, "yaml-alias")]),
            ("%YAML 1.1\n---\na: no\n", [(1, 1, "yaml-directive")]),
            ("a: 1\n...\n%TAG ! x\n---\nb: 1\r%x\n", [(3, 1, "yaml-directive"), (6, 1, "yaml-directive")]),
            ("a: |\n  %x\n%y: 1\n", [(3, 1, "yaml-directive")]),
            ("a: 1\n---\nb: 2\n---\nc: 3\n", [(2, 1, "yaml-multiple-documents")]),
            ("5: a\n1.5: b\ntrue: c\n~: d\n", [(line, 1, "yaml-key") for line in (1, 2, 3, 4)]),
            ("? [a]\n: b\nc: {? {x: 1} : 2, d: 3}\n", [(1, 3, "yaml-key"), (3, 7, "yaml-key")]),
            ("? \n: b\n", [(1, 2, "yaml-key")]),
            ("'': b\n", [(1, 1, "yaml-key")]),
            ("a: [.inf, -.INF, .NaN]\n", [(1, 5, "yaml-number"), (1, 11, "yaml-number"), (1, 18, "yaml-number")]),
            ("a: 1e400\nb: 1e-400\nc: 0e-400\n", [(1, 4, "yaml-number"), (2, 4, "yaml-number")]),
            ("a: 1000000000000000\nb: -999999999999999\n", [(1, 4, "yaml-number")]),
            ("a: 12345678901234567890123\n", [(1, 4, "yaml-number")]),
            (".inf: 1\n", [(1, 1, "yaml-number")]),
            ("- 1\n", [(1, 1, "yaml-not-mapping")]),
            ("\n  16 in\n", [(2, 3, "yaml-not-mapping")]),
            ("", [(0, 0, "yaml-empty")]),
            ("# nothing yet\n", [(0, 0, "yaml-empty")]),
            ("---\n", [(0, 0, "yaml-empty")]),
            ("a: x\0y\n", [(1, 5, "yaml-nul")]),
            ("a: 1\r\nb: \x07\r\nc: \x7f\n", [(2, 4, "yaml-control-character"), (3, 4, "yaml-control-character")]),
            ("a: 1\u2028b: 2\n", [(1, 5, "yaml-control-character")]),
            ("a: \u202e1\nb: 1\ufeff\n", [(1, 4, "yaml-control-character"), (2, 5, "yaml-control-character")]),
            ("a: \ud800\n", [(1, 4, "yaml-control-character")]),
            ('a: "\\0"\nb: "\\u202e"\n', [(1, 4, "yaml-nul"), (2, 4, "yaml-control-character")]),
        ],
    )
    def test_place_and_code(self, text: str, expected: Found) -> None:
        assert problems_of(text) == expected

    @pytest.mark.parametrize(
        ("text", "line", "column"),
        [
            ("a: b: c\n", 1, 5),
            ("a: 1\n b: 2\n", 2, 3),
            ("a:\n  b: 1\n c: 2\n", 3, 2),
            ("a:\n\tb: 1\n", 2, 1),
            ("a: @wall\n", 1, 4),
            ("a: `wall\n", 1, 4),
            ("a: %wall\n", 1, 4),
            ("a: - b\n", 1, 4),
            ("a: 1\n- b\n", 2, 1),
            ("a: 1\nb\nc: 2\n", 3, 1),
            ("a: 'x' y\n", 1, 8),
            ("a: [1, 2\nb: 3\n", 2, 2),
            ("a: {x: 1\nb: 3\n", 2, 2),
            ("a: 'x\n", 2, 1),
            ("a: | x\n", 1, 6),
            ("a: 1\n...\nb: 2\n", 3, 1),
            ("🧱: 'é' x\n", 1, 8),
        ],
    )
    def test_place_of_a_syntax_error(self, text: str, line: int, column: int) -> None:
        assert problems_of(text) == [(line, column, "yaml-syntax")]

    def test_what_was_found_before_a_syntax_error_is_told_too(self) -> None:
        assert problems_of("a: 1\na: 2\nb: [\n") == [(2, 1, "yaml-duplicate-key"), (4, 1, "yaml-syntax")]

    @pytest.mark.parametrize(
        ("text", "wrong"),
        [
            ("\ta: 1\n", "a tab stands where only spaces can be"),
            ("a: @x\n", "a text without quotes cannot begin with '@'"),
            ("a: `\n", "a text without quotes cannot begin with '`'"),
        ],
    )
    def test_a_character_that_cannot_begin_a_text(self, text: str, wrong: str) -> None:
        with pytest.raises(ProblemsFound) as caught:
            parse_yaml(text, "wall.yaml")
        assert [problem.wrong for problem in caught.value.problems] == [wrong]

    def test_advice_names_the_unclosed_bracket(self) -> None:
        with pytest.raises(ProblemsFound) as caught:
            parse_yaml("a: [1\n", "wall.yaml")
        assert str(caught.value.problems[0]).startswith("wall.yaml:2:1: a list in square brackets is not closed")
        assert "line 1, column 4" in caught.value.problems[0].wrong

    @pytest.mark.parametrize("escape", ["\\q", "\\u12", "\\U00110000"])
    def test_an_escape_that_is_none(self, escape: str) -> None:
        [(line, _, code)] = problems_of(f'a: 1\nb: "{escape}"\n')
        assert (line, code) == (2, "yaml-syntax")


@pytest.mark.usefixtures("either_parser")
class TestLimits:
    def test_depth(self) -> None:
        """The mapping of the file is the first of the levels."""
        inner = DEEPEST - 1
        assert parse_yaml("a: " + "[" * inner + "]" * inner, "wall.yaml")
        assert problems_of("a: " + "[" * (inner + 1) + "]" * (inner + 1)) == [(1, 4 + inner, "yaml-depth")]

    @pytest.mark.parametrize("bomb", ["[" * 100_000, "{a: " * 100_000, "- " * 100_000, "? " * 100_000])
    def test_depth_bombs(self, bomb: str) -> None:
        [(_, _, code)] = [found for found in problems_of(bomb) if found[2] != "yaml-key"]
        assert code == "yaml-depth"

    def test_problems_are_not_endless(self) -> None:
        found = problems_of("a: 1\n" * 5000)
        assert len(found) == MOST_PROBLEMS + 1
        assert found[-1] == (MOST_PROBLEMS + 1, 1, "yaml-too-many-problems")


def test_nodes() -> None:
    """The mapping of the file and the list in it count too."""
    most = MOST_NODES - 2
    assert len(parse_yaml("a: [" + "1," * most + "]", "wall.yaml")["a"]) == most
    assert problems_of("a: [" + "1," * (most + 1) + "]") == [(1, 5 + 2 * most, "yaml-nodes")]


def test_limits_are_those_that_are_documented() -> None:
    assert (MOST_BYTES, DEEPEST, MOST_NODES) == (2_000_000, 40, 400_000)


def test_directives_are_refused_before_they_cost_time() -> None:
    found = problems_of("a: 1\n...\n" + "".join(f"%TAG !t{number}! x\n" for number in range(100_000)))
    assert found == [(line, 1, "yaml-directive") for line in range(3, 3 + MOST_PROBLEMS)]


def test_size(tmp_path: Path) -> None:
    path = tmp_path / "wall.yaml"
    path.write_bytes(b"a: 1\n#".ljust(MOST_BYTES, b"x"))
    assert read_yaml(path, "wall.yaml") == {"a": 1}
    path.write_bytes(b"a: 1\n#".ljust(MOST_BYTES + 1, b"x"))
    with pytest.raises(ProblemsFound, match=r"wall\.yaml:0:0: the file is larger than 2 MB .*yaml-size"):
        read_yaml(path, "wall.yaml")
    assert problems_of("#" * (MOST_BYTES + 1)) == [(0, 0, "yaml-size")]


def test_hidden_characters_are_not_endless() -> None:
    assert problems_of("\0" * 5000) == [(1, column, "yaml-nul") for column in range(1, MOST_PROBLEMS + 1)]


def test_an_error_of_the_parser_without_a_place_is_a_problem_of_the_file() -> None:
    problem = syntax_problem(yaml.YAMLError("out of\n  order"), "a: 1", "wall.yaml")
    assert problem == Problem(Place("wall.yaml"), "yaml-syntax", "this is not YAML: out of order")


@pytest.mark.usefixtures("either_parser")
class TestPlaces:
    TEXT = "walls:\r\n  - name: é\r\n    thickness: 16 in # least\r\n  - {name: b,  thickness: ''}\r\nnote:\r\n"

    @pytest.mark.parametrize("mark", ["", "\ufeff"])
    def test_of_keys_and_values(self, mark: str) -> None:
        tree = parse_yaml(mark + self.TEXT, "wall.yaml")
        first, second = tree["walls"]
        assert (tree.file, tree.at) == ("wall.yaml", (1, 1))
        assert tree.key_places == {"walls": (1, 1), "note": (5, 1)}
        assert tree.value_places == {"walls": (2, 3), "note": (5, 6)}
        assert (tree["walls"].at, tree["walls"].item_places) == ((2, 3), [(2, 5), (4, 5)])
        assert (first.at, first.key_places) == ((2, 5), {"name": (2, 5), "thickness": (3, 5)})
        assert first.value_places == {"name": (2, 11), "thickness": (3, 16)}
        assert second.value_places == {"name": (4, 12), "thickness": (4, 27)}

    @pytest.mark.parametrize(
        ("loc", "at_key", "line", "column"),
        [
            ((), False, 1, 1),
            (("note",), False, 5, 6),
            (("walls", 0, "thickness"), False, 3, 16),
            (("walls", 0, "thickness"), True, 3, 5),
            (("walls", 1), True, 4, 5),
            (("walls", 0, "height"), False, 2, 5),
            (("walls", 7, "height"), False, 2, 3),
            (("walls", -1, "height"), False, 2, 3),
            (("walls", 0, "cob", "thickness"), False, 3, 16),
            (("walls", 0, "thickness", "[key]"), False, 3, 5),
            (("walls", "0"), False, 2, 3),
            ((0, "note"), False, 5, 6),
        ],
    )
    def test_place_of(self, loc: tuple[str | int, ...], at_key: bool, line: int, column: int) -> None:
        tree = parse_yaml(self.TEXT, "wall.yaml")
        assert place_of(tree, loc, at_key) == Place("wall.yaml", line, column)


class Cob(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid")
    kind: Literal["cob"]
    straw: float


class Adobe(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid")
    kind: Literal["adobe"]
    grades: list[int]


class Project(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid")
    mixes: list[Cob | Adobe] = Field(min_length=1)
    shares: dict[str, float]


def test_pydantic_takes_placed_trees_in_strict_mode() -> None:
    tree = parse_yaml("mixes:\n- {kind: cob, straw: 1.5}\n- {kind: adobe, grades: [1, 2]}\nshares: {clay: 0.2}\n", "m")
    project = Project.model_validate(tree)
    assert project.mixes == [Cob(kind="cob", straw=1.5), Adobe(kind="adobe", grades=[1, 2])]
    assert project.shares == {"clay": 0.2}


def test_pydantic_errors_find_their_places() -> None:
    class Site(BaseModel):
        model_config = ConfigDict(strict=True, extra="forbid")
        mix: Cob | Adobe = Field(discriminator="kind")
        name: str

    tree = parse_yaml("mix:\n  kind: cob\n  straw: often\n  colour: red\n", "site.yaml")
    with pytest.raises(ValidationError) as caught:
        Site.model_validate(tree)
    found = {
        error["type"]: (error["loc"], place_of(tree, error["loc"], error["type"] == "extra_forbidden"))
        for error in caught.value.errors()
    }
    assert found == {
        "float_type": (("mix", "cob", "straw"), Place("site.yaml", 3, 10)),
        "extra_forbidden": (("mix", "cob", "colour"), Place("site.yaml", 4, 3)),
        "missing": (("name",), Place("site.yaml", 1, 1)),
    }


class TestFiles:
    @pytest.mark.parametrize(
        ("data", "expected"),
        [
            (b"a: 1\nb: caf\xe9\n", [(2, 7, "yaml-encoding")]),
            (b"\xef\xbb\xbfa: 1\r\n\xc3\xa9: \xff\r\n", [(2, 4, "yaml-encoding")]),
            (b"a: \xc0\x80\n", [(1, 4, "yaml-encoding")]),
            (b"a: \xed\xa0\x80\n", [(1, 4, "yaml-encoding")]),
            ("a: 1\n".encode("utf-16"), [(1, 1, "yaml-encoding")]),
            ("a: 1\n".encode("utf-32"), [(1, 1, "yaml-encoding")]),
            ("a: 1\n".encode("utf-16-le"), [(1, 1, "yaml-encoding")]),
            (b"", [(0, 0, "yaml-empty")]),
        ],
    )
    def test_bytes(self, tmp_path: Path, data: bytes, expected: Found) -> None:
        """UTF-8 has neither overlong forms nor surrogates: RFC 3629, section 3."""
        path = tmp_path / "wall.yaml"
        path.write_bytes(data)
        assert problems_of_file(path)[: len(expected)] == expected

    def test_byte_offset_is_named(self, tmp_path: Path) -> None:
        path = tmp_path / "wall.yaml"
        path.write_bytes(b"a: 1\nb: caf\xe9\n")
        with pytest.raises(ProblemsFound, match="byte 0xE9, number 12 in the file"):
            read_yaml(path, "wall.yaml")

    def test_mark_and_line_ends(self, tmp_path: Path) -> None:
        path = tmp_path / "wall.yaml"
        path.write_bytes(b"\xef\xbb\xbfa: 1\r\nb: \xc3\xa9\r\n")
        tree = read_yaml(path, "wall.yaml")
        assert tree == {"a": 1, "b": "é"} and tree.key_places["b"] == (2, 1)

    def test_missing(self, tmp_path: Path) -> None:
        (tmp_path / "file").write_text("a: 1")
        assert problems_of_file(tmp_path / "none.yaml") == [(0, 0, "file-missing")]
        assert problems_of_file(tmp_path / "file" / "below.yaml") == [(0, 0, "file-missing")]

    def test_not_a_regular_file(self, tmp_path: Path) -> None:
        os.mkfifo(tmp_path / "pipe")
        for path in (tmp_path, tmp_path / "pipe", Path("/dev/zero"), Path("/dev/null")):
            assert problems_of_file(path) == [(0, 0, "file-not-regular")]

    def test_socket(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.chdir(tmp_path)
        with socket.socket(socket.AF_UNIX) as listening:
            listening.bind("here")
            assert problems_of_file(Path("here")) == [(0, 0, "file-not-regular")]

    def test_unreadable(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        (tmp_path / "loop").symlink_to("loop")
        assert problems_of_file(tmp_path / "loop") == [(0, 0, "file-unreadable")]
        assert problems_of_file(tmp_path / "nul\0") == [(0, 0, "file-unreadable")]
        assert problems_of_file(tmp_path / ("x" * 300)) == [(0, 0, "file-unreadable")]
        (tmp_path / "shut").write_text("a: 1")

        def refuse(*_: object) -> int:
            raise PermissionError(13, "Permission denied")

        # The rights of a file do not stop the root user, who may be running this test.
        monkeypatch.setattr(os, "open", refuse)
        assert problems_of_file(tmp_path / "shut") == [(0, 0, "file-unreadable")]


def test_every_number_is_finite_and_near_what_was_written() -> None:
    read = parse_yaml("a: 1.7976931348623157e308\nb: 5e-324\n", "wall.yaml")
    assert all(math.isfinite(value) and value > 0 for value in read.values())
    assert isinstance(parse_yaml("a: []", "wall.yaml")["a"], PlacedList)
