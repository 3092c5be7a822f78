"""Which cutter of a drawer forms the wheel best.

Owns the trial of every cutter, every way round, and the order of the results: first what forms the
space in the fewest laps, then what leaves least, then what gouges least, last what cannot enter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from profilegen.cutting.fit import Fit, Verdict, fit_of
from profilegen.cutting.plunge import deepest_plunge
from profilegen.cutting.poses import Cut, NoPose, Tool, cuts_for, is_held, turn_to_face
from profilegen.cutting.tools import tools_for
from profilegen.cutting.wedge import Wedge
from profilegen.findings.finding import Finding
from profilegen.forms.wheel import Wheel

if TYPE_CHECKING:
    from profilegen.part.base import CutterTable
    from profilegen.part.tables import Setup

Work: TypeAlias = "Callable[[tuple[Tool, ...]], Match]"
Each: TypeAlias = "Callable[[Work, list[tuple[Tool, ...]]], Iterable[Match]]"
"""Does the work on every cutter; the results are in the order given, as those of `map`."""

ORDER: tuple[Verdict, ...] = ("forms", "leaves", "gouges", "cannot-enter")


@dataclass(frozen=True, slots=True)
class Match:
    """One cutter on one wheel.

    Attributes:
        cutter: its name.
        verdict: in one word.
        cuts: of one space, empty when it cannot enter.
        fit: what they make of the space, or None.
        why: for a wedge whose flanks do not match, what keeps it from forming both; or None.
    """

    cutter: str
    verdict: Verdict
    cuts: tuple[Cut, ...]
    fit: Fit | None
    why: Finding | None

    def rank(self) -> tuple[int, int, float, float]:
        """Smaller is better: verdict, laps of a cutter that forms it, deviation, offset."""
        if self.fit is None:
            return (ORDER.index(self.verdict), 0, 0.0, 0.0)
        place = ORDER.index(self.verdict)
        laps = len(self.cuts) if self.verdict == "forms" else 0
        deep = max(self.fit.gouge.value, self.fit.below_root)
        worst = deep if self.verdict == "gouges" else self.fit.left_over.value
        return (place, laps, round(worst, 9), round(abs(self.cuts[0].offset), 9))


def compared_cutters(
    wheel: Wheel, cutters: Iterable[CutterTable], setup: Setup, each: Each = map
) -> tuple[Match, ...]:
    """`compared` for cutters as the part file gives them."""
    ways = [tools_for(cutter, f"cutter[{number}]") for number, cutter in enumerate(cutters, 1)]
    return compared(wheel, ways, setup, each)


def compared(
    wheel: Wheel, cutters: Iterable[tuple[Tool, ...]], setup: Setup, each: Each = map
) -> tuple[Match, ...]:
    """Every cutter, given as its ways round, at its best; best cutter first.

    Cutters of one silhouette are worked out once.

    Args:
        wheel: the finished wheel.
        cutters: for each cutter the ways round in which it can stand.
        setup: the deviation that is still usable (`accept`, mm), the flank cut first, and the pose
            that is held if any.
        each: how the work is done on every silhouette, as `map` does it or on many cores.
    """
    every = list(cutters)
    alike = {_silhouette(ways): ways for ways in reversed(every)}
    tried = each(partial(_best, wheel, setup), list(alike.values()))
    best = dict(zip(alike, tried, strict=True))
    named = [_renamed(best[_silhouette(ways)], ways[0].name) for ways in every]
    return tuple(sorted(named, key=Match.rank))


def _silhouette(ways: tuple[Tool, ...]) -> tuple[object, ...]:
    """What tells cutters apart, their names left out."""
    return tuple(_shape(tool) for tool in ways)


def _shape(tool: Tool) -> object:
    if isinstance(tool, Wedge):
        return replace(tool, name="")
    edge = tool.edge
    rows = (edge.points.tobytes(), edge.bulges.tobytes(), edge.roles.tobytes())
    return (tool.kind, tool.endless, *rows)


def _renamed(match: Match, name: str) -> Match:
    """The same match for a cutter of the same silhouette and another name."""
    if match.cutter == name:
        return match
    cuts = tuple(replace(cut, tool=replace(cut.tool, name=name)) for cut in match.cuts)
    return replace(match, cutter=name, cuts=cuts)


def _best(wheel: Wheel, setup: Setup, ways: tuple[Tool, ...]) -> Match:
    return min(_ways(wheel, ways, setup), key=Match.rank)


def _ways(wheel: Wheel, ways: tuple[Tool, ...], setup: Setup) -> Iterator[Match]:
    for tool in ways:
        try:
            cuts, why = _cuts(wheel, tool, setup)
        except NoPose as refusal:
            yield Match(tool.name, "cannot-enter", (), None, refusal.finding)
            continue
        fit = fit_of(wheel, cuts)
        yield Match(tool.name, fit.verdict(setup.accept), cuts, fit, why)


def _cuts(wheel: Wheel, tool: Tool, setup: Setup) -> tuple[tuple[Cut, ...], Finding | None]:
    """Cuts by flank matching, or the deepest plunge and why the flanks do not match."""
    if not isinstance(tool, Wedge) or is_held(setup):
        return (deepest_plunge(wheel, tool, _held_turn(wheel, setup), setup.offset),), None
    try:
        return cuts_for(wheel, tool, setup.first), None
    except NoPose as refusal:
        return (deepest_plunge(wheel, tool),), refusal.finding


def _held_turn(wheel: Wheel, setup: Setup) -> float | None:
    """Turn of the wheel that stands its face at the angle asked for, rad.

    Raises:
        NoPose: the face is curved.
    """
    if setup.face_angle is None:
        return None
    if wheel.space.face is None:
        raise NoPose("flank-curved", case="held")
    return turn_to_face(wheel.space.face, setup.face_angle)
