"""How often Python looks for objects that only hold each other."""

import gc


def collect_seldom() -> None:
    """What a command makes lives until it ends; reference counting frees the rest."""
    gc.set_threshold(200_000, 20, 20)
