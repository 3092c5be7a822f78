"""SVG: read as XML and as a picture by readers that did not write it."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import profilegen
from profilegen.drawing.lettering import clean, outline
from profilegen.drawing.marks import Sheet, Text, line, stroke
from profilegen.geometry.chain import chain, circle
from profilegen.output.svg import svg_bytes
from tests.output.pages import bar_length, page, pdf_picture, svg_picture

RATCHET = Path(__file__).parents[2] / "templates" / "examples" / "take-up-ratchet.toml"

NAME = "{http://www.w3.org/2000/svg}"


def tree(sheet: Sheet) -> ElementTree.Element:
    """The root of a sheet's SVG as an outside parser reads it."""
    return ElementTree.fromstring(svg_bytes(sheet))


def test_root_is_in_millimetres() -> None:
    """Width, height and viewBox are the same mm numbers, and no pixel is spoken of."""
    root = tree(Sheet(215.9, 279.4, ()))
    assert (root.get("width"), root.get("height")) == ("215.9mm", "279.4mm")
    assert root.get("viewBox") == "0 0 215.9 279.4"
    assert b"px" not in svg_bytes(page())


def test_only_plain_paths() -> None:
    """A sheet is paths, and characters used where they stand: no style, transform, marker."""
    root = tree(page())
    kinds = {element.tag.removeprefix(NAME) for element in root.iter()}
    assert kinds == {"svg", "title", "defs", "path", "g", "use"}
    attributes = {
        "path": {"d", "id", "fill", "fill-rule", "stroke", "stroke-width",
                 "stroke-dasharray"},
        "g": {"id", "aria-label", "role"},
        "use": {"x", "y", "{http://www.w3.org/1999/xlink}href"},
    }  # fmt: skip
    for kind, allowed in attributes.items():
        assert {key for each in root.iter(NAME + kind) for key in each.attrib} <= allowed


def test_a_character_and_a_word_are_drawn_once() -> None:
    """Characters and words of one size, face and direction are defined once, however often they
    stand."""
    twice = Sheet(50, 50, tuple(Text(complex(5, y), "noon noon") for y in (10, 20)))
    root = tree(twice)
    assert len(list(root.iter(f"{NAME}path"))) == len(set("no"))
    assert len(list(root.iter(f"{NAME}use"))) == len("noon") + 4


def test_the_set_up_sheet_is_a_small_file() -> None:
    """The sheet of the shipped ratchet stays under 0.2 MB."""
    assert len(profilegen.job_for(profilegen.load(RATCHET)).sheet("svg")) < 200_000


@pytest.mark.parametrize("size", [1.8, 10.5, 40.0])
@pytest.mark.parametrize("turn", [0.0, 0.5, np.pi / 2])
def test_lettering_is_the_outline(size: float, turn: float) -> None:
    """What is drawn is the outline of the text to a hundredth of a millimetre a step, each way."""
    text = Text(20 + 30j, "10.8 Ø %a88", size=size, turn=turn)
    root = tree(Sheet(200, 200, (text,)))
    defined = {element.get("id", ""): element for element in root.iterfind(f"{NAME}defs/*")}
    (group,) = root.findall(f"{NAME}g")
    drawn = [200j + end.conjugate() for end in _drawn(group, defined)]
    wanted = [points[-1] for _, points in outline(text) if points]
    assert np.abs(np.array(drawn) - np.array(wanted)).max() < 0.0213


def _drawn(element: ElementTree.Element, defined: dict[str, ElementTree.Element]) -> list[complex]:
    """Where every step of all that an element shows ends, in the frame of the SVG."""
    if element.tag == f"{NAME}path":
        return _ends(element.get("d") or "")
    if element.tag == f"{NAME}g":
        return [end for each in element for end in _drawn(each, defined)]
    at = complex(float(element.get("x", "0")), float(element.get("y", "0")))
    named = defined[element.get("{http://www.w3.org/1999/xlink}href", "")[1:]]
    return [at + end for end in _drawn(named, defined)]


def _ends(data: str) -> list[complex]:
    """Where every step of relative path data ends."""
    begin, at, ends = 0j, 0j, list[complex]()
    for verb, rest in re.findall(r"([mlqz])([^mlqz]*)", data):
        figures = [float(f) for f in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]
        if verb == "z":
            at = begin
            continue
        at += complex(*figures[-2:])
        begin = at if verb == "m" else begin
        ends.append(at)
    return ends


