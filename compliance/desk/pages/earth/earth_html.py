"""All of the earth on a page: soils and what each lacks, trial bricks by rank, mixes in buckets, what to do next."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import add_form, ready_form
from compliance.desk.pages.earth.jar_forms import triangle
from compliance.desk.pages.earth.soil_html import EARTH, earth_path
from compliance.desk.pages.frame import listed, page, problems_box, section
from compliance.documents.plots.texture_triangle import plotted
from compliance.documents.plots.triangle_drawing import legend
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.blend_text import batch_line
from compliance.output.terminal.problem_text import ReadLines
from compliance.remedies.edited_project import written_plainly
from compliance.report.earth.answer_parts import EarthLine, NextStep, amount
from compliance.report.earth.earth_answer import earth_answer
from compliance.report.earth.mix_blends import blend_of_mix
from compliance.report.earth.soil_words import REMARK, soil_line, soil_steps, soil_uses
from compliance.report.earth.trial_words import advice_of, in_parts, trial_lines, trial_steps

SOIL_FIELDS = ("name", "material", "place", "depth", "dug")
TRIAL_FIELDS = ("straw", "straw_parts", "made", "drop_height", "by")
MIX_FIELDS = ("name", "form", "trial", "straw", "straw_parts", "stabilised")


def earth_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """The whole page."""
    checked = snapshot.checked
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Earth")]
    if checked is not None:
        project = checked.project
        if project.soils or project.trials or project.mixes:
            children.append(tag("p", earth_answer(checked).sentence, class_="sentence"))
        children += [_soils(checked, snapshot), _trials(checked, snapshot), _mixes(checked, snapshot)]
    return page("Earth", snapshot, *children, here=EARTH)


def _soils(checked: Checked, snapshot: Snapshot) -> Markup:
    rows = [_linked("soils", one.mark, soil_line(one, checked)) for one in soil_uses(checked)]
    points = plotted(checked.evidence.soils, checked.evidence.mixes)
    drawing = (
        tag("figure", triangle(checked, points), tag("figcaption", legend(points), class_="small"), class_="pictured")
        if points
        else None
    )
    left = joined([listed(rows) if rows else tag("p", "No soil is described yet."), *_steps(soil_steps(checked))])
    remark = tag("p", REMARK, class_="small") if rows else None
    add = add_form("soils", SOIL_FIELDS, snapshot=snapshot, back=EARTH, label="Add the soil")
    return section(
        "Soils", tag("div", tag("div", left, remark), drawing, class_="beside"),
        _adding("Add a soil", add, snapshot),
    )  # fmt: skip


def _linked(section_name: str, mark: str, line: EarthLine) -> Markup:
    head = tag("a", line.head, href=earth_path(section_name, mark))
    return joined([tag("p", head), *(tag("p", text, class_="small") for text in line.says)])


def _steps(steps: Iterator[NextStep]) -> Iterator[Markup]:
    says = [step.says for step in steps]
    if says:
        yield tag("h3", "Next")
        yield listed(says)


def _adding(title: str, form: Markup, snapshot: Snapshot) -> Markup | None:
    return None if snapshot.problems else tag("details", tag("summary", title), form)


def _trials(checked: Checked, snapshot: Snapshot) -> Markup:
    rows = [_linked("trials", mark, line) for mark, line in trial_lines(checked).items()]
    remarks = [tag("p", text, class_="small") for text in checked.evidence.ranking.remarks]
    ready = [] if snapshot.problems else list(_next_bricks(checked, snapshot))
    add = add_form("trials", TRIAL_FIELDS, snapshot=snapshot, back=EARTH, label="Add the brick", has_parts=True)
    has_soils = bool(checked.project.soils)
    return section(
        "Trial bricks, best first",
        listed(rows) if rows else tag("p", "No trial brick is described yet."),
        *remarks,
        *_steps(trial_steps(checked)),
        tag("div", *ready, class_="ways") if ready else None,
        _adding("Add a trial brick", add, snapshot) if has_soils else None,
    )


def _next_bricks(checked: Checked, snapshot: Snapshot) -> Iterator[Markup]:
    """A button for each brick to make next, as the trials so far advise."""
    advice, trials = advice_of(checked), checked.project.trials
    for parts in advice.next_parts:
        fields = [(("parts", mark), amount(part)) for mark, part in parts.items()]
        yield ready_form("trials", fields, f"Add a brick of {in_parts(parts)}", snapshot=snapshot, back=EARTH)
    if advice.best and advice.next_straw:
        best = trials[advice.best[0]]
        total = sum(best.parts.values())
        held = [(("parts", mark), written_plainly(part)) for mark, part in best.parts.items()]
        for dose in advice.next_straw:
            straw = amount(dose * total)
            label = f"Add a brick of {in_parts(best.parts)} with {straw} straw"
            kind = [(("straw",), best.straw)] if best.straw and best.straw != "none" else []
            yield ready_form("trials", [*held, *kind, (("straw_parts",), straw)], label, snapshot=snapshot, back=EARTH)


def _mixes(checked: Checked, snapshot: Snapshot) -> Markup:
    rows = []
    for mark, mix in checked.project.mixes.items():
        straw = f", {amount(mix.straw_parts)} straw" if mix.straw_parts else ""
        chosen = f", from trial {mix.trial}" if mix.trial else ""
        batch = batch_line(blend_of_mix(checked, mark), checked.project).strip()
        rows.append(
            _linked("mixes", mark, EarthLine(f"{mark} {mix.name}: {in_parts(mix.parts)}{straw}{chosen}", (batch,)))
        )
    add = add_form("mixes", MIX_FIELDS, snapshot=snapshot, back=EARTH, label="Add the mix", has_parts=True)
    return section(
        "Mixes",
        listed(rows) if rows else tag("p", "No mix is named yet."),
        _adding("Add a mix", add, snapshot) if checked.project.soils else None,
    )
