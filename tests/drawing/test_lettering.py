"""Lettering: widths, boxes and outlines against the font's own tables."""

from __future__ import annotations

import math

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from profilegen.drawing.boxes import Box, bounds
from profilegen.drawing.lettering import (
    clean,
    em_size,
    font_path,
    lacks,
    lettered,
    outline,
    text_box,
    text_width,
)
from profilegen.drawing.marks import Text

SHOP = "ABCxyz 0123456789 Ø⌀°±×☐→≤½“”'″′µΩ"


@pytest.mark.parametrize("bold", [False, True])
def test_width_is_the_sum_of_advances(bold: bool) -> None:
    """A width is the sum of the advances in the font's own table, to the last digit."""
    with TTFont(font_path(bold)) as font:
        cmap, advances = font.getBestCmap(), font["hmtx"]
        total = sum(advances[cmap[ord(c)]][0] for c in SHOP)
        upem = font["head"].unitsPerEm
    assert text_width(SHOP, 3.5, bold) == pytest.approx(total / upem * em_size(3.5), abs=1e-12)


def test_capitals_are_as_high_as_asked() -> None:
    """The size of a text is the height of its capitals, as ISO 3098 names lettering."""
    ys = [z.imag for _, points in outline(Text(0j, "H", 3.5)) for z in points]
    assert (min(ys), max(ys)) == pytest.approx((0.0, 3.5), abs=1e-9)


def test_digits_are_of_one_width() -> None:
    """All digits are equally wide, so that figures stand under each other."""
    assert len({text_width(digit, 2.5) for digit in "0123456789"}) == 1


@pytest.mark.parametrize("bold", [False, True])
def test_shop_signs_are_there(bold: bool) -> None:
    """Every sign that a sheet needs is in both faces."""
    assert lacks(SHOP + "•…–—éüøčŽЖαβ³²₁⌀√∠☑⚠", bold) == ()


def test_missing_sign_is_drawn_as_a_question_mark() -> None:
    """A sign that the face lacks looks like ?, not like an empty frame; it is told by name."""
    assert lacks("a🙂b") == ("🙂",)
    assert lettered("a🙂b\n🙂Ø") == "a?b ?Ø"
    assert outline(Text(0j, "a🙂b")) == outline(Text(0j, "a?b"))
    assert text_width("🙂", 2.5) == text_width("?", 2.5)


def test_clean_drops_controls_and_keeps_words_apart() -> None:
    """Line breaks become spaces; control characters, lone surrogates and selectors go."""
    assert clean("a\nb\tc\x00\x1b\ud800\ufe0f\uffffd") == "a b cd"
    assert clean("e\u0301") == "é"


@given(st.text(max_size=30), st.sampled_from([0.0, 0.4, math.pi / 2, -2.0]))
def test_box_holds_the_ink_upright(string: str, turn: float) -> None:
    """Any string at all can be lettered, and its box holds all its ink in height."""
    text = Text(3 + 4j, string, 2.5, "middle", "middle", turn)
    box = text_box(text)
    assert math.isfinite(box.width + box.height)
    if turn == 0.0 and (points := [z for _, zs in outline(text) for z in zs]):
        ink = bounds(points)
        assert box.y0 - 1e-9 <= ink.y0
        assert ink.y1 <= box.y1 + 1e-9


@pytest.mark.parametrize(
    ("anchor", "level", "box"),
    [
        ("left", "baseline", Box(0, 0, 2, 1)),
        ("middle", "middle", Box(-1, -0.5, 1, 0.5)),
        ("right", "top", Box(-2, -1, 0, 0)),
    ],
)
def test_anchor_and_level(anchor: str, level: str, box: Box) -> None:
    """The anchor is a point of the text's box, in units of its width and height."""
    text = Text(0j, "HH", 2.5, anchor, level)  # type: ignore[arg-type]
    wide = text_width("HH", 2.5)
    got = text_box(text)
    want = (box.x0 * wide / 2, box.y0 * 2.5, box.x1 * wide / 2, box.y1 * 2.5)
    assert (got.x0, got.y0, got.x1, got.y1) == pytest.approx(want, abs=1e-9)


def test_quarter_turn_swaps_the_box() -> None:
    """Text that reads upwards is as tall as it was wide, and stands left of its anchor."""
    flat, up = text_box(Text(0j, "H20")), text_box(Text(0j, "H20", turn=math.pi / 2))
    assert up.height == pytest.approx(flat.width)
    assert up.x1 == pytest.approx(-flat.y0, abs=1e-9)


def test_fonts_are_small_and_licensed() -> None:
    """Both faces together stay under 150 kB and their licence is beside them."""
    folder = font_path().parent
    assert sum(font_path(bold).stat().st_size for bold in (False, True)) < 150_000
    assert "Permission is hereby granted" in (folder / "LICENSE.txt").read_text(encoding="utf-8")
