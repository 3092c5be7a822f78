"""The set-up sheet and the template: nothing on another thing, nothing off the page, bars true.

Page sizes: ISO 216 (A4) and ANSI Y14.1 (8.5 by 11 in). The rest is common practice, no published
source.
"""

from __future__ import annotations

import html
import io
import re
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
import pypdfium2
import pytest
import resvg_py
from PIL import Image

from profilegen.drawing.boxes import Box
from profilegen.drawing.layout import overlaps
from profilegen.drawing.marks import Sheet, Text
from profilegen.findings.telling import told
from profilegen.job import Job
from profilegen.output.pdf import pdf_bytes
from profilegen.output.svg import svg_bytes
from profilegen.sheets.setup_sheet import setup_sheets
from profilegen.sheets.template import template
from profilegen.topics.sheet_words import sections
from profilegen.topics.topic import Pair, written
from profilegen.views import stop_grid
from profilegen.views.key_picture import key_picture
from tests.parts import Keys, double, job, part, ratchet, single, vee
from tests.sheets.written import labels

MADE: dict[str, Job] = {
    "hooked, square bore": job(
        ratchet(hook_angle=5), vee(60), bore={"kind": "square", "across_flats": 6}
    ),
    "from above, head right": job(
        ratchet(hook_angle=5), single(45), setup={"cutter_side": "above", "head": "right"}
    ),
    "six teeth, hexagon": job(
        ratchet(teeth=6, outside_diameter=60, land=16, space_angle=85, hook_angle=-5),
        vee(60),
        bore={"kind": "hexagon", "across_flats": 20, "corner_radius": 1},
        setup={"cutter_side": "in front"},
    ),
    "a thousand teeth": job(
        ratchet(teeth=1000, outside_diameter=600, land=0.5),
        double(12, 48),
        bore={"kind": "round", "diameter": 40},
    ),
    "tiny, with a hub": job(
        ratchet(teeth=24, outside_diameter=6, land=0.12, thickness=1, root_radius=0.05),
        vee(60, tip_radius=0.05),
        bore={"kind": "d-bore", "diameter": 2, "flat_to_far_side": 1.7},
        hub={"diameter": 4, "length": 2, "side": "front"},
    ),
    "no cutter": job(ratchet(teeth=24, space_angle=90, land=1)),
    "refused cutter": job(ratchet(), vee(75)),
    "inches, two laps": job(
        {
            "kind": "ratchet",
            "teeth": 48,
            "outside_diameter": 2.5,
            "thickness": 0.1875,
            "tooth_depth": 0.085,
            "land": 0.02,
            "root_radius": 0.01,
            "rotation": "counter-clockwise",
        },
        {"name": "single", "kind": "single-angle", "angle": 45, "tip_radius": 0.008},
        units="in",
        bore={"kind": "keyed", "diameter": 0.5, "key_width": 0.125, "key_depth": 0.06},
        holes=[{"count": 6, "circle_diameter": 1.5, "diameter": 0.1875}],
    ),
    "three laps, measured blank, dials, many passes": job(
        ratchet(),
        single(25, body_width=6, sweep_diameter=40, teeth=1),
        blank={"diameter": 25.3, "bar_diameter": 30},
        material="brass",
        setup={
            "centre_height": 110,
            "edge_finder": 10,
            "feeler": 0.05,
            "roughing_passes": 25,
            "dials": {
                "z": {"division": 0.02, "increases": "down"},
                "y": {"division": "0.001 in", "reads": "diameter"},
            },
        },
    ),
    "markup in the title": job(ratchet(), vee(60)),
}


@cache
def pages(name: str) -> tuple[Sheet, ...]:
    """Every page that is made for one job, the template last."""
    return (*setup_sheets(MADE[name]), template(MADE[name]))


@pytest.mark.parametrize("name", ["inches, two laps", "tiny, with a hub"])
def test_what_is_written_is_what_the_svg_names(name: str) -> None:
    """The labels that its lettering carries are the texts of the marks, in order."""
    for sheet in pages(name):
        named = re.findall(r'aria-label="([^"]*)"', svg_bytes(sheet).decode())
        assert [html.unescape(label) for label in named] == labels(sheet)


