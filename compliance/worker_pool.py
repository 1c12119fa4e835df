"""Work spread over processes of their own, results in the order of the items. Safe to start by spawning."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from multiprocessing.connection import Connection, wait
from typing import Any, Generic, TypeVar

from compliance.memory import collect_seldom

Item = TypeVar("Item")
Result = TypeVar("Result")

_AHEAD = 4
"""Items begun for each process before the result of the first is taken, so that few results pile up."""


def cores() -> int:
    """How many processor cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def in_order(work: Callable[[Item], Result], items: Sequence[Item], workers: int) -> Iterator[Result | None]:
    """`work(item)` of each item, None where the process that worked on it came to an end. `work` is a function of a
    module. Broken off, every process is ended."""
    hands = [_Hand(work) for _ in range(min(workers, len(items)))]
    done: dict[int, Result | None] = {}
    begun = 0
    try:
        for at in range(len(items)):
            while at not in done:
                for hand in hands:
                    if hand.at is None and begun < min(len(items), at + _AHEAD * len(hands)):
                        hand.give(begun, items[begun])
                        begun += 1
                for hand in _ready(hands):
                    number, result = hand.take()
                    done[number] = result
            yield done.pop(at)
    finally:
        for hand in hands:
            hand.end()


class _Hand(Generic[Item, Result]):
    """A process that works on one item after the other; `at` is the number of the one it has now. It ends with this
    process, and is made anew where it ended before."""

    def __init__(self, work: Callable[[Item], Result]) -> None:
        self._work = work
        self.at: int | None = None
        self._begin()

    def _begin(self) -> None:
        spawn = multiprocessing.get_context("spawn")
        self.way, other = spawn.Pipe()
        self._process = spawn.Process(target=_labour, args=(self._work, other), daemon=True)
        with _without_interrupts():
            self._process.start()
        other.close()

    def give(self, at: int, item: Item) -> None:
        self.at = at
        try:
            self.way.send(item)
        except OSError:
            self._begin_again()
            self.way.send(item)

    def take(self) -> tuple[int, Result | None]:
        """The number of the item and its result; None where the process ended."""
        assert self.at is not None
        number, self.at = self.at, None
        try:
            return number, self.way.recv()
        except (EOFError, OSError):
            self._begin_again()
            return number, None

    def _begin_again(self) -> None:
        self.end()
        self._begin()

    def end(self) -> None:
        self.way.close()
        self._process.terminate()
        self._process.join()


def _ready(hands: Sequence[_Hand[Item, Result]]) -> list[_Hand[Item, Result]]:
    """Those whose result has come, or that ended; waits for the first."""
    busy = [hand for hand in hands if hand.at is not None]
    come = wait([hand.way for hand in busy])
    return [hand for hand in busy if hand.way in come]


@contextmanager
def _without_interrupts() -> Iterator[None]:
    """What is started meanwhile never hears of Ctrl-C, which is for the one that started it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT])
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _labour(work: Callable[[Any], Any], way: Connection) -> None:
    """The life of a process: until nobody is at the other end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    collect_seldom()
    try:
        while True:
            way.send(work(way.recv()))
    except (EOFError, OSError):
        return
