"""How the pictures of the sheet are drawn: lettering and greys, in one place."""

from __future__ import annotations

from profilegen.drawing.dimensions import Manner

CUTTER_GREY = 0.82
"""Of the cutter's area: light, so that lines and figures read on it."""

LETTERS = Manner(size=1.8, arrow=2.0, rise=0.7, overrun=1.4, tail=2.0, width=0.18)
"""Dimensions of the sheet's pictures: 1.8 mm capitals, the smallest of ISO 3098."""