@pytest.mark.parametrize("name", MADE)
def test_no_label_on_another_and_none_off_the_page(name: str) -> None:
    """Labels keep clear of each other and stay on the page."""
    for sheet in pages(name):
        page = Box(0, 0, sheet.width, sheet.height)
        assert overlaps(sheet.boxes) == ()
        assert all(page.holds(box) for box in sheet.boxes)


@pytest.mark.parametrize("name", MADE)
def test_nothing_is_cut_off(name: str) -> None:
    """No label ends in the dots of one that was cut to fit; dotted lines to write on are none."""
    said = [label for sheet in pages(name) for label in labels(sheet)]
    assert [label for label in said if label.endswith("…") and label.strip("…")] == []


@pytest.mark.parametrize("name", MADE)
def test_all_headings_stand_on_the_first_page(name: str) -> None:
    """The fixed headings are there, each once."""
    said = labels(pages(name)[0])
    headings = [one.heading for one in sections(MADE[name])]
    assert [said.count(heading) for heading in headings] == [1] * 11


def test_every_stop_stands_on_the_sheet() -> None:
    """Each stop has its label, on the first page or on those behind it."""
    for name, made in MADE.items():
        said = [label for sheet in pages(name)[:-1] for label in labels(sheet)]
        stops = [label for label in said if re.fullmatch(r"\d+ +\d+\.\d{3}", label)]
        assert len(stops) == len(made.index.stops)


def test_dials_are_on_the_sheet_with_their_datum() -> None:
    """Offset and both infeeds stand behind the words that say from where they count."""
    made = MADE["hooked, square bore"]
    said, figures = labels(pages("hooked, square bore")[0]), made.part.figures
    (cut,) = made.plan.cuts
    lines = [line for section in written(sections(made), figures) for line in section.lines]
    rows = [line for line in lines if isinstance(line, Pair)]
    for words, value in (
        ("Apex off the axis, down", cut.offset),
        ("Infeed from the top zero", cut.infeed_from_top),
        ("Infeed from the offset zero", cut.infeed_from_offset),
    ):
        (row,) = (row for row in rows if row.label == words)
        assert row.value == figures.both(value)
        assert row.value in said


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("hooked, square bore", 210.0, 297.0), ("inches, two laps", 215.9, 279.4)],
)
def test_paper_suits_the_unit(name: str, width: float, height: float) -> None:
    """A4 for millimetres, Letter for inches, in the SVG's root and in the PDF's page."""
    sheet = pages(name)[0]
    root = svg_bytes(sheet).decode()
    assert f'width="{width:g}mm"' in root
    assert f'viewBox="0 0 {width:g} {height:g}"' in root
    page = pypdfium2.PdfDocument(pdf_bytes([sheet]))[0]
    assert page.get_width() / 72 * 25.4 == pytest.approx(width, abs=0.01)
    assert page.get_height() / 72 * 25.4 == pytest.approx(height, abs=0.01)


def dark(sheet: Sheet, dots_per_inch: int = 300) -> Any:
    """The sheet as a picture of dark dots, row 0 at the top."""
    png = bytes(resvg_py.svg_to_bytes(svg_string=svg_bytes(sheet).decode(), dpi=dots_per_inch))
    return np.asarray(Image.open(io.BytesIO(png)).convert("L")) < 128


