"""Work spread over processes, results in the order of the items. Safe to start by spawning.

Not `concurrent.futures.ProcessPoolExecutor`: its workers share one pipe for results, so that it waits forever where one
is ended while it sends (by the system for want of memory, or by Ctrl-C); tests/unit/test_check_each.py does that. Here
each process has a pipe of its own, and its end is seen whatever it was doing.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from multiprocessing.connection import Connection, wait
from typing import Any, Generic, TypeVar

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
    processes = [_Worker(work) for _ in range(min(workers, len(items)))]
    done: dict[int, Result | None] = {}
    begun = 0
    try:
        for index in range(len(items)):
            while index not in done:
                for worker in processes:
                    if worker.index is None and begun < min(len(items), index + _AHEAD * len(processes)):
                        worker.begin(begun, items[begun])
                        begun += 1
                for worker in _ready(processes):
                    number, result = worker.take()
                    done[number] = result
            yield done.pop(index)
    finally:
        for worker in processes:
            worker.end()


class _Worker(Generic[Item, Result]):
    """A process that works on one item after the other; `index` is that of the item it has now. It ends with this
    process, and is started again where it ended before."""

    def __init__(self, work: Callable[[Item], Result]) -> None:
        self._work = work
        self.index: int | None = None
        self._start()

    def _start(self) -> None:
        spawn = multiprocessing.get_context("spawn")
        self.pipe, other = spawn.Pipe()
        self._process = spawn.Process(target=_run_worker, args=(self._work, other), daemon=True)
        with _without_interrupts():
            self._process.start()
        other.close()

    def begin(self, index: int, item: Item) -> None:
        self.index = index
        try:
            self.pipe.send(item)
        except OSError:
            self._restart()
            self.pipe.send(item)

    def take(self) -> tuple[int, Result | None]:
        """The index of the item and its result; None where the process ended."""
        assert self.index is not None
        index, self.index = self.index, None
        try:
            return index, self.pipe.recv()
        except (EOFError, OSError):
            self._restart()
            return index, None

    def _restart(self) -> None:
        self.end()
        self._start()

    def end(self) -> None:
        self.pipe.close()
        self._process.terminate()
        self._process.join()


def _ready(processes: Sequence[_Worker[Item, Result]]) -> list[_Worker[Item, Result]]:
    """Those whose result has come, or that ended; waits for the first."""
    busy = [worker for worker in processes if worker.index is not None]
    ready = wait([worker.pipe for worker in busy])
    return [worker for worker in busy if worker.pipe in ready]


@contextmanager
def _without_interrupts() -> Iterator[None]:
    """Processes started meanwhile never receive Ctrl-C, which is for the one that started them."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGINT])
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _run_worker(work: Callable[[Any], Any], pipe: Connection) -> None:
    """The life of a process: until nobody is at the other end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        while True:
            pipe.send(work(pipe.recv()))
    except (EOFError, OSError):
        return
