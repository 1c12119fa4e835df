"""A building of the corpus as a project folder, with the lab tables that its stated strengths come from."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from tests.buildings.reading import Building

SPREAD = (1.0, 1.03, 1.06, 1.09, 1.12)
"""Five specimens, the lowest at the stated strength."""
CAST, TESTED = "2025-04-01", "2025-06-01"


def lay_out(building: Building, folder: Path) -> Path:
    """The folder, with `project.yaml` and `lab/*.csv` written into it."""
    sections = dict(building.sections)
    sets: dict[str, Any] = {}
    tables: dict[str, list[str]] = {}
    for mix, strengths in building.tested.items():
        for kind, stated in strengths.items():
            mark = f"{mix}-{kind}"
            sets[mark] = {"kind": kind, "mix": mix, "made_by": "the builder", "tested_by": "a laboratory"}
            if kind == "compression":
                sets[mark] |= {"capped": "plaster of paris", "shown_to_official": "2025-06-20"}
            tables.setdefault(kind, []).extend(_rows(kind, mark, mix, stated))
    sections["test_sets"] = sets | sections.get("test_sets", {})
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lab").mkdir(exist_ok=True)
    text = yaml.dump(sections, Dumper=yaml.CSafeDumper, sort_keys=False, allow_unicode=True, width=200)
    (folder / "project.yaml").write_text(text, encoding="utf-8")
    for kind, rows in tables.items():
        (folder / "lab" / f"{kind}.csv").write_text("\n".join([_HEADINGS[kind], *rows, ""]), encoding="utf-8")
    return folder


_HEADINGS = {
    "compression": "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],"
    "peak_load [lbf],strength [psi]",
    "rupture": "set,specimen,mix,cast,tested,dried,shape,width [in],height [in],depth [in],span [in],"
    "loading,mass [lb],peak_load [lbf],strength [psi]",
    "shrinkage": "set,specimen,mix,cast,tested,dried,form_length [in],dried_length [in]",
}


def _rows(kind: str, mark: str, mix: str, stated: str) -> list[str]:
    """Rows of five specimens: cubes of 4 in at 105 pcf, beams of 6 by 6 in over 10 in, bars of 24 in."""
    number, unit = stated.split()
    head = [f"{mark},{mark}-{place},{mix},{CAST},{TESTED},air" for place in range(1, 6)]
    if kind == "shrinkage":
        assert unit == "in", f"{mark}: shrinkage is a length in inches"
        return [f"{one},24,{24 - float(number):.4f}" for one in head[:2]]
    assert unit == "psi", f"{mark}: strengths of the corpus are in psi"
    strengths = [float(number) * share for share in SPREAD]
    if kind == "compression":
        return [f"{one},cube,4,4,4,3.89,{16 * psi:.3f},{psi:.3f}" for one, psi in zip(head, strengths, strict=True)]
    # Modulus of rupture of a beam under a load at midspan: 3 P L / (2 b d2).
    return [
        f"{one},prism,6,6,12,10,centre,26.25,{psi * 2 * 6 * 36 / (3 * 10):.3f},{psi:.3f}"
        for one, psi in zip(head, strengths, strict=True)
    ]
