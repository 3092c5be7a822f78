"""The words of gauging: how each size is taken, where its limits come from, how a square is made.

Owns the sentences that the gauge text and the record sheet share. Refuses places and sizes on
paper.
"""

from __future__ import annotations

from collections.abc import Iterator

from profilegen.cutting.fit import Fit
from profilegen.gauging import pin_sizes
from profilegen.gauging.bores import BorePlan
from profilegen.gauging.drills import GREATEST
from profilegen.gauging.feature import Feature
from profilegen.gauging.gauges import Gauges
from profilegen.gauging.pins import apart
from profilegen.gauging.slotting import Slotting, flats_after
from profilegen.job import Job
from profilegen.reports.figures import Figures

SAFETY = (
    "Spindle off and stopped before you measure; take burrs off first, they cut fingers and "
    "spoil the reading.",
    "The machine's manual, local rules and qualified practice come before this sheet.",
)
"""Usual shop cautions when measuring."""

CUT = (
    *("root_diameter", "across_roots", "land", "space_angle", "hook_angle", "levelled_face"),
    *("span", "over_pins"),
)
"""Features whose nominal is what the settings make; that of a bore is only what limits count from,
and a class such as F8 leaves it out."""

SLOT_SAFETY = (
    "Spindle isolated from its power, not only switched off, and locked against turning.",
    "Eye protection and a guard: a hardened corner tool can shatter. Feed straight, never force "
    "or pull a tool that has stuck.",
    "Lock head and slides before each stroke; keep fingers out of the stroke.",
)
"""Usual cautions when slotting with a standing spindle; they defer to the machine's manual."""


def sizes(feature: Feature, figures: Figures) -> tuple[str, str, str]:
    """Nominal, low and high with their unit; the limits rounded inwards."""
    limits, is_angle = feature.limits, feature.quantity == "angle"
    low, high = figures.limits(limits.low, limits.high, is_angle=is_angle)
    return figures.within(limits.nominal, limits.low, limits.high, is_angle=is_angle), low, high


def named(feature: Feature, figures: Figures) -> str:
    """The feature's label, with the pins it is measured over."""
    over = "" if feature.over is None else f" of {pin_name(feature.over, figures)}"
    return f"{feature.label}{over}"


def pin_name(diameter: float, figures: Figures) -> str:
    """The pins' diameter."""
    return f"Ø {pin_sizes.pin_name(diameter, figures.unit, figures.length(diameter))}"


def head_lines(gauges: Gauges, figures: Figures) -> Iterator[str]:
    """What comes before every size: that the cutter leaves others, or for which blank they are."""
    left = gauges.leaves
    if left is not None:
        yield (
            f"{mismatch(left, figures)}; it makes land {figures.length(left.land)}, hook "
            f"{figures.angle(left.hook)}, root Ø {figures.length(2 * left.root_radius)}; the sizes "
            "below are the print's."
        )
    if gauges.blank is not None:
        yield (
            f"For the blank as measured, Ø {figures.length(gauges.blank)}: every size that follows "
            "from it is told for it, with the print's tolerances. The outside diameter is the "
            "print's."
        )
    cut = [one for one in gauges.features if one.key in CUT]
    if outside := [one.label.lower() for one in cut if not one.limits.has_nominal]:
        told = "; ".join(outside)
        yield f"As set up these miss what the print's tolerances allow on this blank: {told}."


def mismatch(left: Fit, figures: Figures) -> str:
    """That the cutter set up does not match, and what it leaves where."""
    over = left.left_over
    return (
        "The cutter set up does not match: it leaves "
        f"{figures.length(over.value)} at the {over.where}"
    )


def pin_lines(job: Job, gauges: Gauges, figures: Figures) -> Iterator[str]:
    """How the size over pins is taken and what it says of the infeed."""
    if gauges.pin is not None:
        yield (
            f"Lay two straight pins of {pin_name(gauges.pin, figures)} in opposite spaces, or as "
            "near opposite as the count allows; each must touch face and back and stand over the "
            "crests. Its limits are those of the "
            f"{gauges.varied}, with the angles as drawn."
        )
    if gauges.infeed_per_size is not None:
        tenth = 0.1 if figures.unit == "mm" else 0.254
        more = figures.length(tenth * gauges.infeed_per_size)
        lap = " in the last lap" if len(job.plan.cuts) > 1 else ""
        yield (
            f"Over pins too big by {figures.length(tenth)} wants {more} more infeed{lap}, at the "
            "same offset; take it in proportion, and rather less than more."
        )
    yield from _blank_lines(job, gauges, figures)
    for finding in gauges.findings:
        yield f"{finding.severity.capitalize()}: {finding.message}."


def _blank_lines(job: Job, gauges: Gauges, figures: Figures) -> Iterator[str]:
    """What a blank other than the nominal one does to the limits that count on it."""
    moved = {"size over pins": gauges.size_per_blank, "root diameter": gauges.root_per_blank}
    if gauges.feature("across_roots") is not None and gauges.root_per_blank is not None:
        moved["size from root to root"] = gauges.root_per_blank * apart(job.wheel.teeth)
    tenth = 0.1 if figures.unit == "mm" else 0.254
    said = [
        f"the {name} and its limits are {figures.length(tenth * share)} less"
        for name, share in moved.items()
        if share is not None and abs(share) > 0.01
    ]
    if said:
        yield (
            f"On a blank that is {figures.length(tenth)} smaller {', '.join(said)}, at the same "
            f"{gauges.varied}: measure the blank first."
        )


