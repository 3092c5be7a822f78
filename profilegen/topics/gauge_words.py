"""The words of gauging: how each size is taken, and where its limits come from.

Owns the sentences that the gauge text and the record sheet share. Refuses places and sizes on
paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from profilegen.cutting.fit import Fit
from profilegen.figures import Figure, Figures
from profilegen.findings.telling import told
from profilegen.gauging import pin_sizes
from profilegen.gauging.curved_flanks import is_curved
from profilegen.gauging.feature import Feature
from profilegen.gauging.gauges import Gauges
from profilegen.geometry.tolerance import SAME_POINT
from profilegen.geometry.tooth_sizes import apart
from profilegen.job import Job
from profilegen.topics.topic import Table

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


def sizes(feature: Feature) -> tuple[Figure, Figure, Figure]:
    """Nominal, low and high, mm or rad as the feature has them; the limits are rounded inwards."""
    limits = feature.limits
    ends = (limits.low, limits.high)
    return (
        Figure((limits.nominal, *ends), feature.quantity, "within"),
        Figure(ends, feature.quantity, "limits", "{0}"),
        Figure(ends, feature.quantity, "limits", "{1}"),
    )


def measured(job: Job) -> Table:
    """Everything that is measured: nominal, low, high and instrument; mm and rad until written."""
    rows = (
        (named(one, job.part.figures), *sizes(one), one.instrument) for one in job.gauges.features
    )
    titles = ("", "nominal", "low", "high", "with")
    return Table(titles, tuple(rows))


def between(feature: Feature) -> Figure:
    """The limits of a size, mm or rad, from the least to the greatest."""
    return replace(sizes(feature)[1], words="{} to {}")


def named(feature: Feature, figures: Figures) -> str:
    """The feature's label, with the pins it is measured over.

    Args:
        feature: its pins in mm.
        figures: the unit in which they are told.
    """
    over = "" if feature.over is None else f" of {_pin(feature.over, figures)}"
    return f"{feature.label}{over}"


def _pin(diameter: float, figures: Figures) -> str:
    """The pins' diameter."""
    return f"Ø {pin_sizes.pin_name(diameter, figures.unit, figures.length(diameter))}"


def head_lines(job: Job) -> Iterator[str]:
    """What comes before every size: that the cutter leaves others, or for which blank they are."""
    gauges, figures = job.gauges, job.part.figures
    left = gauges.leaves
    if left is not None:
        root, crest = figures.length(2 * left.root_radius), figures.length(left.land)
        makes = f"land {crest}, hook {figures.angle(left.hook)}, root Ø {root}"
        if not job.made.has_lands:
            makes = f"tip {crest}, root Ø {root}"
        yield f"{mismatch(left, figures)}; it makes {makes}; the sizes below are the print's."
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
    """That the cutter set up does not match, and what it leaves where.

    Args:
        left: what it makes of a space, mm.
        figures: the unit in which that is told.
    """
    over = left.left_over
    return (
        "The cutter set up does not match: it leaves "
        f"{figures.length(over.value)} at the {over.where}"
    )


def how_lines(job: Job) -> Iterator[str]:
    """How sizes are taken, and what the one over pins says of the infeed."""
    gauges, figures = job.gauges, job.part.figures
    if gauges.pin is not None:
        on_root = job.made.pins_rest_on == "root"
        rest = "lie on the floor of its space" if on_root else "touch both flanks"
        angles = ", with the angles as drawn" if job.made.space.face is not None else ""
        yield (
            f"Lay two straight pins of {_pin(gauges.pin, figures)} in opposite spaces, or as "
            f"near opposite as the count allows; each must {rest} and stand over the crests. Its "
            f"limits are those of the {gauges.varied}{angles}."
        )
    if gauges.infeed_per_size is not None:
        tenth = 0.1 if figures.unit == "mm" else 0.254
        more = figures.length(tenth * gauges.infeed_per_size)
        lap = " in the last lap" if len(job.plan.cuts) > 1 else ""
        yield (
            f"Over pins too big by {figures.length(tenth)} wants {more} more infeed{lap}, at the "
            "same offset; take it in proportion, and rather less than more."
        )
    yield from centring_lines(job)
    yield from _blank_lines(job, gauges, figures)
    for finding in gauges.findings:
        yield f"{finding.severity.capitalize()}: {told(finding, figures)}."
    yield from _face_lines(gauges, job)


def centring_lines(job: Job) -> Iterator[str]:
    """How far a cutter on centre stood off: read in one space on both sides of the axis, where pins
    find a rest. A space that stands off by e is e over the axis on one side and e under it on the
    other (plane geometry, derived here)."""
    cuts, made = job.plan.cuts, job.made
    on_centre = len(cuts) == 1 and abs(cuts[0].offset) < SAME_POINT
    if job.gauges.pin is None or made.hand is not None or not is_curved(made) or not on_centre:
        return
    if job.plan.frame.cutter_side == "above":
        first, off = (
            "turn a space from where it was cut by just a quarter turn, to 3 o'clock",
            "it stood off towards the side that reads lower",
        )
    else:
        first, off = (
            "leave a space where it was cut, at 3 or at 9 o'clock",
            "it stood too high where the first reading is the higher one",
        )
    yield (
        f"Centring, which spans and sizes over pins hardly show: {first}; lay one pin in it and "
        "read a dial over the pin; turn just half a turn by the head and read again. Half the "
        f"difference is how far the cutter stood off the axis; {off}."
    )


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


def _face_lines(gauges: Gauges, job: Job) -> Iterator[str]:
    """How a face is levelled, and a caliper laid over crests."""
    face = gauges.feature("levelled_face")
    if face is not None:
        yield (
            "Levelled face: turn a face until it lies level and looks up, and take its height "
            "over the wheel axis; minus is below the axis, towards the face's own tooth."
        )
    if gauges.feature("chordal") is not None:
        yield (
            "Tooth thickness: set the height of the tooth vernier as told, changed by half of what "
            "the blank is over or under its nominal diameter; measure at the middle of the width."
        )
    if gauges.feature("span") is not None and is_curved(job.made):
        yield (
            f"Span: flat jaws over {gauges.span_teeth} teeth, on the flanks about half way up; "
            "rock them, the least reading counts."
        )
    elif gauges.feature("span") is not None:
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
