"""Words for findings of gears. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "cutter-hollow": Entry(
        says=(
            "a gear of {made_for} teeth is undercut, and a cutter of its space, fed straight in, "
            "cannot leave that hollow: the flanks begin at a diameter of {true_from}, and the wall "
            "below them is straight"
        ),
        means=(
            "The space that the cutter has is wider inside than further out. Fed straight in, the "
            "cutter clears all above its widest place, so that the foot of the tooth is straight "
            "and the flank that drives is a little shorter. Nothing is to be done about it."
        ),
    ),
    "cutter-range": Entry(
        says=(
            "no set has a form cutter for {teeth} teeth: cut by a fly cutter ground to the space, "
            "or make wheel.teeth at least 12"
        ),
        means=(
            "Sets of form cutters for gears begin at 12 teeth. For fewer, grind a fly cutter to "
            "the space of this very gear, or take more teeth."
        ),
    ),
    "flank-gone": Entry(
        says="the root takes away the whole flank",
        means=(
            "Nothing of the true flank is left between the root and the outside: the root cuts it "
            "all away, or the outside is too small. Such teeth cannot drive."
        ),
    ),
    "flank-proud": Entry(
        says=(
            "a cutter made for {made_for} teeth leaves up to {proud} of metal outside the true "
            "flank"
        ),
        means=(
            "The cutter is made for more teeth than the gear has, and its space is too narrow at "
            "the mouth: the tips of the teeth are too thick and rub in the mate. Cutters of a set "
            "are made for the lowest count of their range for this reason."
        ),
    ),
    "gear-bottoms": Entry(
        says="the tips reach deeper than the spaces of a mating rack are",
        means=(
            "The outside diameter is so big that the tips of the teeth would rub on the floor of a "
            "mating rack's spaces. Two addenda over the pitch circle, and the shift, are usual."
        ),
    ),
    "gear-interference": Entry(
        says=(
            "the root rises to a diameter of {form}, and the tips of a mating rack come down to "
            "{tips}"
        ),
        means=(
            "The round of the root begins so high that the tips of a mating rack or a big wheel "
            "run on it instead of on the true flank: the pair would run hard and noisy. More "
            "dedendum or a smaller tip radius of the rack lowers it."
        ),
    ),
    "gear-undercut": Entry(
        says=(
            "{teeth} teeth are undercut: the root cuts into the flanks, which are true only from a "
            "diameter of {true_from} on"
        ),
        means=(
            "The gear has so few teeth that the rack cuts a hollow into the foot of each flank. "
            "The teeth are weaker, and the flank that drives is shorter. A cutter that is fed "
            "straight in cannot leave a hollow that is wider than its mouth: check tells what "
            "stays. A greater profile shift keeps the flank whole; the centre distance grows with "
            "it."
        ),
    ),
    "shift-by-depth": Entry(
        says={
            "": (
                "a form cutter knows no profile shift: it is only set {by} less deep, and the "
                "flanks are then {off} inside the true ones at the tip"
            ),
            "in": (
                "a form cutter knows no profile shift: it is only set {by} deeper, and the flanks "
                "are then {off} inside the true ones at the tip"
            ),
        },
        means=(
            "A cutter of a set has the space of a gear without profile shift. Set less deep or "
            "deeper it makes the teeth thicker or thinner, but the flanks keep the curve of the "
            "gear without shift. How far they are off is told; a true shifted gear needs a "
            "rack-type cutter, or a fly cutter ground to its space."
        ),
    ),
    "tip-past-point": Entry(
        says={
            "": "the flanks meet below the outside diameter",
            "at": "the flanks meet at a diameter of {point}, below the tips",
        },
        means=(
            "The two flanks of a tooth meet before the outside diameter is reached: the teeth "
            "would be pointed, and the blank cut down. Make the outside diameter smaller, or the "
            "shift of a gear less."
        ),
    ),
    "tip-thin": Entry(
        says="the teeth are only {width} wide at the tip",
        means=(
            "The tips are thin: they burr when they are cut, and chip when hardened. A smaller "
            "outside diameter, or less shift, leaves them wider."
        ),
    ),
    "tooth-gone": Entry(
        says={
            "": "nothing is left of the tooth at the pitch circle",
            "gaps": "the gaps leave no tooth between them",
            "seats": "the seats of the rollers run into each other",
        },
        means=(
            "Between two spaces nothing is left of the tooth. On a gear the thinning, or the "
            "negative shift, eats it up: thinning is a few hundredths of a millimetre on a gear of "
            "module 1. On a sprocket the roller is too big for the pitch, or the count too small."
        ),
    ),
    "undercut-through": Entry(
        says="the rack cuts the teeth off at their roots",
        means=(
            "The rack cuts every tooth off at its foot: so few teeth do not bear such a shift. "
            "Take less shift, or more teeth."
        ),
    ),
}
"""Finding code -> its entry."""
