"""What `trial` tells people: what the lands say, and the action to take.

Owns the sentences and their order; the last one is always what to do now. Refuses to measure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from profilegen.cutting.frame import OTHER_HAND
from profilegen.cutting.trial import RunOut, Trial
from profilegen.job import Job
from profilegen.reports.columns import columns, paragraph
from profilegen.reports.figures import Figures, figures_for


@dataclass(frozen=True, slots=True)
class Dial:
    """The infeed dial.

    Attributes:
        travel: of the slide, mm, from the dial's zero to where it stands now.
        zero: the zero of the sheet that it counts from.
        marked: what the dial shows for 1 mm of travel: 2 when it reads diameters.
    """

    travel: float
    zero: str
    marked: float = 1.0


def nearest_zero(trial: Trial, travel: float) -> str:
    """The zero of the sheet, A or B, whose infeed the dial is nearer to."""
    from_a, from_b = abs(travel - trial.from_top), abs(travel - trial.from_offset)
    return "A" if from_a < from_b else "B"


def trial_text(job: Job, trial: Trial, dial: Dial | None = None) -> str:
    """The whole answer in the part's unit, ending with the action to take."""
    figures = figures_for(job.part)
    lines = [f"{job.part.title}: trial cuts"]
    if trial.laps > 1:
        lines.append(f"  lap {trial.lap} of {trial.laps}; the lap before it is taken as at depth")
    lines += columns(list(_rows(job, trial, figures)))
    if dial is not None:
        lines += paragraph(_dial_words(trial, dial, figures), "  ")
    lines += paragraph(_run_out_words(job, trial, figures), "  ")
    lines += ["", "Do now", *paragraph(_action(trial, dial, figures), "  ")]
    return "\n".join(lines) + "\n"


def _rows(job: Job, trial: Trial, figures: Figures) -> Iterator[tuple[str, str]]:
    last = job.plan.cuts[-1]
    count = len(trial.lands)
    yield f"Land measured{f', mean of {count}' if count > 1 else ''}", figures.both(trial.mean)
    if count > 1:
        yield "Scatter, greatest less least", figures.both(trial.scatter)
    yield "Land wanted at full depth", figures.both(trial.target)
    yield (
        "Infeed reached from zero A (tip on top)",
        _share(trial.from_top, last.infeed_from_top, figures),
    )
    yield (
        "Infeed reached from zero B (at the offset)",
        _share(trial.from_offset, last.infeed_from_offset, figures),
    )
    if trial.is_too_deep:
        yield "Too deep by", figures.both(-trial.remaining)
        return
    yield "Still to go", figures.both(trial.remaining)
    yield f"To dial, whole steps of {figures.length(trial.step)}", figures.both(trial.to_feed)
    yield "Land to expect then", figures.both(trial.expected)


def _share(done: float, whole: float, figures: Figures) -> str:
    return f"{figures.length(done)} of {figures.length(whole)}"


def _dial_words(trial: Trial, dial: Dial, figures: Figures) -> str:
    real = trial.from_top if dial.zero == "A" else trial.from_offset
    out = dial.travel - real
    said = f"The dial stands at {figures.length(dial.travel * dial.marked)} from zero {dial.zero}"
    if abs(out) <= trial.step:
        return f"{said}, and the land agrees with it."
    more = "less" if out > 0 else "more"
    return (
        f"{said}; the land says {figures.length(abs(out))} {more} than that is cut. The zero, the "
        "blank, the tip or the offset is out by so much: go by the land, and leave the dial's zero "
        "as it is."
    )


def _run_out_words(job: Job, trial: Trial, figures: Figures) -> str:
    found = trial.runout
    if found is not None:
        return _swing_words(job, found, figures)
    words = "Run-out: not known; it takes three lands or more, spread all round the wheel."
    if len(trial.lands) > 1:
        words += f" These lands scatter by {figures.length(trial.scatter)}."
    return words


def _swing_words(job: Job, found: RunOut, figures: Figures) -> str:
    teeth = job.made.teeth
    high = round(found.high_spot / job.made.angular_pitch) % teeth + 1
    low = (high - 1 + teeth // 2) % teeth + 1
    way = OTHER_HAND[job.plan.frame.stops_turn]
    return (
        f"Run-out: once a turn the lands swing by {figures.length(found.swing)} to each side of "
        f"their mean, as with {figures.length(found.reading)} on the indicator. High spot, and "
        f"least land, behind space {high}, {figures.angle(found.high_spot)} from the land behind "
        f"space 1, {way} seen from the free end; greatest land behind space {low}. The rest of "
        f"the scatter is {figures.length(found.rest)} at most."
    )


def _action(trial: Trial, dial: Dial | None, figures: Figures) -> str:
    if trial.is_too_deep:
        return _too_deep(trial, figures)
    if trial.to_feed == 0.0:
        return (
            f"Feed in no more: what is left is under one step of {figures.length(trial.step)}. "
            "Lock the infeed and go round at this setting."
        )
    words = f"Feed in {figures.length(trial.to_feed)} more"
    if dial is not None:
        now, goal = (
            figures.length(travel * dial.marked)
            for travel in (dial.travel, dial.travel + trial.to_feed)
        )
        words += f", from {now} to {goal} on the dial (zero {dial.zero})"
    return (
        f"{words}, without turning back past it. Cut the trial spaces again, measure, and "
        "only then go round."
    )


def _too_deep(trial: Trial, figures: Figures) -> str:
    short = figures.length(trial.target - trial.mean)
    back = math.ceil(-trial.remaining / trial.step - 1e-6) * trial.step
    return (
        f"Feed in no more: the land is already {short} under the one wanted. If that is within the "
        "print's tolerance, lock the infeed and go round at this setting, so that all lands are "
        f"alike. If not, the spaces cut cannot be put right: draw back {figures.length(back)} for "
        "the next blank."
    )
