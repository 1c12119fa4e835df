"""The blend of a mix as a user asks for it: parts, what they become, what is lacking, and what the walls take."""

from __future__ import annotations

import math
import re

import pytest

from compliance.commands.common.blends import BlendError, blend_pages
from tests.conftest import EXAMPLE, WALLS, Write
from tests.unit.test_cli import run

PURE = "bulk_density: 1000 kg/m3, silt: 0 %"
HEAD = f"""\
project: {{name: Trial, date: 2026-12-30, units: si}}
jurisdiction: {{name: Nowhere, rule_sets: [none-needed.yaml]}}
soils:
  S1: {{name: clay, clay: 100 %, sand: 0 %, {PURE}}}
  S2: {{name: sand, material: sand, clay: 0 %, sand: 100 %, fine_sand: 0 %, coarse_sand: 100 %, {PURE}}}
  S3: {{name: sand, material: sand, clay: 0 %, sand: 100 %, fine_sand: 100 %, coarse_sand: 0 %, {PURE}}}
mixes:
  M1: {{name: plain, parts: {{S1: 1, S2: 2, S3: 1}}, straw: wheat, straw_parts: 1}}
  M2: {{name: bare, parts: {{S1: 1, S2: 1}}, straw: none}}
  M3: {{name: unknown, parts: {{S1: 1, S9: 1}}}}
"""


def pages(
    project: Write, mix: str | None = None, target: str | None = None, head: str = HEAD, walls: str = WALLS
) -> str:
    return blend_pages(project(text=walls, head=head), mix, target, 200)


def sound(head: str = HEAD) -> str:
    """Without the mix that names a soil nobody described."""
    return head.replace("  M3: {name: unknown, parts: {S1: 1, S9: 1}}\n", "")


def test_a_mix_on_its_target_is_on_it(project: Write) -> None:
    """Two coarse, one fine, one clay is the shipped target cob itself."""
    text = pages(project, "M1", head=sound())
    assert "as described, 1 S1 : 2 S2 : 1 S3: The blend is 0 % from the target, within" in text
    assert "becomes coarse sand 50 %, fine sand 25 %, clay 25 %" in text
    assert "nearest in whole buckets, 1 S1 : 2 S2 : 1 S3" in text
    assert "Lacking" not in text and "common practice" in text and "no rule of a code" in text


def test_what_no_blend_reaches_is_told_with_what_to_look_for(project: Write) -> None:
    text = pages(project, "M2", head=sound())
    assert "No blend of these materials reaches the target" in text and "Lacking: fine sand" in text
    assert "0 bucket, pressed in" in text and "No wall is built of this mix yet" in text


def test_a_dose_that_the_mix_does_not_state_is_practice_and_says_so(project: Write) -> None:
    text = pages(project, "M1", head=sound().replace(", straw_parts: 1", ""))
    assert "0.2 bucket, pressed in" in text and "common practice: the mix does not say straw_parts" in text
    assert "0.25 bucket, pressed in, for each bucket of soil and sand (as the mix says)" in pages(
        project, "M1", head=sound()
    )


def test_quantities_of_the_walls(project: Write) -> None:
    """20 ft × 8 ft × 16 in = 6.0409 m3; × 1.3 × 1.1 loose = 8.6385 m3; a quarter is 2.1596 m3 of 1000 kg/m3."""
    text = pages(project, "M1", head=sound())
    loose = 20 * 8 * 16 / 12 * 0.3048**3 * 1.3 * 1.1
    buckets = math.ceil(loose / 4 / 0.003785411784 / 5)
    assert "For 6.04 m³ of wall (W1)" in text
    assert f"S1: {buckets} buckets, {loose / 4:.2f} t" in text
    assert re.search(r"straw: [0-9.]+ kg, [0-9]+ bales", text)


