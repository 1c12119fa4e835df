"""At every question of a whole interview: Ctrl-C and going on, a wrong answer, going back. Without a terminal, for
there are too many; the terminal itself is tried in test_start_talk."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.start.conversation import Conversation, StoppedError
from compliance.start.interview.interview import Interview
from compliance.start.interview.interview_question import Answers
from compliance.start.interview.trial_reading import new_project
from compliance.start.interview.unattended import answers_of
from compliance.start.project_files.kept_answers import keep, kept
from tests.unit.test_start_files import DAY, FULL

WHOLE = answers_of(parse_yaml(FULL + "more: yes\n" if "more:" not in FULL else FULL, "answers.yaml"), new_project(DAY))
ONE_BY_ONE = answers_of(parse_yaml("""\
name: Round House
place: Quillmoor County
rule_sets: cob-practice
length: walls
height: 8 ft
thickness: 16 in
walls:
  - {from: [0 ft, 0 ft], to: [20 ft, 0 ft], name: south}
  - {from: [20 ft, 0 ft], to: [20 ft, 12 ft], use: interior, height: 7 ft, thickness: 12 in}
openings: {W2: [{kind: door, start: 4 ft, width: 3 ft, sill: 0 ft, height: 6 ft 6 in}]}
people: {owner: Ana Diaz}
""", "answers.yaml"), new_project(DAY))  # fmt: skip
EARTH = answers_of(parse_yaml("""\
name: Field Day
begin: earth
soils: pit clay, river sand
soil: [{dug: "3 ft, no", jar: "3 in, 3 5/8 in, 4 1/8 in at 2 days"}]
trials: "1:1, 1:2 + 0.5 rye straw"
drop_height: 6 ft
trial.1: 80 %, 3
mix: P1
""", "answers.yaml"), new_project(DAY))  # fmt: skip
WRONG = "99 furlongs ;"


class Person:
    """Types the lines given, then presses Ctrl-C."""

    def __init__(self, *lines: str) -> None:
        self.lines = list(lines)
        self.heard: list[str] = []

    def __call__(self, prompt: str) -> str:
        if not self.lines:
            raise KeyboardInterrupt
        return self.lines.pop(0)


def talk(path: Path, person: Person) -> Answers:
    """One sitting: with what is kept, as far as the lines go."""
    answers = kept(path)
    conversation = Conversation(80, say=person.heard.append, ask=person)
    one = Interview(answers, new_project(DAY), conversation,
                    keep=lambda so_far: keep(so_far, path, path.with_name("house")))  # fmt: skip
    try:
        return one.run({})
    except KeyboardInterrupt:
        return answers


def test_the_whole_interview_has_many_questions() -> None:
    assert len(WHOLE) > 75 and WHOLE["more"] == "yes"


@pytest.mark.parametrize("whole", [WHOLE, ONE_BY_ONE, EARTH], ids=["rectangle", "walls", "earth"])
def test_ctrl_c_at_every_question_loses_nothing_and_leaves_nothing_else(tmp_path: Path, whole: Answers) -> None:
    path = tmp_path / "house-answers.yaml"
    given: Answers = {}
    for key, text in whole.items():
        talk(path, Person())
        assert kept(path) == given, f"before {key}"
        talk(path, Person(text))
        given[key] = text
        assert kept(path) == given and list(kept(path)) == list(given), key
    assert [one.name for one in tmp_path.iterdir()] == [path.name]


def test_a_wrong_answer_and_going_back_at_every_question_change_nothing(tmp_path: Path) -> None:
    path = tmp_path / "house-answers.yaml"
    refused = 0
    for index, (key, text) in enumerate(WHOLE.items()):
        person = Person(WRONG)
        answers = talk(path, person)
        if len(answers) == index:
            refused += 1
            assert any(line.rstrip().endswith("]") for line in person.heard), f"{key}: why, and with a code"
        else:  # a question that takes any words
            assert talk(path, Person("back")) == dict(list(WHOLE.items())[:index])
        talk(path, Person(text, "back", text))
        assert kept(path) == dict(list(WHOLE.items())[: index + 1]), key
    assert refused > 60


@pytest.mark.parametrize("command", ["stop", "STOP", " stop "])
def test_stop_is_understood_as_it_is_typed(tmp_path: Path, command: str) -> None:
    with pytest.raises(StoppedError):
        talk(tmp_path / "house-answers.yaml", Person(command))


def test_every_question_explains_itself_with_more_than_its_own_example() -> None:
    bare = []
    for whole in (WHOLE, ONE_BY_ONE, EARTH):
        answers: Answers = {}
        for question in new_project(DAY).questions(answers):
            help = " ".join(question.help.split())
            if len(help) < 40 or (question.example and help.endswith(question.example)):
                bare.append(question.key)
            answers[question.key] = whole[question.key]
    assert bare == []