def test_colours_are_greys() -> None:
    """No hue: red, green and blue of every colour are equal."""
    for colour in re.findall(rb'"#(\w{6})"', svg_bytes(page())):
        assert colour[:2] == colour[2:4] == colour[4:]


def test_arcs_are_true_arcs() -> None:
    """A circle is four quarter arcs of its own radius, and counter-clockwise is flag 0."""
    path = tree(Sheet(100, 100, (stroke(circle(50 + 50j, 20.0)),))).find(f"{NAME}path")
    assert path is not None
    assert path.get("d") == (
        "M70 50 A20 20 0 0 0 50 30 A20 20 0 0 0 30 50 A20 20 0 0 0 50 70 A20 20 0 0 0 70 50 Z"
    )


def test_flat_arc_is_a_line() -> None:
    """An arc whose rise is lost in the rounding is written as a line, its radius never."""
    mark = stroke(chain([0j, 10 + 0j], [1e-6]))
    assert b"A" not in svg_bytes(Sheet(50, 50, (mark,))).split(b"<path")[1].split(b'"')[1]


def test_numbers_are_plain() -> None:
    """No exponent, no minus before zero, at most four decimals."""
    text = svg_bytes(Sheet(50, 50, (line(-1e-9 + 50j, 1 / 3 + 1e-7j),))).decode()
    assert 'd="M0 0 L0.3333 50"' in text


def test_strings_are_found_by_label() -> None:
    """The string of every text is its label, and the document's title its title."""
    root = tree(page())
    labels = [element.get("aria-label") for element in root.iter(f"{NAME}g")]
    assert "Ø 38 ±0.02, 12° 30′ <&\"> 'Žč'" in labels
    assert root.findtext(f"{NAME}title") == 'Ratchet <&"> no. 1'


def test_names_become_ids_and_ids_differ() -> None:
    """A named mark is found by its id; a name used twice gets a number."""
    twice = Sheet(50, 50, tuple(stroke(circle(9j, size), name="part") for size in (2.0, 3.0)))
    assert [e.get("id") for e in tree(twice).iter(f"{NAME}path")] == ["part", "part-2"]


@given(st.text(max_size=40), st.text(max_size=40))
def test_any_words_make_a_readable_file(title: str, words: str) -> None:
    """Markup, emoji, line breaks, control characters in titles and texts: still one XML file."""
    root = tree(Sheet(210, 297, (Text(20 + 20j, words),), (), title))
    assert (root.findtext(f"{NAME}title") or "") == clean(title)
    text = root.find(f"{NAME}g")
    assert text is None or text.get("aria-label") == clean(words)


def test_infinite_numbers_are_refused() -> None:
    """A place that is not finite never reaches a file."""
    with pytest.raises(ValueError, match="finite"):
        svg_bytes(Sheet(50, 50, (Text(complex("nan"), "x"),)))


@pytest.mark.parametrize("upright", [False, True])
def test_bar_measures_100_mm(upright: bool) -> None:
    """The 100 mm bars are 100 mm to 0.1 mm in a picture by an outside renderer."""
    assert bar_length(svg_picture(page()), upright) == pytest.approx(100.0, abs=0.1)


def test_two_renderers_agree() -> None:
    """The SVG and the PDF of one sheet, each by its own renderer, are the same picture."""
    one, two = svg_picture(page()), pdf_picture(page())
    rows, columns = (min(a, b) for a, b in zip(one.shape, two.shape, strict=True))
    assert abs(one.shape[0] - two.shape[0]) <= 1
    apart = np.abs(one[:rows, :columns] - two[:rows, :columns])
    ink = np.sum(255 - one)
    assert np.sum(apart) / ink < 0.10
    blur = [_mean(picture[:rows, :columns]) for picture in (one, two)]
    assert np.max(np.abs(blur[0] - blur[1])) < 40


def _mean(
    picture: np.ndarray[tuple[int, ...], np.dtype[np.float64]],
) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """The picture in squares of 12 dots, about a mm."""
    rows, columns = picture.shape[0] // 12, picture.shape[1] // 12
    squares = picture[: rows * 12, : columns * 12].reshape(rows, 12, columns, 12)
    return np.asarray(squares.mean(axis=(1, 3)))


def test_same_sheet_same_bytes() -> None:
    """The same sheet gives the same bytes in another process with another hash seed."""
    code = (
        "import sys; from tests.output.pages import page, svg_bytes, pdf_bytes;"
        "sys.stdout.buffer.write(svg_bytes(page()) + pdf_bytes([page()]))"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", code],
            check=True,
            capture_output=True,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(p for p in sys.path if p) or "."},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