@pytest.mark.parametrize(
    ("units", "long", "name"), [("mm", 100.0, "100 mm"), ("in", 101.6, "4 in")]
)
def test_check_bars_have_their_length_on_the_raster(units: str, long: float, name: str) -> None:
    """The distance of the end ticks of both bars, measured in dots, is 100 mm, or on papers in
    inches 4 in, within 0.1 mm; the words say so."""
    wheel = ratchet() if units == "mm" else ratchet(outside_diameter=1, thickness=0.12, land=0.016)
    sheet = template(job({**wheel, "root_radius": 0.008}, units=units))
    said = labels(sheet)
    assert {f"{name} across", f"{name} up"} <= set(said)
    assert any(f"this bar is {name}: measure it" in one for one in said)
    picture, mm = dark(sheet), 25.4 / 300
    row = picture[round((sheet.height - 16.0 - 1.5) / mm)]
    across = np.flatnonzero(row)
    assert (across[-1] - across[0]) * mm == pytest.approx(long, abs=0.2)
    ends = [np.mean(group) for group in np.split(across, np.flatnonzero(np.diff(across) > 1) + 1)]
    assert (ends[-1] - ends[0]) * mm == pytest.approx(long, abs=0.1)
    column = np.flatnonzero(picture[:, round((14.0 - 1.5) / mm)])
    ends = [np.mean(group) for group in np.split(column, np.flatnonzero(np.diff(column) > 1) + 1)]
    assert (ends[-1] - ends[0]) * mm == pytest.approx(long, abs=0.1)


def test_template_is_true_to_size() -> None:
    """The wheel on the template measures its outside diameter on the raster, within a hairline."""
    made = MADE["hooked, square bore"]
    sheet = template(made)
    picture, mm = dark(sheet), 25.4 / 300
    only = [mark for mark in sheet.marks if getattr(mark, "name", "") in ("paper", "part")]
    drawn = dark(Sheet(sheet.width, sheet.height, tuple(only)))
    assert picture.shape == drawn.shape
    rows, columns = np.nonzero(drawn)
    assert (columns.max() - columns.min()) * mm == pytest.approx(25.4, abs=0.2)
    assert (rows.max() - rows.min()) * mm == pytest.approx(25.4, abs=0.2)


def test_template_words_say_how_to_print() -> None:
    """The words tell to print at 100 % and to measure the bar."""
    said = " ".join(labels(pages("no cutter")[-1]))
    assert "Print at 100 %" in said
    assert "this bar is 100 mm: measure it" in said
    assert "not for measuring teeth" in said


@pytest.mark.parametrize(
    ("diameter", "width"), [(25.4, 210.0), (185.0, 297.0), (600.0, 841.0), (1500.0, 1560.0)]
)
def test_a_big_wheel_takes_bigger_paper(diameter: float, width: float) -> None:
    """The template is never cut off: the next ISO size, or a page of its own size."""
    sheet = template(job(ratchet(teeth=60, outside_diameter=diameter, land=0.01 * diameter)))
    assert sheet.width == pytest.approx(width)


def test_key_picture_names_every_size_of_the_wheel() -> None:
    """The starter's picture writes keys where the sheet writes figures."""
    plain = part(ratchet(), bore={"kind": "square", "across_flats": 6})
    sheet = key_picture(plain)
    said = labels(sheet)
    wanted = ("outside_diameter", "thickness", "land", "space_angle", "hook_angle")
    for key in wanted:
        assert key in said
    assert any("root_diameter" in label for label in said)
    assert overlaps(sheet.boxes) == ()


def test_same_input_same_bytes() -> None:
    """Two builds of one sheet are one file."""
    made = MADE["hooked, square bore"]
    assert svg_bytes(setup_sheets(made)[0]) == svg_bytes(setup_sheets(made)[0])
    assert pdf_bytes(setup_sheets(made)) == pdf_bytes(setup_sheets(made))


def test_the_second_page_has_zeros_passes_and_what_must_be_held() -> None:
    """With a cut there is a page of dial moves, passes and setting accuracies; without one none."""
    said = labels(pages("hooked, square bore")[1])
    for heading in ("Zeros, and where to go from each", "Pass by pass", "First and last"):
        assert heading in said
    assert len(pages("no cutter")[:-1]) == 1


