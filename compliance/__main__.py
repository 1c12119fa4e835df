"""`python -m compliance` does the same as `earthwall`."""

import atexit
import gc
import os

# Plugins of pydantic are looked for in every installed package at start; this tool has none and runs none.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

from compliance.cli import app  # noqa: E402


def main() -> None:
    """Runs the command. What a command makes lives until it ends, so the collector of cycles is kept out of
    its way; reference counting frees the rest."""
    gc.set_threshold(200_000, 20, 20)
    atexit.register(gc.freeze)
    app(prog_name="earthwall")


if __name__ == "__main__":
    main()
