"""A head with backlash, worked by what the set-up sheet says, against the wheel that is wanted.

The head here knows nothing of the package: a handle, a play between handle and work, a scale. It is
turned the way that the sheet says until it shows what the sheet lists, and for the second lap by
the degrees that the sheet says. Each cutter, where it stands on the machine, is then cut from the
blank by shapely. No published source; two independent ways must agree.
"""

from __future__ import annotations

import cmath
import itertools
import math
import re
from dataclasses import dataclass
from typing import Any

import pytest
from shapely.ops import unary_union

from profilegen.figures import Figures
from profilegen.geometry.chain import circle
from profilegen.geometry.moves import Move, moved
from profilegen.job import Job
from profilegen.topics.sheet_words import sections, stop_labels
from profilegen.topics.topic import written
from tests.cutting.test_cut_by_boolean import polygon
from tests.parts import Keys, job, ratchet, vee

PLAY = 1 / 720
"""Turns of the work: half a degree, far more than a land of 0.4 mm could stand."""

KINDS: dict[str, tuple[int, float, Keys | None]] = {
    "none": (20, 15.0, None),
    "plate": (20, 15.0, {"kind": "plate", "holes": 120}),
    "vernier": (20, 15.0, {"kind": "plate", "holes": 36, "vernier": 10}),
    "notched": (20, 15.0, {"kind": "notched", "notches": 240}),
    "motor": (20, 15.0, {"kind": "motor", "steps": 12000}),
    "table": (20, 15.0, {"kind": "table", "ratio": 90, "graduation": "1 min"}),
    "worm": (20, 15.0, {"kind": "worm", "ratio": 40, "plates": [[15, 17]]}),
    "no turn": (20, 18.0, {"kind": "worm", "ratio": 40, "plates": [[15, 17]]}),
    "compound": (21, 15.0, {"kind": "worm", "ratio": 40, "plates": [[7, 9]]}),
    "differential": (
        23,
        360 * 26 / 621,
        {"kind": "worm", "ratio": 40, "plates": [[15]], "change_wheels": [40, 56]},
    ),
}
"""Teeth, how much narrower than the space the cutter is (degrees), and the hardware. 23 moves of
27/15 with 56 driving 40 against the crank are one turn of the work: 621 holes of it."""


@dataclass
class Head:
    """Handle and work, turns counter-clockwise seen from the free end.

    The work is pushed by the handle, and left where it is while the play is gone through.
    """

    handle: float = 0.0
    work: float = 0.0

    def turn(self, by: float) -> None:
        """Turn the handle; the work follows once the play is taken up."""
        self.handle += by
        self.work = min(max(self.work, self.handle - PLAY / 2), self.handle + PLAY / 2)


def shown_at(reading: str, kind: str, keys: Keys, about: float) -> tuple[float, bool]:
    """Where the handle stands when the head shows a reading, turns since stop 1 the way the dial
    counts, and whether whole turns are left out; `about` tells those of a compound plate."""
    n = [int(digits) for digits in re.findall(r"\d+", reading)]
    if kind == "none":
        return float(reading) / 360, True
    if kind in ("plate", "notched"):
        return n[0] / keys[{"plate": "holes", "notched": "notches"}[kind]], True
    if kind == "vernier":
        return (n[0] + n[1] / 10) / 36, True
    if kind == "motor":
        return n[0] / 12000, False
    if kind == "table":
        turns, degrees, minutes, seconds = n[-4:]
        return (turns + (degrees + minutes / 60 + seconds / 3600) / 4) / 90, False
    crank = n[0] + (n[1] / n[2] if len(n) > 1 else 0)
    if kind == "differential":
        return crank / (23 * 27 / 15), False
    if kind == "compound":
        crank += n[3] / n[4]
        crank += round(about * 40 - crank)
    return crank / 40, False


def come_to(head: Head, sense: int, place: float, is_round: bool) -> None:
    """Turn on to a place, never back."""
    way = place - sense * head.handle
    way = (way + 1e-6) % 1 - 1e-6 if is_round else way
    assert way > -1e-6
    head.turn(sense * way)


