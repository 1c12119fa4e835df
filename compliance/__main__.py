"""`python -m compliance` does the same as `earthwall`."""

from compliance.cli import app


def main() -> None:
    app(prog_name="earthwall")


if __name__ == "__main__":
    main()
