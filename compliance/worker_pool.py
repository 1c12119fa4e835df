"""Work spread over processes, results in the order of the items. Safe to start by spawning."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")

_AHEAD = 4
"""Items submitted for each process before the result of the first is taken, so that few results pile up."""


def cores() -> int:
    """How many processor cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def in_order(work: Callable[[Item], Result], items: Sequence[Item], workers: int) -> Iterator[Result | None]:
    """`work(item)` of each item, None where the process that worked on it came to an end. `work` is a function of a
    module. Broken off, every process is ended."""
    done = 0
    while done < len(items):
        for result in _until_broken(work, items[done:], workers):
            yield result
            done += 1
        if done < len(items):
            # A process that ends takes the whole pool with it, and does not tell which item it worked on: the next one
            # is tried alone, the others again in a new pool.
            yield next(_until_broken(work, items[done : done + 1], 1), None)
            done += 1


def _until_broken(work: Callable[[Item], Result], items: Sequence[Item], workers: int) -> Iterator[Result]:
    """The results in order, up to the first that a pool does not give because one of its processes ended."""
    pool = ProcessPoolExecutor(
        max(1, min(workers, len(items))), mp_context=multiprocessing.get_context("spawn"), initializer=_set_up_worker
    )
    waiting = deque(items)
    begun: deque[Future[Result]] = deque()
    try:
        while waiting or begun:
            while waiting and len(begun) < _AHEAD * workers:
                with _without_interrupts():  # a process may be started here
                    begun.append(pool.submit(work, waiting.popleft()))
            yield begun.popleft().result()
    except BrokenProcessPool:
        return
    finally:
        pool.shutdown(wait=not begun, cancel_futures=True)
        for process in multiprocessing.active_children():
            process.terminate()
            process.join()


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


def _set_up_worker() -> None:
    """A worker leaves Ctrl-C to the process that started it, and ends with that process however it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
    os._exit(1)
