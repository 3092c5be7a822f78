"""What there is to say of the blank, the machine, the stops and the gauging. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "blank-differs": Entry(
        says=(
            "the blank measures {measured} where the print has {nominal}; with {held} held this "
            "moves: {moved}; the settings are for this blank; to have the print's {make}"
        ),
        means=(
            "The blank was measured and is not of the print's size. The settings are for the blank "
            "as it is, and some of land, root, offset and infeed move with it; [blank] hold says "
            "which stays. Or turn another blank."
        ),
    ),
    "blank-refused": Entry(
        says="on the blank as measured {cause:short}",
        means=(
            "From the blank as measured no such teeth can be cut: with the sizes that are held "
            "they would meet, or not fit. Turn another blank, or hold the other size."
        ),
    ),
    "blank-unit": Entry(
        says="a blank of {size:both} is none for this wheel, and in {unit} it would be",
        means=(
            "The measured blank is some 25 times too big or too small for the wheel: it was "
            "measured in the other unit. Say the unit with the number, in quotes."
        ),
    ),
    "blank-runs-out": Entry(
        says={
            "": "the blank runs out, so the lands swing once a turn, wide to narrow",
            "teeth": "the blank runs out, so the teeth swing once a turn, thick to thin",
        },
        means=(
            "The blank does not run true with the head, so spaces come out deeper on one side than "
            "on the other, and the lands swing once a turn. Set it true with an indicator."
        ),
    ),
    "holder-touches": Entry(
        says={
            "holder": "its holder stands {inside} inside the work at full depth",
            "spindle": "the axis of its spindle stands {inside} inside the work at full depth",
        },
        means=(
            "The bar, collar or shank that carries the cutter turns with it and would run into the "
            "blank, its hub, or the bar behind it, before the tip is at depth. Let the cutter "
            "stand out further, or take a bigger one or a slimmer holder."
        ),
    ),
    "jaws-in-the-way": Entry(
        says=(
            "gripped by its hub, the wheel must stand {needed} clear of jaws and chuck that the "
            "tool runs out over, and the hub is {hub} long: put it on an arbor and write "
            "blank.bar_diameter, or grip it below the roots"
        ),
        means=(
            "The wheel is gripped by its hub, and the tool must run out past the teeth: it would "
            "run into the jaws or the chuck. Put the wheel on an arbor, let a longer hub stand "
            "out, or take jaws or a collet that lie below the roots."
        ),
    ),
    "feeler-thick": Entry(
        says=(
            "a feeler of {feeler:both} is thick for paper or foil; if it was measured in the other "
            "unit say so"
        ),
        means=(
            "What is laid between cutter and blank is thicker than paper or foil. It may be a "
            "gauge block, and then it is right; or the thickness was given in the other unit, and "
            "then every infeed is wrong by the difference."
        ),
    ),
    "stick-out-long": Entry(
        says="the bar stands out {out}, over three times its diameter",
        means=(
            "So many wheels on one bar make it stand far out of the jaws: it bends and chatters. "
            "Support its free end, or cut fewer at a time."
        ),
    ),
    "speed-capped": Entry(
        says=(
            "a single-point tool is held to {cap} turns a minute until its maker's limit is "
            "stated: look it up and give setup.speed_limit"
        ),
        means=(
            "By its sweep and the metal this single-point tool could run faster, but a tool made "
            "to stand still is not made to be spun. State the limit of tool, holder and machine."
        ),
    ),
    "metal-hardened": Entry(
        says=(
            "{material}: high-speed steel does not cut a hardened wheel: cut it before it is "
            "hardened and say so in material, such as to be hardened after cutting, or set up a "
            "cutter of carbide and say so in its material"
        ),
        means=(
            "The material is said to be hardened already. A cutter of high-speed steel rubs on it "
            "and is spoilt at once. Cut the wheel soft and harden it after, or cut it with carbide "
            "as its maker says."
        ),
    ),
    "cutter-soft": Entry(
        says=(
            "a cutter of {material} does not last in {steel}: take one of high-speed steel or "
            "carbide, and change {key}"
        ),
        means=(
            "The cutter is of plain hardened steel and the wheel is of steel: the edge is gone "
            "within a few spaces. It does for brass and aluminium."
        ),
    ),
    "index-inexact": Entry(
        says={
            "": (
                "the stops are not exact: the way from one to the next is up to {error:both} off "
                "round the outside, and a {between} with it, where it may be only {may:both} "
                "off{more}"
            ),
            "fits": (
                "the stops are not exact: the way from one to the next is up to {error:both} off "
                "round the outside, and a {between} with it, where it may be {may:both} off{more}"
            ),
        },
        means=(
            "The dividing hardware cannot stand at every stop exactly, so some spaces come out "
            "wider and some narrower. The error is told in mm round the outside. Within what a "
            "land may be off it does no harm. Beyond it the stops are refused and no reading is "
            "printed: take hardware with the positions that the finding names."
        ),
    ),
    "index-compound": Entry(
        says="compound dividing. {how}",
        means=(
            "Each stop is made by two movements, of the crank on one circle and of crank and plate "
            "on another. Every move adds to the one before: one slip spoils all that follow. Make "
            "the moves in the order told, and mark each one off."
        ),
    ),
    "index-differential": Entry(
        says="differential dividing. {how}",
        means=(
            "Change wheels turn the plate while the crank turns. It is exact when the plate is "
            "free and turns in the right sense: try it by hand, with the cutter clear, before you "
            "cut."
        ),
    ),
    "index-too-coarse": Entry(
        says=(
            "the hardware has only {most} positions in a turn, too few for {teeth} stops; "
            "{would_do}"
        ),
        means=(
            "The dividing hardware has fewer positions in a turn than the wheel has stops. Take a "
            "plate with the holes that the finding names, or a worm head."
        ),
    ),
    "pin-none": Entry(
        says={
            "": (
                "no standard pin rests on both flanks and stands proud of the crests, so none is "
                "proposed: try one with gauge.pin, or measure land and root"
            ),
            "curved": (
                "no usual pin rests on both flanks and stands proud of the tips, so none is "
                "proposed: try one with gauge.pin, or measure the span or the tooth"
            ),
        },
        means=(
            "No standard pin rests on both flanks and stands over the crests, so none is proposed. "
            "Try one of your own with gauge.pin, or measure in another way."
        ),
    ),
    "pin-falls-in": Entry(
        says={
            "": "a pin of {pin} falls through to the root",
            "curved": "a pin of {pin} touches the root and not the two true flanks",
        },
        means=(
            "The pin is so small that it falls through to the root of the space instead of resting "
            "on both flanks. Take a bigger pin."
        ),
    ),
    "pin-on-tips": Entry(
        says="a pin of {pin} rides on the tips of the teeth",
        means=(
            "The pin is so big that it rides on the tips of the teeth, which says nothing of the "
            "flanks. Take a smaller pin."
        ),
    ),
    "pin-not-proud": Entry(
        says={
            "": "a pin of {pin} lies below the crests, so that anvils would rest on the teeth",
            "curved": "a pin of {pin} lies below the tips, so that anvils would rest on the teeth",
            "ring": (
                "a pin of {pin} lies below the crests, so that a gauge between the pins would rest "
                "on the teeth"
            ),
        },
        means=(
            "The pin lies so deep that the anvils of the micrometer would rest on the teeth. Take "
            "a bigger pin."
        ),
    ),
    "blank-small": Entry(
        says={
            "": (
                "the blank measures {measured}, outside the limit of {source}; on it {land}the "
                "root {root}"
            ),
            "plain": "the blank measures {measured}, outside the limit of {source}",
        },
        means=(
            "The blank as measured is smaller than the limits of the outside diameter allow. The "
            "settings are for it all the same; the wheel is not the print's. Ask whether it may "
            "serve, or turn another blank."
        ),
    ),
    "blank-large": Entry(
        says={
            "": (
                "the blank measures {measured}, outside the limit of {source}; on it {land}the "
                "root {root}"
            ),
            "plain": "the blank measures {measured}, outside the limit of {source}",
        },
        means=(
            "The blank as measured is larger than the limits of the outside diameter allow. Turn "
            "it down before the teeth are cut."
        ),
    ),
    "tolerance-unused": Entry(
        says="this part has no {name} to have a tolerance, so it is used nowhere",
        means=(
            "A tolerance is given for a feature that this part does not have, so nothing goes by "
            "it. Take it out, or give the part the feature."
        ),
    ),
}
"""Finding code -> its entry."""
