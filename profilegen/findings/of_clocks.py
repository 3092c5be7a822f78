"""Words for findings of clock wheels, pinions and escape wheels. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "addendum-corner": Entry(
        says="the arcs of the tips meet the flanks with a corner of {corner}",
        means=(
            "Above the pitch circle a tooth is rounded by an arc, which does not quite go on from "
            "the straight flank. So sharp a corner between the two catches on the mate: ease it "
            "when the cutter is ground, or take more teeth or another height."
        ),
    ),
    "arc-past-tip": Entry(
        says="the arcs rise above the tip before they reach it, which leaves a dent",
        means=(
            "The teeth are so low for their arcs, or so thick, that the arcs would bulge over the "
            "tip and meet in a dent. Higher teeth or thinner ones end in a tip."
        ),
    ),
    "arc-short": Entry(
        says="the arcs are too small to run from the pitch circle to the tip",
        means=(
            "No arc of this radius goes through both the flank at the pitch circle and the tip: "
            "the tooth is too thick for it."
        ),
    ),
    "clock-teeth-few": Entry(
        says="so few teeth cannot run with any mate",
        means=(
            "Two or three teeth cannot hand the motion on from one to the next. Clocks have six "
            "leaves or more; four are the fewest that are drawn."
        ),
    ),
    "leaves-few": Entry(
        says="a pinion of {leaves} leaves is driven far before the line of centres",
        means=(
            "With so few leaves the wheel pushes each leaf long before the line of centres, where "
            "teeth and leaves grind into each other. Clocks have six leaves or more."
        ),
    ),
    "mate-missing": Entry(
        says="wheel.mate_teeth is not given, so no centre distance is told",
        means=(
            "The count of the wheel or pinion that this one runs with is not given. Its shape is "
            "right all the same where the proportions do not go by the mate."
        ),
    ),
    "root-over-pitch": Entry(
        says="the root begins above the pitch circle, so no flank is left",
        means=(
            "The spaces are so shallow for their width that nothing of the straight flanks below "
            "the pitch circle is left. Make them deeper, or the teeth thicker."
        ),
    ),
    "space-filled": Entry(
        says="the teeth take up the whole pitch",
        means="The teeth are as thick as the pitch: nothing is left to cut between them.",
    ),
    "ten-leaves": Entry(
        says={
            "trade": (
                "for 10 leaves the sources disagree: taken are leaves two fifths of the pitch "
                "wide, as the trade's cutters have them, and a whole depth of 2.855 modules; BS "
                "978-2 has narrow leaves, by wheel.leaf_width 1.05"
            ),
            "standard": (
                "for 10 leaves the sources disagree: taken are narrow leaves of 1.05 modules, as "
                "BS 978-2 has them; the trade's cutters have wide ones, by wheel.leaf_width 1.257"
            ),
        },
        means=(
            "Tables of pinion cutters give 10 leaves two fifths of the pitch, BS 978-2 counts 10 "
            "among the narrow leaves. Look which your print or the old pinion has. A table that "
            "prints a whole depth of 2.755 modules for 10 leaves contradicts its own blank and "
            "root, which give 2.855."
        ),
    ),
}
"""Finding code -> its entry."""
