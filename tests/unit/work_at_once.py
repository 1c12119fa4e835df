"""Work for processes of their own, in a module that is quick to import."""

from __future__ import annotations

import os
import threading
import time


def slow_first(number: int) -> int:
    time.sleep(0.3 if number == 0 else 0)
    return number * number


def end_at_two(number: int) -> int:
    if number == 2:
        os._exit(9)
    return number


class _EndsSoon:
    """Once it is pickled, its process has a few milliseconds left."""

    def __reduce__(self) -> tuple[type[int], tuple[int]]:
        threading.Timer(0.005, os._exit, (9,)).start()
        return int, (0,)


def end_while_sending_two(number: int) -> object:
    """Of number 2 a result so long that its process ends while it is sent."""
    return (bytes(100_000_000), _EndsSoon()) if number == 2 else number
