"""`python -m compliance` does the same as `earthwall`."""

import gc

from compliance.cli import app


def main() -> None:
    """Runs the command. What a command makes lives until it ends, so the collector of cycles is kept out of
    its way; reference counting frees the rest."""
    gc.set_threshold(200_000, 20, 20)
    app(prog_name="earthwall")


if __name__ == "__main__":
    main()
