"""The blend of a mix as text for the terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from compliance.facts.mixes.blending import Blend
from compliance.facts.mixes.mix_blend import Aim, MixBlend
from compliance.facts.mixes.quantities import Quantities
from compliance.facts.soil.fractions import percent
from compliance.model.project import Project
from compliance.report.value_words import ordering_words, usual_figures
from compliance.units import Writer

CAUTION = (
    "Targets and figures for ordering are common practice, no rule of a code. What a mix carries is shown by its own "
    "compression tests, not by its recipe; a changed proportion is another mix and is retested."
)


def blend_text(blend: MixBlend, project: Project, writer: Writer, width: int) -> str:
    """Targets, parts, what they become, what is lacking, straw, and what the walls of the mix take."""
    lines = [f"Mix {blend.mark}: {blend.mix.name}", ""]
    for soil in blend.unknown:
        lines.append(f"  {soil}: its shares of clay, silt and sand are not known; enter a grading, a jar or the shares")
    for material in blend.materials:
        density = f"; {writer.write(material.bulk_density, 'density')} loose" if material.bulk_density else ""
        lines.append(f"  {material.name}: {_shares(material.shares)} (by {material.by}{density})")
    for aim in blend.aims:
        lines += ["", *_aim(aim)]
    lines += [f"  not compared with {reason}" for reason in blend.unfit]
    lines += ["", batch_line(blend, project), _straw(blend), *_needs(blend, project, writer), "", CAUTION]
    return "".join(f"{part}\n" for line in lines for part in _wrapped(line, width))


def _wrapped(line: str, width: int) -> list[str]:
    indent = " " * (len(line) - len(line.lstrip()))
    return textwrap.wrap(line, width, subsequent_indent=indent + "  ") or [""]


def _shares(shares: Mapping[str, float]) -> str:
    return ", ".join(f"{name} {percent(share)}" for name, share in shares.items() if share > 0)


def _parts(blend: Blend) -> str:
    return " : ".join(f"{part:g} {name}" for name, part in blend.parts.items() if part > 0)


def _aim(aim: Aim) -> Iterator[str]:
    yield f"  Target {aim.name}: {aim.target.title} ({aim.target.source})"
    yield f"    as described, {_parts(aim.described)}: {aim.described.says}"
    yield f"      becomes {_shares(aim.described.shares)}"
    exact = " : ".join(f"{percent(part)} {name}" for name, part in aim.exact.parts.items() if part > 0)
    yield f"    nearest by volume, {exact}: {aim.exact.says}"
    yield f"      becomes {_shares(aim.exact.shares)}"
    for size, found in (("whole", aim.whole), ("half", aim.halves)):
        says = found.says if aim.exact.reached else f"{percent(found.distance)} from the target."
        yield f"    nearest in {size} buckets, {_parts(found)}: {says}"
        yield f"      becomes {_shares(found.shares)}"
    for remark in aim.described.remarks:
        yield f"    to mind: {remark.says}"


def batch_line(blend: MixBlend, project: Project) -> str:
    """The recipe: one batch in buckets."""
    batch = blend.batch
    parts = [f"{_buckets(count)} of {mark} {project.soils[mark].name}" for mark, count in batch.buckets.items()]
    straw = f", with {_buckets(batch.straw)} of straw" if batch.straw else ", without straw"
    note = "" if batch.exact else " (to the tenth: mark the bucket)"
    return f"  One batch: {', '.join(parts)}{straw}{note}"


def _buckets(count: float) -> str:
    return f"{count:.3g} {'bucket' if count == 1 else 'buckets'}"


def _straw(blend: MixBlend) -> str:
    whose = "as the mix says" if blend.dose_stated else "common practice: the mix does not say straw_parts"
    return f"  Straw: {blend.dose:.3g} bucket, pressed in, for each bucket of soil and sand ({whose})"


def _needs(blend: MixBlend, project: Project, writer: Writer) -> Iterator[str]:
    walls = [mark for mark, wall in project.walls.items() if wall.mix == blend.mark]
    if blend.needs is None:
        yield "  No wall is built of this mix yet, so no quantities are counted."
        return
    yield f"  For {writer.write(blend.volume, 'volume')} of wall ({', '.join(walls)}), waste counted:"
    yield from _materials(blend.needs, writer)
    usual = usual_figures(project.ordering)
    yield f"    Counted with {ordering_words(blend.ordering, writer)}."
    if usual:
        yield f"    Common practice, to be set under ordering: in project.yaml: {', '.join(usual)}."


def _materials(needs: Quantities, writer: Writer) -> Iterator[str]:
    for need in needs.materials:
        mass = (
            f", {writer.write(need.mass, 'tonnage')}" if need.mass is not None else ", weight unknown: no bulk_density"
        )
        yield f"    {need.name}: {need.buckets} buckets{mass}"
    if needs.straw_mass:
        yield f"    straw: {writer.write(needs.straw_mass, 'mass')}, {needs.bales} bales"