def test_the_figures_that_quantities_are_counted_with_are_printed_and_can_be_set(project: Write) -> None:
    """A loose volume of 20 ft x 8 ft x 16 in times 1.5 and 1.2; the bucket holds 20 L by its own label."""
    text = " ".join(pages(project, "M1", head=sound()).split())
    assert (
        "Counted with buckets of 18.9 L, 1.3 volumes of loose soil and sand for each of wall, 10 % waste, bales of"
        in text
    )
    assert "to be set under ordering: in project.yaml: bucket, loose_for_wall, waste, bale." in text
    own = "ordering: {bucket: 20 L, loose_for_wall: 1.5, waste: 20 %, bale: 15 kg}\n"
    text = " ".join(pages(project, "M1", head=sound() + own).split())
    assert "buckets of 20 L, 1.5 volumes of loose soil and sand for each of wall, 20 % waste, bales of 15 kg." in text
    assert "Common practice, to be set" not in text
    assert f"S1: {math.ceil(20 * 8 * 16 / 12 * 0.3048**3 * 1.5 * 1.2 / 4 / 0.020)} buckets" in text


def test_a_soil_graded_by_weight_without_density_is_not_held_against_parts_by_volume(project: Write) -> None:
    soil = "S1: {name: clay, clay: 60 %, sand: 20 %, silt: 20 %}"
    head = "\n".join(f"  {soil}" if line.startswith("  S1:") else line for line in sound().splitlines()) + "\n"
    text = " ".join(pages(project, "M1", head=head).split())
    assert "Target cob:" not in text and "Target cob-sand-whole" not in text
    assert "not compared with cob-sand-whole: its parts are by volume, and the shares of S1 are by dry weight" in text


def test_a_soil_without_shares_stops_the_blend_and_not_the_count(project: Write) -> None:
    head = sound().replace("  S3: {name: sand, material: sand, clay: 0 %,", "  S3: {name: sand, material: sand,")
    text = pages(project, "M1", head=head)
    assert "S3: its shares of clay, silt and sand are not known" in text
    assert "  Target" not in text and "buckets" in text


def test_a_target_that_does_not_fit_gives_way_to_one_that_does(project: Write) -> None:
    """Sand that nobody parted into coarse and fine cannot be held against a target that parts them."""
    head = sound().replace("fine_sand: 0 %, coarse_sand: 100 %, ", "")
    assert "Target cob-sand-whole" in pages(project, "M1", head=head)
    text = pages(project, "M1", "cob", head=head)
    assert "not compared with cob" in text and "Target cob:" not in text
    assert "Target cob-with-gravel" in pages(project, "M1", "cob-with-gravel", head=head)


def test_every_mix_without_a_mark(project: Write) -> None:
    text = pages(project, head=sound())
    assert "Mix M1: plain" in text and "Mix M2: bare" in text


@pytest.mark.parametrize(
    ("mix", "target", "said"),
    [("M9", None, "no mix or trial 'M9'"), ("m1", None, "did you mean M1?"), ("M1", "cobb", "did you mean cob?"),
     ("M1", "clay", "known: cob")],
)  # fmt: skip
def test_what_is_not_there_is_said(project: Write, mix: str, target: str | None, said: str) -> None:
    with pytest.raises(BlendError, match=re.escape(said)):
        pages(project, mix, target, head=sound())


def test_a_project_without_mixes(project: Write) -> None:
    head = sound()[: sound().index("mixes:")]
    with pytest.raises(BlendError, match="no mix"):
        pages(project, head=head, walls=WALLS.replace(", mix: M1", ""))


def test_the_command_prints_and_leaves_with_its_codes(project: Write) -> None:
    done = run("blend", EXAMPLE, "M1")
    assert done.returncode == 0 and done.stdout.startswith("Mix M1:") and done.stdout.endswith("retested.\n")
    assert max(map(len, done.stdout.splitlines())) <= 100
    unknown = run("blend", EXAMPLE, "M7")
    assert unknown.returncode == 2 and "known: M1, M2" in unknown.stderr and unknown.stdout == ""
    broken = run("blend", project(text=WALLS, head=HEAD))
    assert broken.returncode == 2 and "mark-unknown" in broken.stderr and "Traceback" not in broken.stderr
