"""What follows from the finishes on the two faces of a wall."""

from __future__ import annotations

import re
from collections.abc import Mapping

from compliance.facts.common.fact import Fact, known, lacking, solved, without_meaning
from compliance.model.walls import Finish, Wall
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given


def finishes(wall: Wall, mark: str) -> dict[str, Fact]:
    """Permeance of layers in series: 1 / Σ(1/p). A face described as an empty list is bare."""
    faces: dict[str, list[Finish] | None] = {"outside": wall.outside, "inside": wall.inside}
    undescribed = [("walls", mark, face) for face, layers in faces.items() if layers is None]
    outside = known(bool(wall.outside)) if wall.outside is not None else lacking(("walls", mark, "outside"))
    facts = {"wall.finished_outside": outside, "wall.outside_finish": _outside_finish(wall, mark)}
    facts["wall.sealing_finish"] = _sealing(faces, mark)
    if undescribed:
        return facts | {
            "wall.finish_permeance": lacking(*undescribed),
            "wall.thickest_finish": lacking(*undescribed),
        }
    layers = {face: found for face, found in faces.items() if found}
    if not layers:
        bare = without_meaning("the wall has no finish")
        return facts | {"wall.finish_permeance": bare, "wall.thickest_finish": bare}
    return facts | {
        "wall.finish_permeance": _least_permeance(layers, mark),
        "wall.thickest_finish": _thickest(layers, mark),
    }


_CEMENT = ("cement",)
_SEALS = re.compile(
    r"waterproof|water-proof|sealing|sealer|sealed|elastomeric|acrylic|latex|vinyl|oil paint|bitum", re.I
)
_NOT = re.compile(r"\b(no|not|without|free of|never)\b", re.I)


def _sealing(faces: Mapping[str, list[Finish] | None], mark: str) -> Fact:
    """What of the finishes described seals the earth: cement, or a coat that its note calls waterproof. A note that
    denies something is not read. A face that is not described lacks, unless the other one seals already."""
    layers = [layer for found in faces.values() for layer in found or ()]
    if any(layer.material in _CEMENT for layer in layers):
        return known("cement")
    if any(_SEALS.search(layer.note or "") and not _NOT.search(layer.note or "") for layer in layers):
        return known("sealing coat")
    undescribed = [("walls", mark, face) for face, found in faces.items() if found is None]
    return lacking(*undescribed) if undescribed else known("none")


def _outside_finish(wall: Wall, mark: str) -> Fact:
    """Thickness of all layers outside; zero for a bare face."""
    if wall.outside is None:
        return lacking(("walls", mark, "outside"))
    lack = [
        ("walls", mark, "outside", index, "thickness") for index, one in enumerate(wall.outside) if not one.thickness
    ]
    return lacking(*lack) if lack else known(sum((one.thickness.si for one in wall.outside if one.thickness), 0.0))


def _least_permeance(layers: Mapping[str, list[Finish]], mark: str) -> Fact:
    lack = [
        ("walls", mark, face, index, "permeance")
        for face, found in layers.items()
        for index, layer in enumerate(found)
        if layer.permeance is None or layer.permeance.si <= 0
    ]
    if lack:
        return lacking(*lack)
    resistance = {
        face: sum(1 / layer.permeance.si for layer in found if layer.permeance) for face, found in layers.items()
    }
    face = max(resistance, key=lambda name: resistance[name])
    given = [
        Given(f"p{index}", layer.permeance.si, "permeance", layer.material)
        for index, layer in enumerate(layers[face], 1)
        if layer.permeance
    ]
    return solved(permeance_in_series.titled(f"Permeance of the {face} finishes in series")(given))


permeance_in_series = equation(
    "Permeance of finishes in series", "1 / sum(1 / layer)", Symbol("p", "permeance"), "layers in series",
    layer=Series("p", "permeance"),
)  # fmt: skip

EQUATIONS = (permeance_in_series,)


def _thickest(layers: Mapping[str, list[Finish]], mark: str) -> Fact:
    lack = [
        ("walls", mark, face, index, "thickness")
        for face, found in layers.items()
        for index, layer in enumerate(found)
        if layer.thickness is None
    ]
    if lack:
        return lacking(*lack)
    total = max(sum(layer.thickness.si for layer in found if layer.thickness) for found in layers.values())
    return known(total)