def test_a_refused_set_up_says_so_at_the_head_of_every_page() -> None:
    """The words stand framed over everything else, with the reason; a good sheet has none."""
    warning = "NOT TO BE CUT AS IT STANDS: "
    refused = MADE["refused cutter"]
    (why,) = (told(found) for found in refused.findings if found.severity == "refused")
    for sheet in pages("refused cutter")[:-1]:
        texts = [mark for mark in sheet.marks if isinstance(mark, Text)]
        (head,) = (text for text in texts if text.string.startswith(warning))
        assert head.bold
        assert all(text.at.imag <= head.at.imag for text in texts)
        said = " ".join(text.string for text in texts if text.bold)
        assert f"{warning}{why}." in said
    assert not any(warning in label for label in labels(pages("no cutter")[0]))


@pytest.mark.parametrize(
    ("teeth", "cut"),
    [
        (2, "Cut both spaces short of depth and measure the two lands"),
        (3, "Cut all three spaces short of depth and measure the three lands"),
        (4, "Cut three neighbouring spaces short of depth and measure the two lands"),
    ],
)
def test_trial_cuts_are_asked_of_spaces_that_there_are(teeth: int, cut: str) -> None:
    """A wheel of few teeth is not told to cut more spaces than it has."""
    wheel = ratchet(teeth=teeth, outside_diameter=40, land=None, tooth_depth=3, space_angle=90)
    made = job(wheel, vee(90))
    said = {
        section.heading: section.lines for section in written(sections(made), made.part.figures)
    }
    assert str(said["Trial cuts"][0]).startswith(cut)


def test_trial_rows_step_by_the_infeed_dial() -> None:
    """With a dial the rows go in its whole divisions, to one step too deep."""
    dials = {"y": {"division": 0.02}}
    said = labels(setup_sheets(job(ratchet(), vee(60), setup={"dials": dials}))[0])
    steps = [label for label in said if label.endswith((" to go", " too deep"))]
    wanted = ["0.240", "0.160", "0.080", "0.040", "0.000"]
    assert steps == [*(f"{step} mm to go" for step in wanted), "0.040 mm too deep"]


def sixteen(*cutters: Keys, **tables: Any) -> Job:
    """A ratchet of 16 teeth with a square bore."""
    wheel = ratchet(teeth=16, outside_diameter=40, land=None, tooth_depth=4, hook_angle=5)
    return job(wheel, *cutters, bore={"kind": "square", "across_flats": 6}, **tables)


@pytest.mark.parametrize("head", ["left", "right"])
@pytest.mark.parametrize("front", ["free end", "head"])
@pytest.mark.parametrize("side", ["above", "behind", "in front"])
def test_every_lap_has_its_set_up_view(side: str, front: str, head: str) -> None:
    """The first lap stands on the first page, the second on one behind it, with its settings."""
    made = sixteen(single(40), setup={"cutter_side": side, "front": front, "head": head})
    figures, (first, *rest) = made.part.figures, setup_sheets(made)
    behind = [label for sheet in rest for label in labels(sheet)]
    for said, cut in zip((labels(first), behind), made.plan.cuts, strict=True):
        title = f"from the free end towards the head; lap {cut.lap}, the {cut.forms}s"
        assert said.count(title) == 1
        assert f"offset {figures.size(abs(cut.offset))}" in said
        assert f"infeed {figures.size(cut.infeed_from_offset)}" in said
    for sheet in (first, *rest):
        assert overlaps(sheet.boxes) == ()


KEYED: Keys = {"kind": "keyed", "diameter": 8, "key_width": 2, "key_depth": 1}


@pytest.mark.parametrize("cutter", [vee(), single(40)])
@pytest.mark.parametrize("teeth", [16, 60, 200])
@pytest.mark.parametrize("bore", [{"kind": "square", "across_flats": 6}, KEYED])
def test_the_bore_comes_last(bore: Keys, teeth: int, cutter: Keys) -> None:
    """How it is made stands behind laps and stops, and on nothing: on the last page, with the
    picture of its first place, few stops or many."""
    wheel = ratchet(teeth=teeth, outside_diameter=120, land=0.5, hook_angle=5)
    made = job(wheel, cutter, bore=bore, dividing={"kind": "motor", "steps": 12000})
    first, *rest = setup_sheets(made)
    said = [" ".join(labels(sheet)) for sheet in rest]
    assert "from above, the free end up" in said[-1]
    assert not any("from above, the free end up" in one for one in said[:-1])
    assert "on the last page of the PDF." in " ".join(labels(first))
    assert "on the cutter line" in said[-1]
    assert "locked against turning" in said[-1]
    for sheet in (first, *rest):
        assert overlaps(sheet.boxes) == ()
        page = Box(0, 0, sheet.width, sheet.height)
        assert all(page.holds(box) for box in sheet.boxes)


