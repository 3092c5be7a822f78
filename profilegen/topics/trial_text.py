"""What `trial` tells people: what the lands say, and the action to take.

Owns the sentences and their order; the last one is always what to do now. Refuses to measure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from profilegen.cutting.touch import infeed_from
from profilegen.cutting.trial import RunOut, Trial
from profilegen.figures import Figure, Figures, both, mm
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.job import Job
from profilegen.setting.dials import dialled
from profilegen.setting.own_dials import infeed_dial, infeed_direction
from profilegen.setting.trial_dial import DialStand
from profilegen.topics.columns import text_lines
from profilegen.topics.topic import Line, Row, topics, written
from profilegen.topics.touchoff_rows import dial_words
from profilegen.topics.zero_words import ZERO, from_zero


def trial_text(job: Job, trial: Trial, dial: DialStand | None = None) -> str:
    """The whole answer in the part's unit, ending with the action to take."""
    said = topics(
        {
            f"{job.part.title}: trial cuts": _found(job, trial, dial),
            "Do now": _action(job, trial, dial, job.part.figures),
        }
    )
    return "\n".join(list(text_lines(written(said, job.part.figures), hang=""))[1:]) + "\n"


def _found(job: Job, trial: Trial, dial: DialStand | None) -> Iterator[Line]:
    figures = job.part.figures
    if trial.laps > 1:
        yield f"lap {trial.lap} of {trial.laps}; the lap before it is taken as at depth"
    yield from _rows(job, trial)
    if dial is not None:
        yield _dial_words(job, trial, dial, figures)
    yield _run_out_words(job, trial, figures)


def _rows(job: Job, trial: Trial) -> Iterator[Row]:
    last, feeler = job.plan.cuts[-1], job.part.setup.feeler or 0.0
    figures, count = job.part.figures, len(trial.lands)
    name = trial.taken.label.capitalize()
    mean = f", mean of {count}" if count > 1 else ""
    yield Row(f"{name} measured{mean}", both(trial.mean))
    if count > 1:
        yield Row("Scatter, greatest less least", both(trial.scatter))
    yield Row(f"{name} wanted at full depth", both(trial.target))
    for zero in ZERO:
        reached = trial.dial_from_top if zero == "top" else trial.dial_from_offset
        way = (reached, infeed_from(last, zero, feeler))
        yield Row(f"Infeed reached {from_zero(zero)}", Figure(way, "length", words="{} of {}"))
    if feeler:
        yield Row("Feeler, counted in from both", mm(feeler))
    if trial.is_too_deep:
        yield Row("Too deep by", both(-trial.remaining))
    else:
        yield Row("Still to go", both(trial.remaining))
        yield Row(f"To dial, whole steps of {figures.length(trial.step)}", both(trial.to_feed))
        yield Row(f"{name} to expect then", both(trial.expected))
    if count > 1:
        ends = Figure(trial.expected_ends, "length", words="{} and {}")
        yield Row(f"Least and greatest {trial.taken.label} to expect", ends)
    limits = Figure(trial.allowed, "length", "limits", f"{{}} to {{}}: {_limit_words(trial)}")
    yield Row(f"Limits of the {trial.taken.label}", limits)


def _limit_words(trial: Trial) -> str:
    """How the sizes to expect lie to the limits."""
    least, greatest = trial.expected_ends
    is_under, is_over = (
        least < trial.allowed[0] - SAME_POINT,
        greatest > trial.allowed[1] + SAME_POINT,
    )
    if len(trial.lands) == 1:
        return "it is under them" if is_under else "it is over them" if is_over else "it is within"
    if is_under and is_over:
        return "the least is under, the greatest over"
    if is_under or is_over:
        return "the least is under them" if is_under else "the greatest is over them"
    return "both are within"


def _dial_words(job: Job, trial: Trial, dial: DialStand, figures: Figures) -> str:
    real = trial.dial_from_top if dial.zero == "top" else trial.dial_from_offset
    out = dial.travel - real
    stands = _on_dial(job, dial, dial.travel, figures)
    name = trial.taken.label
    said = f"The dial stands at {stands} {from_zero(dial.zero)}"
    if abs(out) <= trial.step:
        return f"{said}, and the {trial.taken.label} agrees with it."
    more = "less" if out > 0 else "more"
    return (
        f"{said}; the {name} says {figures.length(abs(out))} {more} than that is cut. The zero, "
        f"the blank, the tip or the offset is out by so much: go by the {name}, and leave the "
        "dial's zero as it is."
    )


def _run_out_words(job: Job, trial: Trial, figures: Figures) -> str:
    found = trial.runout
    if found is not None:
        return _swing_words(job, found, figures)
    if trial.taken.spaces is not None:
        one, other = trial.taken.spaces
        return f"Measured with spaces {one} and {other} cut, {trial.taken.how}."
    words = "Run-out: not known; it takes three lands or more, spread all round the wheel."
    if len(trial.lands) > 1:
        words += f" These lands scatter by {figures.length(trial.scatter)}."
    return words