def face_lines(gauges: Gauges, job: Job) -> Iterator[str]:
    """How a face is levelled, and a caliper laid over crests."""
    face = gauges.feature("levelled_face")
    if face is not None:
        yield (
            "Levelled face: turn a face until it lies level and looks up, and take its height "
            "over the wheel axis; minus is below the axis, towards the face's own tooth."
        )
    if gauges.feature("span") is not None:
        yield (
            f"Over crests: thin jaws over {gauges.span_teeth} teeth, outer corner to outer corner."
        )
    if job.part.bore.kind in ("square", "hexagon"):
        yield (
            "Bore: the go gauge enters with its full form; the no-go stays out, on every pair "
            "of flats."
        )
    elif job.wheel.bore is not None:
        yield "Bore: the go gauge enters to its full length; the no-go stays out at both ends."


def default_lines(gauges: Gauges) -> Iterator[str]:
    """Where the limits come from: the part file, a default, or another size."""
    by_source: dict[tuple[str, bool], list[str]] = {}
    for feature in gauges.features:
        limits = feature.limits
        by_source.setdefault((limits.source, limits.is_default), []).append(feature.label.lower())
    for (source, is_default), labels in by_source.items():
        origin = ", the default" if is_default and not source.startswith("follows") else ""
        yield f"{'; '.join(labels)}: {source}{origin}"
    yield "low is rounded up and high down: what reads within them is within"


def pilot_rows(plan: BorePlan, figures: Figures) -> list[tuple[str, str, str, str]]:
    """A header, then every drill: its name, diameter, share of flat left, and a mark."""
    rows = [("drill", "diameter", "flat left", "")]
    for pilot in plan.pilots:
        mark = "proposed" if pilot == plan.usual else ""
        share = f"{100 * pilot.share:.0f} %"
        rows.append((pilot.drill.name, figures.length(pilot.drill.diameter), share, mark))
    return rows


def no_pilot(plan: BorePlan, figures: Figures) -> str:
    """What to do where the lists of drills have none."""
    most = figures.length(GREATEST[plan.sides] * plan.across_flats)
    return (
        f"No listed drill lies between {figures.length(plan.across_flats)} and {most}: make the "
        "pilot another way, such as by boring."
    )


def _travel_lines(slotting: Slotting, pilot: float, figures: Figures) -> Iterator[str]:
    """How far the tool goes, and what its corner and the pilot as drilled change in that."""
    corner, travel = slotting.corner_radius, figures.length(slotting.travel)
    tool = f"a tool corner of R {figures.length(corner)}" if corner else "a sharp tool corner"
    yield (
        "Zero: the tool's 90 deg corner points straight away from the axis and just touches the "
        f"pilot's wall. Travel from there to the corner, with {tool}: {travel}, in "
        f"{slotting.strokes} strokes of {figures.length(slotting.step)} or less; the last ones "
        "without further infeed."
    )
    if corner:
        yield (
            f"A sharp tool travels {figures.length(slotting.sharp_travel)} for the same flats: "
            f"after {travel} they are {figures.length(flats_after(slotting.travel, pilot))}."
        )
    else:
        yield "A tool corner with a radius travels 0.414 of that radius less, for the same flats."
    yield (
        "Measure the pilot first: zero is its real wall. Take half of what it measures over "
        f"{figures.length(pilot)} off the travel, or the flats come out 0.707 of it too big; under "
        "that size add half."
    )


def slotting_lines(job: Job, plan: BorePlan, slotting: Slotting, figures: Figures) -> Iterator[str]:
    """The square slotted on the bar, step by step."""
    pilot = plan.usual.drill if plan.usual else None
    if pilot is None:
        return
    corners = ", ".join(figures.angle(corner) for corner in slotting.corners)
    yield (
        "Stand the indexing head upright under the quill, the bar still in it, its axis true to "
        "the quill's travel. Isolate the spindle from its power and lock it; the quill alone moves."
    )
    blank = job.part.blank
    wheels = f" of {blank.count} wheels" if blank.count > 1 else ""
    yield (
        f"Drill {pilot.name} at least {figures.length(slotting.pilot_depth)} deep: the stroke of "
        f"{figures.length(slotting.stroke)}{wheels} ends {figures.length(blank.parting_width)} "
        "beyond the part-off plane, and the rest is room for chips."
    )
    yield from _travel_lines(slotting, pilot.diameter, figures)
    yield (
        "Four stops of 90 deg. Corners from the face tip of tooth 1, counter-clockwise seen from "
        f"the front: {corners}."
    )
    web = next((fact.value for fact in job.wheel.bore_facts if fact.key == "web"), None)
    if isinstance(web, float):
        yield f"Wall left from corner to root: {figures.length(web)}."
