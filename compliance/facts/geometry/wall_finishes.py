"""What follows from the finishes on the two faces of a wall."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, solved, without_meaning
from compliance.model.walls import Finish, Insulation, Wall
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given

_NO_PLASTER = ("siding",)
_WITH_CLAY = ("clay", "clay-lime")
_WITH_PORTLAND_CEMENT = ("cement", "cement-lime", "soil-cement")


def finishes(wall: Wall, mark: str) -> dict[str, Fact]:
    """Permeance of layers in series: 1 / Σ(1/p). A face described as an empty list is bare."""
    faces: dict[str, list[Finish] | None] = {"outside": wall.outside, "inside": wall.inside}
    undescribed = [("walls", mark, face) for face, layers in faces.items() if layers is None]
    outside = known(bool(wall.outside)) if wall.outside is not None else lacking(("walls", mark, "outside"))
    facts = {"wall.finished_outside": outside} | _outside(wall, mark)
    facts["wall.sealing_finish"] = _sealing(faces, mark)
    if undescribed:
        return facts | {
            "wall.finish_permeance": lacking(*undescribed),
            "wall.thickest_finish": lacking(*undescribed),
        }
    layers = {face: found for face, found in faces.items() if found}
    bare = without_meaning("the wall has no finish")
    covers = {face: found for face in faces if (found := _covers(wall, mark, face))}
    return facts | {
        "wall.finish_permeance": _least_permeance(covers) if covers else bare,
        "wall.thickest_finish": _thickest(layers, mark) if layers else bare,
    }


def _outside(wall: Wall, mark: str) -> dict[str, Fact]:
    """Thickness and kinds of the layers outside; zero and no for a bare face. A layer of a material that is not named
    counts as plaster, so that no rule on plaster passes over it."""
    layers = wall.outside
    if layers is None:
        names = (
            "outside_finish",
            "plastered_outside",
            "cement_outside",
            "outside_plaster",
            "outside_cement",
            "outside_clay",
            "outside_all_clay",
            "cement_over_clay",
        )
        return {f"wall.{name}": lacking(("walls", mark, "outside")) for name in names}
    plaster = [index for index, one in enumerate(layers) if one.material not in _NO_PLASTER]
    clay = [index for index in plaster if layers[index].material in _WITH_CLAY]
    cement = [index for index in plaster if layers[index].material == "cement"]
    over = [index for index in plaster if layers[index].material in _WITH_PORTLAND_CEMENT]
    return {
        "wall.outside_finish": _thickness(layers, range(len(layers)), mark),
        "wall.outside_plaster": _thickness(layers, plaster, mark),
        "wall.outside_cement": _thickness(layers, cement, mark),
        "wall.plastered_outside": known(bool(plaster)),
        "wall.cement_outside": known(bool(cement)),
        "wall.outside_clay": known(bool(clay)),
        "wall.outside_all_clay": known(bool(plaster) and all(layers[at].material == "clay" for at in plaster)),
        "wall.cement_over_clay": known(bool(clay and over) and max(over) > min(clay)),
    }


def _thickness(layers: Sequence[Finish], which: Iterable[int], mark: str) -> Fact:
    """Thickness of some layers of the outside together."""
    chosen = [(index, layers[index].thickness) for index in which]
    lack = [("walls", mark, "outside", index, "thickness") for index, thick in chosen if thick is None]
    return lacking(*lack) if lack else known(sum((thick.si for _, thick in chosen if thick), 0.0))


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


_Cover = tuple[FieldPath, Finish | Insulation]


def _covers(wall: Wall, mark: str, face: str) -> list[_Cover]:
    """The layers that vapor passes on a face, each with its path: insulation, which stands on the earth, and
    finishes."""
    insulation = [
        (("walls", mark, "insulation", index), one)
        for index, one in enumerate(wall.insulation or ())
        if one.side == face
    ]
    finish = [(("walls", mark, face, index), one) for index, one in enumerate(getattr(wall, face) or ())]
    return [*insulation, *finish]


def _least_permeance(covers: Mapping[str, list[_Cover]]) -> Fact:
    lack = [
        (*path, "permeance")
        for found in covers.values()
        for path, layer in found
        if layer.permeance is None or layer.permeance.si <= 0
    ]
    if lack:
        return lacking(*lack)
    resistance = {
        face: sum(1 / layer.permeance.si for _, layer in found if layer.permeance) for face, found in covers.items()
    }
    face = max(resistance, key=lambda name: resistance[name])
    given = [
        Given(f"p{index}", layer.permeance.si, "permeance", layer.material or "insulation")
        for index, (_, layer) in enumerate(covers[face], 1)
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
