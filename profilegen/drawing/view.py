"""A view: the plane of the wheel placed on paper at a scale.

Owns the step from model to paper, and cutting to a window. Refuses dimensions (their points
come through `point`) and mirror images: a view turned over is a rigid move made before.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from profilegen.drawing.boxes import Box
from profilegen.drawing.clipping import clip_area, clip_curve
from profilegen.drawing.marks import WIDE, Stroke
from profilegen.geometry.chain import Contour, Curve
from profilegen.geometry.moves import AnyCurve, Move, moved, scaled


@dataclass(frozen=True, slots=True)
class View:
    """A piece of the model on paper.

    Attributes:
        scale: paper length over model length.
        at: where the view's middle is, mm on the page.
        about: the model point that is put there, mm.
        window: what is shown, on the page; None shows everything.
    """

    scale: float
    at: complex
    about: complex = 0j
    window: Box | None = None

    def point(self, z: complex) -> complex:
        """Where a model point is on the page, mm.

        Args:
            z: mm of the part.
        """
        return self.at + self.scale * (z - self.about)

    def curve(self, curve: AnyCurve) -> AnyCurve:
        """A model curve on the page, whole, from mm of the part to mm on the page."""
        shift = self.at - self.scale * self.about
        return moved(scaled(curve, self.scale), Move(shift=shift))

    def curves(self, curves: Iterable[Curve]) -> tuple[Curve, ...]:
        """Model curves on the page, mm, cut to the window when there is one."""
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
        """A model area on the page, mm, cut likewise: outer edges run counter-clockwise."""
        placed = tuple(each for each in map(self.curve, contours) if isinstance(each, Contour))
        return placed if self.window is None else clip_area(placed, self.window)

    def stroke(
        self,
        *curves: Curve,
        width: float = WIDE,
        dash: tuple[float, ...] = (),
        name: str = "",
    ) -> Stroke:
        """Model curves as one mark, cut to the window when there is one.

        Args:
            curves: mm of the part.
            width: of the line, mm on the page, whatever the scale; the wide line of visible
                outlines unless said.
            dash: lengths of marks and gaps in turn, mm on the page.
            name: a word by which readers find the mark, or empty.
        """
        return Stroke(self.curves(curves), width, dash, name)
