"""The way of the earth into a wall: every link in the order of the work, every gap in a sentence."""

from __future__ import annotations

from datetime import date

import pytest

from compliance.checking import check_folder
from compliance.facts.evidence.chain import Chain, Link
from compliance.model.specimens import Specimen
from compliance.problems import Place
from tests.conftest import Write

HEAD = """\
project: {name: Trial, date: 2026-06-02}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
soils:
  S1: {name: clay, place: pond, depth: 3 ft, dug: 2026-01-05}
  S2: {name: sand}
trials: {T1: {parts: {S1: 1, S2: 2}, straw: none, made: 2026-01-10}}
mixes:
  M1: {name: wall mix, version: B, replaces: M0, parts: {S1: 1, S2: 2}, straw: wheat, straw_parts: 0.5, trial: T1}
  M0: {name: bare mix, parts: {S1: 1}, straw: none}
batches:
  B1: {mix: M1, mixed: 2026-02-01, volume: 9 ft3, by: Ada}
  B2: {mix: M1, mixed: 2026-02-02, walls: [W4]}
  B3: {mix: M0, mixed: 2026-02-03}
test_sets:
  C1: {kind: compression, mix: M1, title: prisms, tested_by: a laboratory, shown_to_official: 2026-03-20}
  C2: {kind: rupture, mix: M1}
walls:
  W1: {name: south, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1,
       placed_from: 2026-04-01}
  W2: {run: {from: [0 ft, 20 ft], to: [20 ft, 20 ft]}, height: 8 ft, thickness: 16 in, mix: M0}
  W3: {run: {from: [0 ft, 40 ft], to: [20 ft, 40 ft]}, height: 8 ft, thickness: 16 in}
  W4: {run: {from: [0 ft, 60 ft], to: [20 ft, 60 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
"""
ROWS = {
    "C1": [
        Specimen(
            "compression",
            set="C1",
            mark="C1-1",
            mix="M1",
            place=Place("lab"),
            cast=date(2026, 2, 5),
            tested=date(2026, 3, 5),
            batch="B1",
        ),
        Specimen("compression", set="C1", mark="C1-2", mix="M1", place=Place("lab")),
    ]
}


@pytest.fixture
def chains(project: Write) -> dict[str, Chain]:
    made = check_folder(project("", head=HEAD)).project
    return {mark: Chain(mark, made, ROWS) for mark in made.walls}


def test_every_link_in_the_order_of_the_work(chains: dict[str, Chain]) -> None:
    assert chains["W1"].links == (
        Link("pit", mark="S1", says="pond, 3 ft deep", of="S1", day=date(2026, 1, 5), done="dug"),
        Link("soil", "S1", "clay", "M1"),
        Link("soil", "S2", "sand", "M1"),
        Link("trial", mark="T1", says="1 S1 : 2 S2, no straw", of="M1", day=date(2026, 1, 10), done="made"),
        Link("mix", "M1", "wall mix, version B, in place of M0: 1 S1 : 2 S2, 0.5 straw"),
        Link("batch", mark="B1", says="9 ft3 by Ada", of="M1", day=date(2026, 2, 1), done="mixed"),
        Link("set", "C1", "compression, prisms, tested by a laboratory, shown to the official 2026-03-20", "M1"),
        Link(
            "specimen", mark="C1-1", says="cast 2026-02-05, of batch B1", of="C1", day=date(2026, 3, 5), done="tested"
        ),
        Link("specimen", mark="C1-2", says="cast on a day not given", of="C1", day=None, done="tested"),
        Link("set", "C2", "rupture, without a title", "M1"),
        Link("wall", mark="W1", says="south", of="M1", day=date(2026, 4, 1), done="placed from"),
    )


def test_every_gap_in_a_sentence(chains: dict[str, Chain]) -> None:
    assert chains["W1"].gaps == ("soil S2 does not say where it comes from", "set C2 has no rows of specimens")
    assert chains["W2"].gaps == ("mix M0 names no trial it was chosen from", "mix M0 has no set of specimens")
    assert (chains["W3"].links[0].says, chains["W3"].gaps) == ("described without a name", ("wall W3 names no mix",))
    assert chains["W3"].links == (
        Link("wall", mark="W3", says="described without a name", of="", day=None, done="placed from"),
    )


def test_lines_of_links_and_gaps(chains: dict[str, Chain]) -> None:
    lines = [(step.says, step.result.value) for step in chains["W2"].steps(without=("batch", "soil"))]
    assert lines == [
        ("Pit S1", "pond, 3 ft deep, dug 2026-01-05"),
        ("Mix M0", "bare mix: 1 S1, no straw"),
        ("Wall W2", "described without a name"),
        ("Not told", "mix M0 names no trial it was chosen from"),
        ("Not told", "mix M0 has no set of specimens"),
    ]
    batches = {mark: [link.mark for link in chain.of_kind("batch")] for mark, chain in chains.items()}
    assert batches == {"W1": ["B1"], "W2": ["B3"], "W3": [], "W4": ["B1", "B2"]}
