"""PDF: page size, searchable text, arcs, true size, by a reader that did not write it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilegen.drawing.lettering import lacks, text_width
from profilegen.drawing.marks import Sheet, Text
from profilegen.geometry.chain import chain, circle
from profilegen.output.arcs import cubics, steps
from profilegen.output.pdf import ARC_ERROR, pdf_bytes
from tests.output.pages import bar_length, page, pdf_picture


@contextmanager
def opened(data: bytes) -> Iterator[pypdfium2.PdfDocument]:
    """A PDF as an outside reader sees it."""
    document = pypdfium2.PdfDocument(data)
    try:
        yield document
    finally:
        document.close()


@pytest.mark.parametrize(("width", "height"), [(210.0, 297.0), (215.9, 279.4), (297.0, 210.0)])
def test_page_is_exact(width: float, height: float) -> None:
    """The page is as large as the sheet, to 0.01 mm."""
    with opened(pdf_bytes([Sheet(width, height, ())])) as document:
        size = [points / 72 * 25.4 for points in document[0].get_size()]
    assert size == pytest.approx([width, height], abs=0.01)


@pytest.mark.parametrize("upright", [False, True])
def test_bar_measures_100_mm(upright: bool) -> None:
    """The 100 mm bars are 100 mm to 0.1 mm in a picture by an outside renderer."""
    assert bar_length(pdf_picture(page()), upright) == pytest.approx(100.0, abs=0.1)


def test_text_can_be_searched() -> None:
    """Texts are text, markup, signs and all, and the title is the document's."""
    with opened(pdf_bytes([page()])) as document:
        said = document[0].get_textpage().get_text_range()
        title = document.get_metadata_dict()["Title"]
    assert "Ø 38 ±0.02, 12° 30′ <&\"> 'Žč'" in said
    assert title == 'Ratchet <&"> no. 1'


def test_text_is_as_wide_as_measured() -> None:
    """From the first letter to the last one the PDF goes as far as the lettering says."""
    for bold in (False, True):
        text = Text(20 + 100j, "HØ1.5°" * 16 + "H", 2.0, bold=bold)
        with opened(pdf_bytes([Sheet(210, 297, (text,))])) as document:
            textpage = document[0].get_textpage()
            first, last = (textpage.get_charbox(k)[0] / 72 * 25.4 for k in (0, 96))
        assert last - first == pytest.approx(text_width("HØ1.5°" * 16, 2.0, bold), abs=0.01)


def test_missing_letters_take_the_same_room() -> None:
    """A letter that the face lacks takes the room in a PDF that the lettering counts for it."""
    assert lacks("🙂") == ("🙂",)
    texts = (
        Text(20 + 100j, "🙂" * 30 + "H", 3.5),
        Text(20 + text_width("🙂" * 30, 3.5) + 90j, "H", 3.5),
    )
    with opened(pdf_bytes([Sheet(210, 297, texts)])) as document:
        textpage = document[0].get_textpage()
        said = textpage.get_text_range()
        lefts = [
            textpage.get_charbox(k)[0]
            for k in range(textpage.count_chars())
            if textpage.get_text_range(k, 1) == "H"
        ]
    assert said.count("H") == 2
    assert lefts[0] == pytest.approx(lefts[1], abs=0.02)


def test_pages_in_order() -> None:
    """Several sheets become as many pages, each with its own size."""
    with opened(pdf_bytes([Sheet(210, 297, ()), Sheet(279.4, 215.9, ())])) as document:
        sizes = [document[k].get_width() for k in range(len(document))]
    assert sizes == pytest.approx([210 / 25.4 * 72, 279.4 / 25.4 * 72], abs=0.01)


def test_no_sheet_is_refused() -> None:
    """A PDF without a page is refused."""
    with pytest.raises(ValueError, match="at least one"):
        pdf_bytes([])


@settings(max_examples=30)
@given(st.text(max_size=30))
def test_any_words_make_a_file(words: str) -> None:
    """Any string at all can be a title and a text."""
    with opened(pdf_bytes([Sheet(210, 297, (Text(20 + 20j, words),), (), words)])) as document:
        assert len(document) == 1


@given(st.floats(0.001, 1.0), st.floats(0.1, 500.0), st.booleans())
def test_cubics_stay_on_their_arc(bulge: float, chord: float, clockwise: bool) -> None:
    """Cubic curves stand within 1e-5 mm of the arc for radii up to a metre."""
    curve = chain([0j, complex(chord)], [-bulge if clockwise else bulge])
    for step in steps(curve):
        at, share = step.start, np.linspace(0, 1, 21)
        sweep = 4 * math.atan(step.bulge)
        centre = (step.start + step.end) / 2 + 0.5j * (step.end - step.start) / math.tan(sweep / 2)
        for one, two, end in cubics(step, ARC_ERROR):
            z = (
                at * (1 - share) ** 3
                + 3 * one * share * (1 - share) ** 2
                + 3 * two * share**2 * (1 - share)
                + end * share**3
            )
            assert np.max(np.abs(np.abs(z - centre) - step.radius)) < ARC_ERROR + 1e-9
            at = end
        assert at == step.end


def test_half_turns_come_as_quarters() -> None:
    """A full circle is four quarter arcs whose points lie on it exactly."""
    found = list(steps(circle(3 + 4j, 5.0)))
    assert len(found) == 4
    assert [abs(step.end - (3 + 4j)) for step in found] == pytest.approx([5.0] * 4, abs=1e-12)
    assert [step.radius for step in found] == pytest.approx([5.0] * 4, abs=1e-12)
