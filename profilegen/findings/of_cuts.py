"""What there is to say of a cutter, its cuts and trial cuts. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "no-cutter": Entry(
        says=(
            "no cutter is given, so nothing is set up: add a [[cutter]], or name your drawer by "
            'drawer = "..."; profilegen cutters says which cutters would do'
        ),
        means=(
            "No cutter is given, so the wheel is solved and drawn but nothing is set up. Enough "
            "for a wheel that is bought."
        ),
    ),
    "form-without-teeth": Entry(
        says="this wheel has no teeth on its outside, so no cutter has their space: name another",
        means=(
            "A form cutter has the space between the teeth of a wheel, and the wheel named there "
            "has none on its outside."
        ),
    ),
    "cutter-needless": Entry(
        says="nothing of this wheel is cut by dividing with a cutter, so it is not set up",
        means=(
            "The file has a [[cutter]], and the wheel has no teeth on its outside that one could "
            "cut. The cutter is left out of everything."
        ),
    ),
    "cutter-chosen": Entry(
        says=(
            "{cutter} is set up, the best of the cutters in {drawer}: profilegen cutters ranks "
            "them all, and setup.cutter names the one to set up"
        ),
        means=(
            "The part has no cutter of its own and asks for none of its drawer, so the one that "
            "forms the space best is set up. Name another in [setup] cutter if you would rather "
            "have it."
        ),
    ),
    "cutter-usable": Entry(
        says=(
            "it leaves {left} at the {place}, within your setup.accept of {accept}: usable; {makes}"
        ),
        means=(
            "The cutter does not match the space; what it leaves in it at its deepest stays within "
            "the left-over that [setup] accept calls usable."
        ),
    ),
    "cutter-leaves": Entry(
        says="at its deepest it leaves {left} at the {place}, and {makes}",
        means=(
            "A cutter that is no matching wedge, or whose stand is held, is plunged as deep as it "
            "goes without entering a tooth, and metal stays in the space. `profilegen cutters` "
            "says how much and where."
        ),
    ),
    "cutter-too-wide": Entry(
        says="a wedge wider than the space cannot form it",
        means=(
            "The cutter's included angle is greater than the space angle. Whatever you do it takes "
            "metal off a flank that should stay. Take a narrower cutter; two laps then form the "
            "space."
        ),
    ),
    "island-left": Entry(
        says="even three cuts of this wedge would leave an island in the space",
        means=(
            "The cutter is so narrow that even two cuts leave a ridge standing in the middle of "
            "the space. Take a wider cutter."
        ),
    ),
    "root-too-tight": Entry(
        says="the cutter's tip is too blunt for the root",
        means=(
            "The cutter's tip is blunter than the root allows, so it cannot get down between the "
            "flanks. Sharpen the tip, or allow a bigger root radius."
        ),
    ),
    "root-not-exact": Entry(
        says="the root is wanted exactly as drawn and the cutter's tip is sharper",
        means=(
            "The part wants just this root radius, and the cutter's tip is sharper. Stone the tip "
            "to the radius, or allow a smaller one."
        ),
    ),
    "edge-short": Entry(
        says={
            "": "the cutter's edge ends within its tip",
            "flank": "its edges end {short} before the blank's edge, so they leave part of a flank",
        },
        means=(
            "The cutting edges end before the flank does, so that the body of the cutter rubs or "
            "cuts where it should not. Take a cutter with longer edges or a wider body."
        ),
    ),
    "hand-contradiction": Entry(
        says=(
            "with the head on the {head}, the cutter {side} and its flat {flat} the wheel comes "
            "out {comes} seen from the free end, and the part asks for {wanted}"
        ),
        means=(
            "Head, side of the cutter and its flat together make a wheel of the other hand than "
            "the part asks for. Turn the wheel over, the cutter over, or go to the other side."
        ),
    ),
    "flank-curved": Entry(
        says={
            "": "a wedge forms straight flanks only",
            "held": "a curved face stands at no one angle: set the offset alone",
        },
        means="A straight-edged cutter cannot form a curved flank: it takes a form cutter.",
    ),
    "cutter-misses": Entry(
        says="the cutter passes beside the blank",
        means=(
            "At its offset the cutter passes beside the blank without touching it: these are not "
            "the numbers of a cutter for this wheel."
        ),
    ),
    "cutter-cannot-enter": Entry(
        says={
            "": "the cutter cannot enter the space",
            "crests": "the cutter stops at the crests of the teeth",
            "why": "{why}",
            "drawing": (
                "no cutter enters the space, so there is nothing to draw: try another drawer"
            ),
        },
        means=(
            "However the wheel is turned and the cutter offset, it stops at the crests of the "
            "teeth: it is too broad for the space. Take a narrower cutter."
        ),
    ),
    "tip-assumed-sharp": Entry(
        says=(
            "the tip is taken as sharp, and no tip is: measure it and give {cutter}.tip_radius or "
            "{cutter}.tip_flat, 0.1 mm say"
        ),
        means=(
            "Neither tip radius nor tip flat is given, so the tip is taken as sharp, which none "
            "is. The infeed comes out too small. Measure the tip."
        ),
    ),
    "root-deeper": Entry(
        says="its tip leaves a sharper, deeper root of diameter {root}; for the root drawn {make}",
        means=(
            "The tip of the cutter is sharper than the root drawn, so it cuts a little deeper to "
            "form both flanks. Harmless when the web allows it; a tip of the root's radius leaves "
            "the root as drawn."
        ),
    ),
    "root-rounded": Entry(
        says="its tip leaves a root of diameter {root} where the print draws a sharp one",
        means=(
            "The print draws a sharp root and the cutter's tip is blunt, so the root comes out "
            "rounded and less deep. Say so on the print, or take a sharper tip."
        ),
    ),
    "two-laps": Entry(
        says=(
            "{cutter} is {spare} narrower than the space: {laps} laps, the {first}s first; for one "
            "lap take a cutter of {angle}"
        ),
        means=(
            "The cutter is narrower than the space, so every space takes two cuts: all faces in "
            "one lap, then one change of setting, then all backs."
        ),
    ),
    "cut-pulls-out": Entry(
        says=(
            "a conventional cut pulls the work out of the chuck: grip it well and stop it endwise, "
            "or change setup.cutter_side, or setup.spindle with a cutter of the other hand"
        ),
        means=(
            "In a conventional cut the cutter pulls the work out of the chuck. Grip it well and "
            "stop it endwise, or stand the cutter on the other side."
        ),
    ),
    "plain-wheel": Entry(
        says=(
            "both faces are alike: turned over, it serves as the other hand, so setup.front may as "
            'well be "{front}" with the other rotation'
        ),
        means=(
            "Nothing on the wheel tells its two faces apart, so turned over it is the other hand. "
            "Handy when only one side of the machine suits."
        ),
    ),
    "flat-unused": Entry(
        says="this cutter has no flat that looks up or down",
        means=(
            "[setup] says where the flat of the cutter looks, but this cutter has two equal "
            "flanks, or stands above the work, so the key says nothing."
        ),
    ),
    "edge-off-line": Entry(
        says={
            "ahead": (
                "its edge stands {off} ahead of the spindle's radius line, so the flanks come out "
                "up to {worst} off"
            ),
            "behind": (
                "its edge stands {off} behind the spindle's radius line, so the flanks come out up "
                "to {worst} off"
            ),
        },
        means=(
            "An edge that stands off the line from the spindle's axis to its tip sweeps a wider "
            "and slightly curved space. The sheet's dials are for an edge on the line: set it "
            "there."
        ),
    ),
    "heel-rubs": Entry(
        says="spun on this sweep its heel rubs at the {place}",
        means=(
            "Spun on this circle, the body of the tool behind its edge reaches farther out than "
            "the edge itself, so it rubs and burnishes instead of cutting. Swing it on a bigger "
            "circle, grind more relief, or back the heel off."
        ),
    ),
    "relief-tight": Entry(
        says="the heel clears with less than 2° to spare when it is spun",
        means=(
            "Spun on this circle the heel of the tool just clears: 2 to 3 degrees more relief than "
            "the limit is wanted for the feed, for dust and for wear."
        ),
    ),
    "land-unreachable": Entry(
        says={
            "shallow": (
                "the cuts are not deep enough when the {name} is {size:both}: between the first "
                "touch and full depth it goes from {untouched:both} down to {target:both}; measure "
                "the {name} again, {how}"
            ),
            "none": (
                "no {name} is {size:both}: between the first touch and full depth it goes from "
                "{untouched:both} down to {target:both}; measure the {name} again, {how}"
            ),
        },
        means=(
            "No depth of this cut leaves the land that was measured: before the first touch there "
            "is no land but the whole pitch. Measure again, or look whether the right cutter is "
            "set up."
        ),
    ),
}
"""Finding code -> its entry."""
