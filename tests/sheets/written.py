"""What stands written on a page, read from its marks: an SVG of every page tells no more."""

from __future__ import annotations

from profilegen.drawing.lettering import clean
from profilegen.drawing.marks import Sheet, Text


def labels(sheet: Sheet) -> list[str]:
    """Every text with something to see, as the labels of the SVG name it, in order."""
    texts = [clean(mark.string) for mark in sheet.marks if isinstance(mark, Text)]
    return [text for text in texts if text.strip()]
