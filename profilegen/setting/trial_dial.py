"""The infeed's dial at trial cuts: by which steps it is set, and where a figure says it stands.

The one place for the steps of the sheet's table and of the command's correction, for the zero that
a figure counts from, and for what the figure comes to in travel.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from profilegen.cutting.touch import InfeedZero
from profilegen.cutting.trial import STEP, Trial
from profilegen.setting.dials import marked, travel_per_division, travel_shown
from profilegen.setting.own_dials import infeed_dial, infeed_direction
from profilegen.units import MM_PER_INCH, Unit

if TYPE_CHECKING:
    from profilegen.part.part import Part
    from profilegen.setting.setting import Setting

TABLE_STEP: Final[dict[Unit, float]] = {"mm": 0.05, "in": 0.0508}
"""mm. Of infeed between rows of the sheet's table: 0.05 mm, or two thou."""


@dataclass(frozen=True, slots=True)
class DialStand:
    """Where the infeed's dial stands.

    Attributes:
        travel: of the slide, mm, from the dial's zero to where it stands now.
        zero: the zero of the sheet that it counts from.
        marked: what the dial shows for 1 mm of travel: 2 when it reads diameters.
        in_turns: whether the part says how far a turn goes, so that turns and the dial's own figure
            are told.
    """

    travel: float
    zero: InfeedZero
    marked: float = 1.0
    in_turns: bool = False


def step_of(part: Part) -> float:
    """The step that a correction is rounded to, mm of infeed: a division of the infeed's dial, or
    what a hand dial can be set to where the part does not name it."""
    dial = infeed_dial(part)
    return travel_per_division(dial) if dial else STEP[part.units]


def table_step_of(part: Part) -> float:
    """Infeed from row to row of the sheet's table, mm: whole steps of the infeed's dial where the
    part names it."""
    usual = TABLE_STEP[part.units]
    if infeed_dial(part) is None:
        return usual
    step = step_of(part)
    return max(1, round(usual / step)) * step


def dial_unit(part: Part) -> Unit:
    """The unit of a bare figure of the infeed's dial: its own, or else the part's."""
    dial = infeed_dial(part)
    return part.units if dial is None or dial.unit is None else dial.unit


def dial_marked(part: Part) -> float:
    """What the infeed's dial shows for 1 mm of travel."""
    dial = infeed_dial(part)
    return 1.0 if dial is None else marked(dial)


def nearest_zero(trial: Trial, travel: float) -> InfeedZero:
    """The zero whose infeed the dial is nearer to; the offset zero where both fit alike.

    Args:
        trial: what the trial cuts say of the depth reached.
        travel: that the dial shows, mm of travel.
    """
    top, offset = abs(travel - trial.dial_from_top), abs(travel - trial.dial_from_offset)
    return "top" if top < offset else "offset"


def stand_of(
    part: Part, shop: Setting, trial: Trial, figure: float, zero: InfeedZero | None = None
) -> DialStand:
    """Where the infeed's dial stands when it shows a figure.

    It counts from the zero that is named, else from that of `[setup] touch` where the part gives
    it, else from the one that fits the land better. Of a dial whose turns are known the figure
    stands once in every turn: the turn is found by the land, from that of `touch` in any case.

    Args:
        part: for `[setup]` and its dials.
        shop: for the way of the infeed.
        trial: what the lands say of the depth reached.
        figure: mm as the dial is marked.
        zero: as named by the user, or None.
    """
    table, setup, shows = infeed_dial(part), part.setup, dial_marked(part)
    if zero is None and "touch" in setup.model_fields_set:
        zero = setup.touch
    if table is None or table.per_turn is None:
        travel = figure / shows
        return DialStand(travel, zero or nearest_zero(trial, travel), shows)
    zero = zero or setup.touch
    near = trial.dial_from_top if zero == "top" else trial.dial_from_offset
    gone = travel_shown(table, figure, near, infeed_direction(shop))
    return DialStand(gone, zero, shows, in_turns=True)


def is_of_other_unit(trial: Trial, travel: float, unit: Unit) -> bool:
    """Whether a bare figure makes sense as the infeed of these cuts in the other unit only.

    Args:
        trial: what the lands say.
        travel: of the slide as read in `unit`, mm.
        unit: that unit.
    """
    factor = 1 / float(MM_PER_INCH) if unit == "in" else float(MM_PER_INCH)
    low, high = sorted((trial.dial_from_offset, trial.dial_from_top))
    fits = low / 2 < travel * factor < 2 * high
    return fits and not low / 4 < travel < 4 * high