@pytest.mark.parametrize("teeth", [14, 16, 20, 24])
def test_few_stops_stay_on_the_first_page_of_letter_paper(teeth: int) -> None:
    """Before the stops move to a further page the pictures give way a little."""
    wheel = ratchet(teeth=teeth, outside_diameter=40, land=None, tooth_depth=3, hook_angle=3)
    made = job(wheel, vee(60), bore={"kind": "square", "across_flats": 6, "corner_radius": 0.3})
    first, *_ = setup_sheets(made, "Letter")
    assert (
        len([label for label in labels(first) if re.fullmatch(r"\d+ +\d+\.\d{3}", label)]) == teeth
    )


@pytest.mark.parametrize(
    ("dividing", "unit"),
    [
        (None, "degrees from stop 1"),
        ({"kind": "plate", "holes": 240}, "hole numbers, from hole 0 at stop 1"),
        ({"kind": "motor", "steps": 12000}, "steps from stop 1"),
    ],
)
@pytest.mark.parametrize("teeth", [12, 120])
def test_the_stops_are_told_with_their_unit(teeth: int, dividing: Keys | None, unit: str) -> None:
    """On the first page the words say what the figures are, on a further one their heading."""
    wheel = ratchet(teeth=teeth, outside_diameter=60, land=None, tooth_depth=0.8)
    made = job(wheel, vee(60), **({"dividing": dividing} if dividing else {}))
    first, *rest = setup_sheets(made)
    said = " ".join(labels(first)).replace("  ", " ")
    if teeth == 12:
        assert f"Tick them below: {unit}." in said
    else:
        assert f"Tick them on a later page of the PDF: {unit}." in said
        assert f"Stops: {unit}" in [label for sheet in rest for label in labels(sheet)]


def test_no_lap_begins_at_the_foot_of_a_column() -> None:
    """The heading of a lap stands over the first of its stops."""
    for teeth in range(2, 40):
        stops = tuple(f"{n}  0.000" for n in range(1, teeth + 1))
        grid = stop_grid.grid(("lap 1", *stops, "lap 2", *stops), 2.0, 100j, 90.0)
        texts = [mark for mark in grid.marks if isinstance(mark, Text)]
        for head, stop in pairwise(texts):
            if head.bold:
                assert (stop.string[0], stop.at.real > head.at.real) == ("1", True)
                assert stop.at.real - head.at.real < 5.0
        assert overlaps(grid.boxes) == ()
        high = stop_grid.height(("lap 1", *stops, "lap 2", *stops), 2.0, 90.0)
        assert all(0.0 <= 100.0 - box.y0 <= high for box in grid.boxes)


@pytest.mark.parametrize("passes", range(1, 19))
def test_tables_of_any_length_leave_whole_pages(passes: int) -> None:
    """However far down the tables end, the words stand below or on a page of their own."""
    made = job(
        ratchet(teeth=24, outside_diameter=45, land=0.5, hook_angle=10),
        single(45, body_width=12, sweep_diameter=40, teeth=16),
        blank={"diameter": 44.9, "bar_diameter": 45},
        setup={"centre_height": 110, "edge_finder": 10, "roughing_passes": passes},
    )
    for sheet in setup_sheets(made)[1:]:
        assert overlaps(sheet.boxes) == ()
        assert all(Box(0, 0, sheet.width, sheet.height).holds(box) for box in sheet.boxes)
