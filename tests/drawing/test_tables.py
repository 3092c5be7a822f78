"""Set text: wrapping, paragraphs, tables."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.layout import overlaps
from profilegen.drawing.lettering import clean, text_width
from profilegen.drawing.marks import Text
from profilegen.drawing.tables import (
    Column,
    Laid,
    bullets,
    fitted,
    heading,
    natural_widths,
    pairs,
    paragraph,
    table,
    wrap,
)

WORDS = st.text(st.sampled_from("abc deØ°W.i \n"), max_size=120)


@given(WORDS, st.floats(4, 80), st.booleans())
def test_no_line_is_wider_than_asked(string: str, width: float, bold: bool) -> None:
    """No wrapped line is wider than the width, and no letter is lost or moved."""
    lines = wrap(string, width, 2.5, bold)
    assert all(text_width(each, 2.5, bold) <= width + 1e-9 for each in lines)
    assert "".join(lines).replace(" ", "") == clean(string).replace(" ", "")


@given(st.text(max_size=60), st.floats(1, 50))
def test_any_string_wraps(string: str, width: float) -> None:
    """Any string at all wraps, into single characters at worst."""
    assert all(text_width(x, 2.5) <= width + 1e-9 or len(x) == 1 for x in wrap(string, width))


@given(st.text(max_size=40), st.floats(5, 60))
def test_fitted_text_fits(string: str, width: float) -> None:
    """A text made to fit is no wider than asked, and unchanged when it fitted before."""
    text = Text(0j, string, 5.0)
    small = fitted(text, width)
    assert text_width(small.string, small.size) <= width + 1e-9
    assert small is text or text_width(string, 5.0) > width


def test_paragraph_stays_in_its_height() -> None:
    """A paragraph hangs from its corner and stays within width and height it claims."""
    laid = paragraph(10 + 100j, "Jog the spindle by hand, quietly, before any cut.\nThen go.", 30)
    box = _around(laid)
    assert box.x0 >= 10
    assert box.x1 <= 40 + 1e-9
    assert box.y1 <= 100 + 0.05 * 2.5  # ascenders rise a little over capitals
    assert box.y0 >= 100 - laid.height
    assert overlaps(laid.block.boxes) == ()


def test_table_cells_never_overlap() -> None:
    """Cells wrap into their own columns; rows and header stand clear of each other."""
    columns = [Column("stop", 12, "right"), Column("angle", 20, "right"), Column("forms", 25)]
    rows = [["1", "0.0000", "both flanks of every space"], ["12", "132.0000", ""]]
    laid = table(20 + 200j, columns, rows)
    box = _around(laid)
    assert overlaps(laid.block.boxes) == ()
    assert box.x0 >= 20
    assert box.x1 <= 20 + 57
    assert box.y0 >= 200 - laid.height - 1e-9


def test_table_refuses_a_short_row() -> None:
    """A row with a cell too few is refused."""
    with pytest.raises(ValueError, match="a row of 1 cells"):
        table(0j, [Column("a", 10), Column("b", 10)], [["x"]])


def test_natural_widths_need_no_wrapping() -> None:
    """At its natural widths a table has one line a row."""
    titles, rows = ["stop", "words"], [["1", "both flanks"], ["200", "x"]]
    widths = natural_widths(titles, rows)
    columns = [Column(t, w) for t, w in zip(titles, widths, strict=True)]
    texts = [m for m in table(0j, columns, rows).block.marks if isinstance(m, Text)]
    assert [t.string for t in texts] == ["stop", "words", "1", "both flanks", "200", "x"]


def test_pairs_and_bullets_keep_clear() -> None:
    """Figures stand clear of their words, signs clear of their items, also when they wrap."""
    words = "a long name for an offset that has to wrap more than once"
    for laid in (
        pairs(0j, [(words, "12.345 mm"), ("short", "1")], 50),
        bullets(0j, [words, words], 40, "{n}."),
        heading(0j, "Before you cut", 40),
    ):
        assert overlaps(laid.block.boxes) == ()
        assert laid.height > 0


def _around(laid: Laid) -> Box:
    """The smallest box round all labels, mm."""
    return bounds(corner for box in laid.block.boxes for corner in box.corners)