def begin_again(head: Head, words: str) -> None:
    """From the closing stop to stop 1 of the second lap, as the sheet says."""
    said = re.search(r"turn the work on by (\S+)° (\S+), as to every stop, to", words)
    if said is None:
        assert "Leave the work at the closing stop of lap 1" in words
        return
    head.turn(SENSES[said[2]] * float(said[1]) / 360)


def worked(made: Job, kind: str, keys: Keys) -> list[list[float]]:
    """The work at every stop of each lap, turns counter-clockwise seen from the free end since stop
    1 of lap 1."""
    said = {part.heading: " ".join(map(str, part.lines)) for part in written(sections(made), MM)}
    turned = re.search(r"Turn the work (\S+), seen from its free end, to every", said["Stops"])
    assert turned is not None
    sense, pitch = SENSES[turned[1]], 1 / made.wheel.teeth
    zero = -sense * PLAY / 2
    head, laps = Head(0.0, zero), list[list[float]]()
    for label in stop_labels(made):
        if label.startswith("lap "):
            if laps:
                head.turn(sense * pitch if kind == "none" else 0.0)
                begin_again(head, said["How far down"])
            laps.append([])
            continue
        stop, reading = re.split(r": | {2}", label, maxsplit=1)
        stands = sense * head.handle
        place, is_round = shown_at(reading, kind, keys, stands + (pitch if laps[-1] else 0))
        if stop == "1":
            off = place - stands
            assert (math.remainder(off, 1) if is_round else off) == pytest.approx(0, abs=3e-6)
        else:
            come_to(head, sense, place, is_round)
        if "=" not in stop:
            laps[-1].append(head.work - zero)
    return laps


def left_over(made: Job, laps: list[list[float]]) -> float:
    """What the cutters leave or take that they should not, mm2 in all, each where it stands on the
    machine, the work turned under it."""
    sense = 1 if made.plan.frame.front == "free end" else -1
    first = made.plan.cuts[0].wheel_from_setup(made.wheel, 0)
    tools = [
        polygon(moved(moved(cut.silhouette(), first), Move(cmath.exp(-1j * math.tau * at * sense))))
        for cut, lap in zip(made.plan.cuts, laps, strict=True)
        for at in lap
    ]
    blank = polygon(circle(0, made.wheel.radius))
    wanted = polygon(made.wheel.outline)
    return float(blank.difference(unary_union(tools)).symmetric_difference(wanted).area)


MM = Figures("mm", "point")
SENSES = {"counter-clockwise": 1, "clockwise": -1}


WAYS = tuple(itertools.product(SENSES, ("face", "back"), ("free end", "head"), SENSES))
"""Hand of the wheel, flank cut first, side that the front looks to, way the dial increases."""


def comes_out(kind: str, rotation: str, first: str, front: str, dial: str) -> None:
    """Both flanks stand where they should; they would not if the second lap came from the other
    side."""
    teeth, narrower, table = KINDS[kind]
    wheel = ratchet(teeth=teeth, rotation=rotation, hook_angle=4)
    hardware: dict[str, Any] = {}
    if table is not None:
        hardware = {"dividing": {**table, "dial_increases": dial}}
    made = job(wheel, vee(60 - narrower), setup={"front": front, "first": first}, **hardware)
    assert len(made.plan.cuts) == 2
    laps = worked(made, kind, table or {})
    assert [len(lap) for lap in laps] == [teeth, teeth]
    assert left_over(made, laps) < 0.02
    other_side = [laps[0], [at + PLAY for at in laps[1]]]
    assert left_over(made, other_side) > 1.0


@pytest.mark.parametrize(("number", "kind"), list(enumerate(KINDS)))
def test_the_wheel_comes_out_of_a_head_with_backlash(number: int, kind: str) -> None:
    """Each hardware in two of the sixteen ways to set up, opposite in everything; the ten of them
    make all sixteen."""
    for way in (WAYS[number % 8], WAYS[-1 - number % 8]):
        comes_out(kind, *way)


@pytest.mark.exhaustive
@pytest.mark.parametrize("kind", KINDS)
def test_the_wheel_comes_out_whichever_way_dial_and_front_stand(kind: str) -> None:
    """Each hardware in all sixteen ways to set up."""
    for way in WAYS:
        comes_out(kind, *way)
