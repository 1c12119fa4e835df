"""`python -m tests.pictures` makes every kept picture anew. Look at each before you keep it: the tests then hold
whatever it shows."""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.pictures.buildings import BUILDINGS
from tests.pictures.comparing import write_picture
from tests.pictures.making import REFERENCES, pages, reference


def main() -> None:
    REFERENCES.mkdir(exist_ok=True)
    kept = set()
    with tempfile.TemporaryDirectory() as folder:
        for building in BUILDINGS:
            for title, picture in pages(building, Path(folder)):
                path = reference(building, title)
                write_picture(picture, path)
                kept.add(path)
                print(f"{path.name}  {path.stat().st_size} bytes")
    for path in set(REFERENCES.glob("*.png")) - kept:
        path.unlink()
        print(f"{path.name}  no longer kept, deleted")


if __name__ == "__main__":
    main()
