"""A house from nothing to a draft submittal, as somebody does who never opens a file. All of it is invented."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from pathlib import Path

from PIL import Image

from compliance.record import record
from tests.desk.walkers import Walker

NAME, PLACE = "Reed Hollow House", "Quillmoor County"
SIZES = {"size_east": "32 ft", "size_north": "28 ft", "wing_south": "14 ft", "wing_west": "14 ft", "height": "8 ft",
         "thickness": "18 in", "roof": "framed 12 ft", "roof_walls": "W1, W3, W4, W6"}  # fmt: skip
ROUND_END = "36 ft 9 in, 6 ft 3 in"
"""Through which the east wall is bent: 6 ft 3 in out, half of its length, so that it is a half circle."""
LINTEL = {"lintel-material": "wood", "lintel-width": "12 in", "lintel-depth": "8 in", "lintel-bearing": "12 in"}
OPENINGS: dict[str, list[tuple[str, ...]]] = {
    "W1": [("window", "4 ft", "3 ft", "3 ft 6 in", "3 ft"), ("", "13 ft", "", "", ""), ("", "22 ft", "", "", "")],
    "W2": [("window", "8 ft", "2 ft 6 in", "3 ft", "3 ft 6 in")],
    "W4": [("door", "5 ft", "3 ft", "6 ft 8 in", "0 ft")],
    "W6": [("window", "6 ft", "3 ft", "3 ft 6 in", "3 ft"), ("", "16 ft", "", "", "")],
}
"""By wall: kind, start, width, height, sill; one that is like the first of its wall says its start alone."""
SOILS: dict[str, dict[str, str]] = {
    "S1": {"name": "pit clay", "material": "clay-subsoil", "place": "north side of the lot", "depth": "4 ft",
           "dug": "2026-08-02"},
    "S2": {"name": "river sand", "material": "sand", "place": "Ferris gravel yard", "depth": "", "dug": "2026-08-04"},
}  # fmt: skip
HAND_TESTS = {"S1": {"ribbon": "2 1/4 in"}, "S2": {"ribbon": "none"}}
JAR = {"sand": "2 in", "silt": "3 in", "clay": "4 1/2 in"}
PARTS = {"S1": "1", "S2": "2"}
LETTERHEAD = ("Tarn Road Testing, report 26-118\tinvented data", "Printed 10/20/2026", "")
HEADINGS = ("Specimen ID", "Date cast", "Date tested", "Width (in)", "Depth (in)", "Height (in)", "Max load, lbf",
            "Remarks")  # fmt: skip
ROWS = tuple(
    (f"R-{n}", "9/14/2026", "10/19/2026", "4.0", "4.0", "8.0", load, "")
    for n, load in enumerate(("2,310", "2,180", "2,265", "2,240", "2,205"), 1)
)
FOOTER = ("Mean\t\t\t\t\t\t2,240\t", "Signed: A. Tarn, for the laboratory")
TABLE = "\n".join([*LETTERHEAD, "\t".join(HEADINGS), *("\t".join(row) for row in ROWS), *FOOTER])
PHOTOS = (("pit_face.jpg", "Pit face", "soil S1"), ("jar_of_clay.jpg", "Jar of the pit clay", "soil S1: jar"),
          ("report.jpg", "Photo of the report", "set T1"))  # fmt: skip

PARTS_OF_THE_BUILDING: dict[str, tuple[str, dict[str, str]]] = {
    "stems": ("ST1", {"material": "stone", "thickness": "18 in", "above_grade": "12 in", "moisture_break": "slate"}),
    "footings": ("F1", {"kind": "concrete", "width": "24 in", "thickness": "10 in", "bottom": "24 in"}),
    "beams": ("B1", {"material": "wood", "width": "12 in", "depth": "6 in"}),
}  # fmt: skip
FILLED_IN = {
    "wall_types.outer.mix": "M1", "wall_types.outer.footing": "F1", "wall_types.outer.stem": "ST1",
    "wall_types.outer.beam": "B1", "wall_types.outer.top_restraint": "bond-beam", "roofs.R1.dead": "14 psf",
    "roofs.R1.live": "20 psf", "project.building_height": "13 ft", "site.wind_speed": "105 mph",
    "site.seismic_category": "B", "site.soil_bearing": "2000 psf", "site.frost_depth": "18 in",
    "roofs.R1.overhang": "24 in", "wall_types.outer.retains_soil": "no", "wall_types.outer.rain_exposed": "no",
    "project.use": "dwelling", "project.stories": "1",
}  # fmt: skip
ANSWERED = ("straw-dry-and-sound", "lifts-bonded", "dry-joints-wetted", "dry-before-roof", "exposed-tops",
            "frame-anchorage", "embedded-items", "point-loads-spread", "roof-connection", "surface-water")  # fmt: skip
WHO = "Ana Diaz"
LIMITS = {
    "cob-irc-2021-au/building-height-most/maximum": "20 ft",
    "cob-irc-2021-au/stories-most/maximum": "1",
    "cob-irc-2021-au/stem-height/minimum": "8 in",
    "irc-2021-soil-and-footings/footing-width-least/minimum": "12 in",
}


@record
class House:
    """What of it somebody describes."""

    openings: Mapping[str, Sequence[tuple[str, ...]]]
    soils: Mapping[str, Mapping[str, str]]
    parts_of_the_building: Mapping[str, tuple[str, Mapping[str, str]]]
    filled_in: Mapping[str, str]
    photos: Sequence[tuple[str, str, str]]
    answered: Sequence[str]
    limits: Mapping[str, str]


WHOLE = House(
    OPENINGS, SOILS, parts_of_the_building=PARTS_OF_THE_BUILDING, filled_in=FILLED_IN, photos=PHOTOS,
    answered=ANSWERED, limits=LIMITS,
)  # fmt: skip
SHORT = House(
    {"W1": OPENINGS["W1"][:2]},
    {"S1": SOILS["S1"]},
    parts_of_the_building={"stems": PARTS_OF_THE_BUILDING["stems"]},
    filled_in={path: FILLED_IN[path] for path in ("wall_types.outer.mix", "wall_types.outer.stem", "roofs.R1.dead")},
    photos=PHOTOS[:1],
    answered=ANSWERED[:2],
    limits=dict([*LIMITS.items()][:1]),
)


def photo(path: Path, shade: int) -> Path:
    out = io.BytesIO()
    Image.new("RGB", (48, 32), (161, 67, shade)).save(out, "JPEG")
    path.write_bytes(out.getvalue())
    return path


def begin(walker: Walker) -> None:
    walker.page.wait_for_url("**/begin")
    walker.write("#answer-name", NAME)
    walker.write("#answer-place", PLACE)
    walker.choose("#answer-rule_sets", "us-cob")
    walker.choose("#shape", "L")
    walker.button("Continue to its sizes")
    for key, text in SIZES.items():
        walker.write(f"#answer-{key}", text)
    walker.choose("#answer-site.soil_group", "SM")
    walker.button("Begin the project")
    walker.page.wait_for_url("**/plan")


def draw(walker: Walker, house: House) -> None:
    """The round end, then the openings."""
    walker.link("W2, east wall")
    walker.open("#curve-W2")
    walker.write("#through-W2", ROUND_END)
    walker.button("Make it a curve")
    for wall, openings in house.openings.items():
        walker.go(walker.page.locator(f"main .walls a[href='/plan?wall={wall}']"))
        first = ""
        for number, (kind, *sizes) in enumerate(openings, 1):
            new = f"#new-walls-{wall}-openings"
            if kind:
                first = f"N{number}"
                walker.open(f"#add-walls-{wall}-openings")
                walker.choose(f"{new}-kind", kind)
                for name, text in zip(("start", "width", "height", "sill"), sizes, strict=True):
                    walker.write(f"{new}-{name}", text)
                for name, text in LINTEL.items():
                    (walker.choose if name == "lintel-material" else walker.write)(f"{new}-{name}", text)
            else:
                walker.open(f"#openings-{first}")
                walker.link(f"One more like {first}")
                walker.write(f"{new}-start", sizes[0])
            walker.button("Add the opening")


def describe_earth(walker: Walker, house: House) -> None:
    walker.link("Earth")
    for fields in house.soils.values():
        walker.open("details:has-text('Add a soil')")
        for name, text in fields.items():
            if text:
                (walker.choose if name == "material" else walker.write)(f"#add-soils-{name}", text)
        walker.button("Add the soil")
    walker.go(walker.page.locator("main a[href='/earth/soils/S1']"))
    for name, text in JAR.items():
        walker.write(f"#jar-{name}", text)
    walker.button("Save the jar")
    for mark in house.soils:
        if mark != "S1":
            walker.link("All of the earth")
            walker.go(walker.page.locator(f"main a[href='/earth/soils/{mark}']"))
        for kind, reading in HAND_TESTS[mark].items():
            if reading[0].isdecimal():
                walker.write(f"#{kind}-length", reading)
            else:
                walker.tick(f"#{kind}-{reading}")
        walker.write("#hand-by", "Ana Diaz")
        walker.button("Save the hand tests")
    walker.link("All of the earth")
    walker.open("details:has-text('Add a mix')")
    for mark in house.soils:
        walker.write(f"#add-mixes-parts.{mark}", PARTS[mark])
    walker.write("#add-mixes-name", "wall mix")
    walker.choose("#add-mixes-form", "cob")
    walker.choose("#add-mixes-straw", "wheat")
    walker.write("#add-mixes-straw_parts", "0.6")
    walker.choose("#add-mixes-stabilised", "no")
    walker.button("Add the mix")


def describe_parts(walker: Walker, house: House) -> None:
    walker.link("Parts")
    for section, (_, fields) in house.parts_of_the_building.items():
        walker.open(f"#add-{section}")
        for name, text in fields.items():
            (walker.choose if name in ("material", "kind", "moisture_break") else walker.write)(
                f"#new-{section}-{name}", text
            )
        walker.go(walker.find(f"#add-{section}").get_by_role("button"))
    walker.link("Answer")
    walker.link("Fill in all of these on one page")
    for path, text in house.filled_in.items():
        target = walker.find(f"#field-{path}")
        is_list = target.evaluate("one => one.tagName") == "SELECT"
        (walker.choose if is_list else walker.write)(f"#field-{path}", text)
    walker.button("Save what was filled in")


def take_in_tests(walker: Walker) -> None:
    walker.link("Tests")
    walker.choose("#paste-kind", "compression")
    walker.write("#paste-name", "tarn road report")
    walker.write("#paste-table", TABLE)
    walker.button("Match its headings")
    walker.choose("#every-dried", "air")
    walker.choose("#every-shape", "prism")
    walker.write("#new-set", "T1")
    walker.choose("#new-mix", "M1")
    walker.button("Show the result")
    walker.button("Keep the table")


def attach_photos(walker: Walker, house: House, folder: Path) -> None:
    walker.link("Photos and papers")
    for shade, (name, title, tie) in enumerate(house.photos):
        walker.attach("#drop-file", photo(folder / name, shade))
        walker.write("#new-title", title)
        walker.choose("#new-tie", tie)
        walker.button("Keep it")


def answer_questions(walker: Walker, house: House) -> None:
    walker.link("Questions")
    walker.link("Ask those of later stages too")
    walker.write("#by", WHO)
    for name in house.answered:
        walker.choose(f"#all:{name}", "no")
    walker.button("Save the answers")


def read_limits(walker: Walker, house: House) -> None:
    walker.link("Limits")
    walker.write("#by", WHO)
    for name, text in house.limits.items():
        walker.write(f"#{name}/value", text)
    walker.button("Save the limits that were read")


def make_the_draft(walker: Walker) -> str:
    """The address of the first part of the submittal."""
    walker.link("Papers")
    walker.button("Make: Submittal, draft")
    made = walker.page.locator("main a[href*='submittal']").first
    made.wait_for(timeout=120_000)
    return str(made.get_attribute("href"))