def _swing_words(job: Job, found: RunOut, figures: Figures) -> str:
    if found.swing <= found.rest + SAME_POINT:
        return (
            f"Run-out: no clear swing once a turn. It is {figures.length(found.swing)} to each "
            f"side of the mean, and the rest {figures.length(found.rest)} at most, so "
            "that no high spot can be told."
        )
    teeth = job.made.teeth
    high = _high_spot(job, found)
    low = (high - 1 + teeth // 2) % teeth + 1
    return (
        f"Run-out: once a turn the lands swing by {figures.length(found.swing)} to each side of "
        f"their mean, as with {figures.length(found.reading)} on the indicator. The high spot, "
        f"with the least land, is at the land after space {high}; the greatest land is after space "
        f"{low}. The rest of the scatter is {figures.length(found.rest)} at most."
    )


def _high_spot(job: Job, found: RunOut) -> int:
    """The space before the land that is nearest to the high spot."""
    return round(found.high_spot / job.made.angular_pitch) % job.made.teeth + 1


def _action(job: Job, trial: Trial, dial: DialStand | None, figures: Figures) -> tuple[str, ...]:
    """What to do, a paragraph for each step."""
    if trial.expected < trial.allowed[0] - SAME_POINT and trial.is_too_deep:
        return (_spoilt(trial, figures),)
    if trial.put_right_first == "stops":
        return (_stops_first(trial, figures),)
    if trial.runout is not None and trial.put_right_first == "run-out":
        return _true_first(job, trial, trial.runout, figures)
    return (_depth(job, trial, dial, figures),)


def _on_dial(job: Job, dial: DialStand, travel: float, figures: Figures) -> str:
    """Where the infeed dial stands after a travel, mm: in turns where the part tells of them."""
    table = infeed_dial(job.part)
    if table is None or not dial.in_turns:
        return figures.length(travel * dial.marked)
    found = dialled(table, travel, infeed_direction(job.setting))
    return f'"{dial_words(found, table, math.inf, figures)}"'


def _depth(job: Job, trial: Trial, dial: DialStand | None, figures: Figures) -> str:
    if trial.is_too_deep:
        return (
            f"Feed in no more: the {trial.taken.label} is already "
            f"{figures.length(trial.target - trial.mean)} under the one wanted, but within its "
            "limits. Lock the infeed and go round at this setting, so that all teeth are alike."
        )
    if trial.to_feed == 0.0:
        return (
            f"Feed in no more: what is left is under one step of {figures.length(trial.step)}. "
            "Lock the infeed and go round at this setting."
        )
    words = f"Feed in {figures.length(trial.to_feed)} more"
    if dial is not None:
        now, goal = (
            _on_dial(job, dial, travel, figures)
            for travel in (dial.travel, dial.travel + trial.to_feed)
        )
        words += f", from {now} to {goal} on the dial, {from_zero(dial.zero)}"
    return (
        f"{words}, without turning back past it. Cut the trial spaces again, measure, and "
        "only then go round."
    )


def _spoilt(trial: Trial, figures: Figures) -> str:
    short = figures.length(trial.target - trial.mean)
    back = math.ceil(-trial.remaining / trial.step - 1e-6) * trial.step
    words = (
        f"Feed in no more: the {trial.taken.label} is already {short} under the one wanted, and "
        "under its low limit. The spaces cut cannot be put right: unless the print can allow it, "
        f"draw back {figures.length(back)} for the next blank."
    )
    is_untrue = trial.put_right_first == "run-out"
    return f"{words} Set that one true on the indicator first." if is_untrue else words


def _stops_first(trial: Trial, figures: Figures) -> str:
    words = (
        f"Stop, and feed in nothing yet: {trial.taken.plural} are up to "
        f"{figures.length(trial.unexplained)} off "
        "{}, too much for their limits, and no depth mends it. Spindle off: take the burrs off "
        "the crests, see that every stop seats without a chip and that work, dividing and cutter "
        "are tight, and measure again. {}"
    )
    if trial.runout is not None:
        then = "Give the new lands here, and correct run-out and depth by those."
        return words.format("mean and swing", then)
    then = (
        "If they still differ, cut and measure three or more spread all round the wheel: those "
        "tell run-out from stops. Depth comes after."
    )
    return words.format("their mean", then)


def _true_first(job: Job, trial: Trial, found: RunOut, figures: Figures) -> tuple[str, ...]:
    high = _high_spot(job, found)
    limit = figures.at_most(trial.run_out_limit)
    is_over = found.reading > trial.run_out_limit
    until = f"shows {limit} or less" if is_over else "stands still"
    first = (
        f"1. Stop, and feed in nothing yet: {_why_true(trial, figures)}. Spindle off, cutter "
        f"clear: set the blank true on the indicator. It should show about "
        f"{figures.length(found.reading)}; the high spot is at the land after space {high}, "
        f"between stops {high} and {high % job.made.teeth + 1}. Bring that side in by half of the "
        f"reading, {figures.length(found.reading / 2)}, until the indicator {until}. Cut the trial "
        "spaces again at the infeed they were cut at, take the burrs off, and measure."
    )
    gone = min(land.value for land in trial.lands) < trial.allowed[0] - SAME_POINT
    if gone:
        first += " A land that is under its low limit already stays so."
    about = f"about {figures.length(trial.to_feed)} more" if trial.to_feed else "no more"
    return first, (
        f"2. Only then correct the depth. By these lands it would be {about}; give the new ones "
        "here, and go by those."
    )


def _why_true(trial: Trial, figures: Figures) -> str:
    """Why the run-out comes before the depth."""
    (low, high), (least, greatest) = trial.allowed, trial.expected_ends
    at_depth = "at depth" if not trial.is_too_deep else "as it is"
    if least < low - SAME_POINT:
        limit = figures.limits(low, high)[0]
        return (
            f"the least land {at_depth} would be {figures.length(least)}, under its limit {limit}"
        )
    if greatest > high + SAME_POINT:
        limit = figures.limits(low, high)[1]
        return (
            f"the greatest land {at_depth} would be {figures.length(greatest)}, over its limit "
            f"{limit}"
        )
    return f"the blank runs out by more than the {figures.at_most(trial.run_out_limit)} allowed"
