"""A view: the plane of the wheel placed on paper at a scale.

Owns the step from model to paper, and cutting to a window. Refuses dimensions (their points
come through `point`) and mirror images: a view turned over is a rigid move made before.
"""

from __future__ import annotations

import cmath
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from profilegen.drawing.boxes import Box
from profilegen.drawing.clipping import Disc, Window, clip_area, clip_curve, window_edge
from profilegen.drawing.marks import THIN, WIDE, Stroke
from profilegen.geometry.chain import Contour, Curve
from profilegen.geometry.moves import AnyCurve, Move, moved, scaled


@dataclass(frozen=True, slots=True)
class View:
    """A piece of the model on paper.

    Attributes:
        scale: paper length over model length.
        at: where the view's middle is, mm on the page.
        about: the model point that is put there, mm.
        turn: by which the model is turned on paper, rad, counter-clockwise positive.
        window: what is shown, on the page; None shows everything.
    """

    scale: float
    at: complex
    about: complex = 0j
    turn: float = 0.0
    window: Window | None = None

    def point(self, z: complex) -> complex:
        """Where a model point (mm) is on the page (mm)."""
        return self.at + self.scale * cmath.exp(1j * self.turn) * (z - self.about)

    def direction(self, way: complex) -> complex:
        """Where a model direction points on the page, its length kept."""
        return cmath.exp(1j * self.turn) * way

    def length(self, size: float) -> float:
        """How long a model length (mm) is on the page (mm)."""
        return self.scale * size

    def curve(self, curve: AnyCurve) -> AnyCurve:
        """A model curve on the page, whole."""
        spin = cmath.exp(1j * self.turn)
        shift = self.at - self.scale * spin * self.about
        return moved(scaled(curve, self.scale), Move(spin, shift))

    def curves(self, curves: Iterable[Curve]) -> tuple[Curve, ...]:
        """Model curves on the page, cut to the window when there is one."""
        placed = tuple(self._placed(each) for each in curves)
        if self.window is None:
            return placed
        return tuple(part for each in placed for part in clip_curve(each, self.window))

    def _placed(self, curve: Curve) -> Curve:
        match curve:
            case Contour():
                return self.curve(curve)
            case _:
                return self.curve(curve)

    def area(self, contours: Sequence[Contour]) -> tuple[Contour, ...]:
        """A model area on the page, cut likewise: outer edges run counter-clockwise."""
        placed = tuple(each for each in map(self.curve, contours) if isinstance(each, Contour))
        return placed if self.window is None else clip_area(placed, self.window)

    def stroke(
        self,
        *curves: Curve,
        width: float = WIDE,
        dash: tuple[float, ...] = (),
        grey: float = 0.0,
        name: str = "",
    ) -> Stroke:
        """Model curves as one mark, by default with the wide line of visible outlines."""
        return Stroke(self.curves(curves), width, dash, grey, name)

    def border(self, width: float = THIN) -> Stroke:
        """A thin line round the window; no curve when the view has no window."""
        return Stroke(() if self.window is None else (window_edge(self.window),), width)

    def shows(self, z: complex) -> bool:
        """Whether a model point lies within the window."""
        at = self.point(z)
        match self.window:
            case Disc():
                return abs(at - self.window.centre) <= self.window.radius
            case Box():
                return self.window.holds(Box(at.real, at.imag, at.real, at.imag))
            case _:
                return True


def detail(scale: float, about: complex, window: Window, turn: float = 0.0) -> View:
    """An enlarged detail: the model point `about` in the middle of a window on the page."""
    return View(scale, window.centre, about, turn, window)
