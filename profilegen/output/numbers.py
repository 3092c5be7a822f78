"""The one way in which drawings write numbers.

Owns rounding and spelling of numbers in SVG. Refuses what is not a finite number.
"""

from __future__ import annotations

from math import isfinite

PLACES = 4
"""Decimals of a mm in drawings: a tenth of a micrometre, far below any printer's dot."""

BLACK = "#000000"
"""Of all lines and letters."""


def number(value: float, places: int = PLACES) -> str:
    """A number in plain decimals: rounded, no exponent, no trailing zeros, no minus before zero.

    Args:
        value: mm on the page, or whatever the format counts in.
        places: behind the point, at most.

    Raises:
        ValueError: the value is infinite or not a number.
    """
    if not isfinite(value):
        raise ValueError(f"a drawing needs finite numbers, got {value}")
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def grey_colour(grey: float) -> str:
    """A grey (0 black, 1 white) as `#rrggbb` with three equal parts."""
    level = round(255 * min(max(grey, 0.0), 1.0))
    return f"#{level:02x}{level:02x}{level:02x}"
