"""A cutter that cannot reach, against the tool as points in space beside cylinders."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from shapely import line_interpolate_point
from shapely.geometry import LineString

from profilegen.findings.finding import Finding
from profilegen.findings.telling import told, typed
from profilegen.job import Job
from profilegen.setting.bar import CLEAR
from tests.geometry.oracles import polygon
from tests.parts import Keys, job, ratchet, single, vee

Rows = NDArray[np.float64]

HUB: Keys = {"diameter": 12, "length": 12, "side": "back"}


def found(made: Job, code: str) -> Finding | None:
    """The finding of a code, or None."""
    return next((one for one in made.findings if one.code == code), None)


def cutter_rims(made: Job, sweep: float) -> Callable[[Rows], Rows]:
    """Across the infeed and radius about the spindle, mm, of the circles that the cutter's edge
    runs on, by shares of the way along its outline: rows."""
    cut = made.plan.cuts[0]
    edge = LineString(polygon(cut.silhouette(8.0)).exterior)

    def rims(shares: Rows) -> Rows:
        along = line_interpolate_point(edge, shares, normalized=True)
        at = np.array([(point.x, point.y) for point in along])
        return np.column_stack([at[:, 0], np.maximum(sweep / 2 - (at[:, 1] - cut.tip.imag), 0.0)])

    return rims


def holder_rims(holder: float) -> Callable[[Rows], Rows]:
    """The same of a holder across the whole work."""
    return lambda shares: np.column_stack([160 * shares - 80, np.full_like(shares, holder / 2)])


def reach(rims: Callable[[Rows], Rows], level: float, radius: float) -> float:
    """How far along the wheel's axis, from its own axis, a tool reaches within a cylinder of this
    radius about the wheel's axis, mm; -inf where no point of it comes within.

    Each circle is met exactly: of its heights within the cylinder the one nearest to the spindle's
    is farthest out. The circles stand 2e-4 of the outline apart, then closer where it is farthest.

    Args:
        rims: of the tool, by shares of its outline.
        level: of the spindle over the wheel's axis.
        radius: of the cylinder.
    """
    low, high, found = 0.0, 1.0, -math.inf
    for _ in range(4):
        shares = np.linspace(low, high, 5001)
        across, out = rims(shares).T
        half = np.sqrt(np.maximum(radius**2 - across**2, 0.0))
        off = np.clip(level, -half, half) - level
        meets = (np.abs(across) < radius) & (np.abs(off) <= out)
        far = np.where(meets, np.sqrt(np.maximum(out**2 - off**2, 0.0)), -np.inf)
        found, best, step = max(found, float(far.max())), shares[far.argmax()], (high - low) / 5000
        low, high = max(best - step, 0.0), min(best + step, 1.0)
    return found


def random_setups(count: int) -> list[tuple[Keys, Keys]]:
    """Cutters and set-ups: sweep, holder, jaws, chuck, side and head all by chance."""
    rng = np.random.default_rng(20)
    rows: list[tuple[Keys, Keys]] = []
    for at in range(count):
        sweep = float(rng.uniform(8, 70))
        make = (vee, single)[at % 2]
        cutter = make(
            60, sweep_diameter=sweep, holder_diameter=float(sweep * rng.uniform(0.2, 0.9))
        )
        jaw = float(rng.uniform(14, 80) if at % 2 else rng.uniform(20, 27))
        setup: Keys = {"jaw_diameter": jaw, "front": ("free end", "head")[int(rng.integers(2))]}
        setup["cutter_side"] = ("behind", "in front", "above")[int(rng.integers(3))]
        setup["spindle"] = ("clockwise", "counter-clockwise")[int(rng.integers(2))]
        if at % 3:
            setup["chuck_diameter"] = jaw * float(rng.uniform(1, 2))
            setup["jaw_length"] = float(rng.uniform(0, 15))
        rows.append((cutter, setup))
    return rows


@pytest.mark.parametrize(("cutter", "setup"), random_setups(120))
def test_a_holder_in_the_work_is_refused(cutter: Keys, setup: Keys) -> None:
    """The holder of a cutter at depth, as points, lies in the blank where it is refused and nowhere
    else; with the least sweep that the finding names it just clears."""
    made = job(ratchet(), cutter, setup=setup)
    told, tip = found(made, "holder-touches"), made.plan.cuts[0].tip.imag
    rims = holder_rims(cutter["holder_diameter"])(np.linspace(0, 1, 401))

    def clear(sweep: float) -> float:
        level = tip + sweep / 2
        turns = np.linspace(0, math.tau, 1441)
        height = level + rims[:, 1:] * np.cos(turns)
        return float(np.hypot(rims[:, :1], height).min()) - 12.7 if level > 0 else -1.0

    assert (clear(cutter["sweep_diameter"]) < -1e-9) == (told is not None)
    if told is not None:
        assert (told.severity, told.where) == ("refused", "cutter[1].sweep_diameter")
        assert told.limit is not None
        assert clear(told.limit) == pytest.approx(0.0, abs=1e-9)


def gripped(cutter: Keys, setup: Keys) -> Job:
    """A wheel gripped by its hub."""
    side = "back" if setup["front"] == "free end" else "front"
    return job(ratchet(), cutter, setup=setup, hub={**HUB, "side": side})


def reach_over_jaws(made: Job, cutter: Keys, setup: Keys) -> float:
    """How far the tool reaches from its axis past the face of the jaws, mm; -inf where it comes
    neither over jaws nor chuck."""
    level = made.plan.cuts[0].tip.imag + cutter["sweep_diameter"] / 2
    tool = [cutter_rims(made, cutter["sweep_diameter"]), holder_rims(cutter["holder_diameter"])]
    ends = [(setup["jaw_diameter"] / 2, 0.0)]
    if "chuck_diameter" in setup:
        ends.append((setup["chuck_diameter"] / 2, setup["jaw_length"]))
    return max(reach(rims, level, radius) - back for rims in tool for radius, back in ends)


@pytest.mark.parametrize(("cutter", "setup"), random_setups(40))
def test_the_tool_stays_off_jaws_and_chuck(cutter: Keys, setup: Keys) -> None:
    """Gripped by the hub, with as much of it standing out as the sheet asks for, cutter and holder
    at their nearest are a clearance off jaws and chuck; where they would not be it is refused.

    Both sides meet every circle exactly, so they agree to rounding."""
    made = gripped(cutter, setup)
    bar = made.setting.bar
    assert bar is not None
    assert bar.gripped_by == "hub"
    assert bar.behind is not None
    assert bar.approach is not None
    past = CLEAR + (bar.approach if made.plan.frame.enters_at != "free end" else 0.0)
    over = max(reach_over_jaws(made, cutter, setup), 0.0)
    assert bar.behind - past - over == pytest.approx(CLEAR, abs=1e-9)
    told = found(made, "jaws-in-the-way")
    assert (told is not None) == (HUB["length"] <= bar.behind)
    assert told is None or told.severity == "refused"
    assert (bar.stick_out is None, bar.cutter_to_jaws is None) == (told is not None,) * 2


def test_the_tools_above_do_come_over_the_jaws() -> None:
    """Of the cases above most come over jaws or chuck, some never do, and some are refused and
    some are not: none of the answers is taken for granted."""
    rows = [(gripped(*row), *row) for row in random_setups(40)]
    over = [reach_over_jaws(*row) for row in rows]
    refused = [found(made, "jaws-in-the-way") is not None for made, *_ in rows]
    assert sum(one > 1 for one in over) >= 30
    assert sum(one == -math.inf for one in over) >= 3
    assert 10 <= sum(refused) <= 30


def test_what_the_hub_asks_for_is_told() -> None:
    """A wheel gripped by its hub gets a finding with the jaws unknown too; on an arbor, or with
    jaws below the roots, it goes."""
    cutter = vee(sweep_diameter=30)
    assert found(job(ratchet(), cutter), "jaws-in-the-way") is None
    one = found(job(ratchet(), cutter, hub=HUB), "jaws-in-the-way")
    assert one is not None
    assert (one.severity, one.where) == ("caution", "setup.jaw_diameter")
    assert one.remedy is not None
    tables: list[dict[str, Any]] = [
        {"setup": {"jaw_diameter": typed(one.remedy, "mm")}},
        {"blank": {"bar_diameter": 8}},
        {"hub": {**HUB, "length": 18}},
        {"hub": {**HUB, "side": "front"}},
    ]
    for table in tables:
        assert found(job(ratchet(), cutter, **{"hub": HUB, **table}), "jaws-in-the-way") is None


def test_without_a_holder_the_axis_itself_must_clear() -> None:
    """A sweep of 4 mm at a depth of 2 or so: the spindle's own axis would stand in the blank."""
    one = found(job(ratchet(), vee(sweep_diameter=4)), "holder-touches")
    assert one is not None
    assert "the axis of its spindle" in told(one)
    assert found(job(ratchet(), vee(sweep_diameter=30)), "holder-touches") is None
