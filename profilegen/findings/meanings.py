"""What every finding code means at the bench: data only.

A test holds this table against the codes that the package raises, both ways.
"""

from __future__ import annotations

from typing import Final

CODES: Final[dict[str, str]] = {
    "back-dips": (
        "The back of the tooth runs in below its own foot and rises again before the root. A "
        "pawl that slides down the back stops short of the face. A smaller space angle lifts "
        "the back."
    ),
    "blank-differs": (
        "The blank was measured and is not of the print's size. The settings are for the blank as "
        "it is, and some of land, root, offset and infeed move with it; [blank] hold says which "
        "stays. Or turn another blank."
    ),
    "blank-fixed": (
        "The teeth of this form belong to one blank only: none of its sizes can give way to a "
        "bigger or smaller one. Turn the blank to size."
    ),
    "blank-refused": (
        "From the blank as measured no such teeth can be cut: with the sizes that are held they "
        "would meet, or not fit. Turn another blank, or hold the other size."
    ),
    "blank-large": (
        "The blank as measured is larger than the limits of the outside diameter allow. Turn it "
        "down before the teeth are cut."
    ),
    "blank-small": (
        "The blank as measured is smaller than the limits of the outside diameter allow. The "
        "settings are for it all the same; the wheel is not the print's. Ask whether it may serve, "
        "or turn another blank."
    ),
    "blank-unit": (
        "The measured blank is some 25 times too big or too small for the wheel: it was measured "
        "in the other unit. Say the unit with the number, in quotes."
    ),
    "blank-runs-out": (
        "The blank does not run true with the head, so spaces come out deeper on one side than on "
        "the other, and the lands swing once a turn. Set it true with an indicator."
    ),
    "bore-breaks-out": (
        "The bore is so big that it runs into the roots: nothing would hold the teeth together."
    ),
    "bore-impossible": (
        "The sizes of the bore contradict each other, such as corner radii that leave no "
        "flat, or a key as wide as its bore."
    ),
    "cut-pulls-out": (
        "In a conventional cut the cutter pulls the work out of the chuck. Grip it well and "
        "stop it endwise, or stand the cutter on the other side."
    ),
    "cutter-cannot-enter": (
        "However the wheel is turned and the cutter offset, it stops at the crests of the teeth: "
        "it is too broad for the space. Take a narrower cutter."
    ),
    "cutter-chosen": (
        "The part has no cutter of its own and asks for none of its drawer, so the one that forms "
        "the space best is set up. Name another in [setup] cutter if you would rather have it."
    ),
    "cutter-leaves": (
        "A cutter that is no matching wedge, or whose stand is held, is plunged as deep as it goes "
        "without entering a tooth, and metal stays in the space. `profilegen cutters` says how "
        "much and where."
    ),
    "cutter-usable": (
        "The cutter does not match the space; what it leaves in it at its deepest stays within the "
        "left-over that [setup] accept calls usable."
    ),
    "cutter-misses": (
        "At its offset the cutter passes beside the blank without touching it: these are not "
        "the numbers of a cutter for this wheel."
    ),
    "cutter-soft": (
        "The cutter is of plain hardened steel and the wheel is of steel: the edge is gone within "
        "a few spaces. It does for brass and aluminium."
    ),
    "cutter-too-wide": (
        "The cutter's included angle is greater than the space angle. Whatever you do it "
        "takes metal off a flank that should stay. Take a narrower cutter; two laps then form "
        "the space."
    ),
    "edge-off-line": (
        "An edge that stands off the line from the spindle's axis to its tip sweeps a wider and "
        "slightly curved space. The sheet's dials are for an edge on the line: set it there."
    ),
    "edge-short": (
        "The cutting edges end before the flank does, so that the body of the cutter rubs or "
        "cuts where it should not. Take a cutter with longer edges or a wider body."
    ),
    "flank-curved": "A straight-edged cutter cannot form a curved flank: it takes a form cutter.",
    "flanks-miss": (
        "Face and back of one space never meet inside the blank: the space angle is too small "
        "for the land and the number of teeth."
    ),
    "flat-unused": (
        "[setup] says where the flat of the cutter looks, but this cutter has two equal "
        "flanks, or stands above the work, so the key says nothing."
    ),
    "hand-contradiction": (
        "Head, side of the cutter and its flat together make a wheel of the other hand than "
        "the part asks for. Turn the wheel over, the cutter over, or go to the other side."
    ),
    "heel-rubs": (
        "Spun on this circle, the body of the tool behind its edge reaches farther out than the "
        "edge itself, so it rubs and burnishes instead of cutting. Swing it on a bigger circle, "
        "grind more relief, or back the heel off."
    ),
    "holder-touches": (
        "The bar, collar or shank that carries the cutter turns with it and would run into the "
        "blank, its hub, or the bar behind it, before the tip is at depth. Let the cutter stand "
        "out further, or take a bigger one or a slimmer holder."
    ),
    "feeler-thick": (
        "What is laid between cutter and blank is thicker than paper or foil. It may be a gauge "
        "block, and then it is right; or the thickness was given in the other unit, and then every "
        "infeed is wrong by the difference."
    ),
    "hole-at-hub": (
        "The drill runs down the side of the hub: it wanders, and the hub loses a slice. Move "
        "the circle of holes in or out."
    ),
    "hole-breaks-out": (
        "A hole runs into the roots, the bore or the next hole: there is no wall left."
    ),
    "holes-meet": "Holes of two circles run into each other. Move one circle, or turn it.",
    "hook-negative": (
        "The face leans forward, so that load pushes the pawl up and out. Only a wheel that "
        "is meant to slip has such teeth."
    ),
    "hook-steep": (
        "So much undercut leaves a thin tip that breaks, and holds the pawl so fast that it "
        "will not lift."
    ),
    "hub-gone": "The bore is bigger than the hub, so no hub is left round it.",
    "hub-in-the-way": (
        "The hub reaches out to the roots or past them: the cutter runs into it as it leaves "
        "the teeth. Cut the teeth first and fit the hub after, or make it smaller."
    ),
    "index-compound": (
        "Each stop is made by two movements, of the crank on one circle and of crank and plate "
        "on another. Every move adds to the one before: one slip spoils all that "
        "follow. Make the moves in the order told, and mark each one off."
    ),
    "index-differential": (
        "Change wheels turn the plate while the crank turns. It is exact when the plate is free "
        "and turns in the right sense: try it by hand, with the cutter clear, before you cut."
    ),
    "index-inexact": (
        "The dividing hardware cannot stand at every stop exactly, so some spaces come out wider "
        "and some narrower. The error is told in mm round the outside. Within what a land may be "
        "off it does no harm. Beyond it the stops are refused and no reading is printed: take "
        "hardware with the positions that the finding names."
    ),
    "index-too-coarse": (
        "The dividing hardware has fewer positions in a turn than the wheel has stops. Take a "
        "plate with the holes that the finding names, or a worm head."
    ),
    "island-left": (
        "The cutter is so narrow that even two cuts leave a ridge standing in the middle of "
        "the space. Take a wider cutter."
    ),
    "land-gone": (
        "The teeth are so deep, or the spaces so wide, that they meet below the outside "
        "diameter: no crest is left. Cut less deep or take a smaller space angle."
    ),
    "jaws-in-the-way": (
        "The wheel is gripped by its hub, and the tool must run out past the teeth: it would run "
        "into the jaws or the chuck. Put the wheel on an arbor, let a longer hub stand out, or "
        "take jaws or a collet that lie below the roots."
    ),
    "land-thin": (
        "The crest is so narrow that it burrs, chips when hardened, and wears the outside "
        "diameter away. Leave more land, or cut less deep."
    ),
    "land-unreachable": (
        "No depth of this cut leaves the land that was measured: before the first touch there is "
        "no land but the whole pitch. Measure again, or look whether the right cutter is set up."
    ),
    "metal-hardened": (
        "The material is said to be hardened already. A cutter of high-speed steel rubs on it and "
        "is spoilt at once. Cut the wheel soft and harden it after, or cut it with carbide as its "
        "maker says."
    ),
    "no-cutter": (
        "No cutter is given, so the wheel is solved and drawn but nothing is set up. Enough "
        "for a wheel that is bought."
    ),
    "pin-falls-in": (
        "The pin is so small that it falls through to the root of the space instead of resting "
        "on face and back. Take a bigger pin."
    ),
    "pin-none": (
        "No standard pin rests on both flanks and stands over the crests, so none is proposed. "
        "Try one of your own with gauge.pin, or measure land and root instead."
    ),
    "pin-not-proud": (
        "The pin lies so deep that the anvils of the micrometer would rest on the teeth. Take a "
        "bigger pin."
    ),
    "pin-on-tips": (
        "The pin is so big that it rides on the tips of the teeth, which says nothing of the "
        "flanks. Take a smaller pin."
    ),
    "plain-wheel": (
        "Nothing on the wheel tells its two faces apart, so turned over it is the other hand. "
        "Handy when only one side of the machine suits."
    ),
    "relief-tight": (
        "Spun on this circle the heel of the tool just clears: 2 to 3 degrees more relief than "
        "the limit is wanted for the feed, for dust and for wear."
    ),
    "root-below-axis": (
        "The teeth are deeper than the radius of the wheel: they would pass its axis."
    ),
    "root-below-face": (
        "The root asked for lies deeper than the face can reach: with this hook the face line "
        "passes the axis farther out. Cut less deep or take less hook."
    ),
    "root-deeper": (
        "The tip of the cutter is sharper than the root drawn, so it cuts a little deeper to "
        "form both flanks. Harmless when the web allows it; a tip of the root's radius leaves "
        "the root as drawn."
    ),
    "root-not-exact": (
        "The part wants just this root radius, and the cutter's tip is sharper. Stone the tip "
        "to the radius, or allow a smaller one."
    ),
    "root-outside-blank": (
        "The root asked for lies outside the blank: the root diameter is bigger than the "
        "outside diameter."
    ),
    "root-rounded": (
        "The print draws a sharp root and the cutter's tip is blunt, so the root comes out "
        "rounded and less deep. Say so on the print, or take a sharper tip."
    ),
    "root-sharp": (
        "The root is drawn as a sharp corner. No cutter leaves one and no wire cuts one, and "
        "a crack starts there. Allow a radius."
    ),
    "root-too-big": (
        "The root radius or flat is too big to fit between face and back at this depth."
    ),
    "root-too-tight": (
        "The cutter's tip is blunter than the root allows, so it cannot get down between the "
        "flanks. Sharpen the tip, or allow a bigger root radius."
    ),
    "root-unreachable": (
        "No space angle brings the root to this depth with this land. Change the depth or the land."
    ),
    "size-unit": (
        "A size, or the whole wheel, makes sense in the other unit only: a number in inches stands "
        "in a file in mm, or the reverse. Say the unit with the number, in quotes, or change units."
    ),
    "space-gone": "The land is as wide as the whole pitch: nothing is left to cut.",
    "speed-capped": (
        "By its sweep and the metal this single-point tool could run faster, but a tool made to "
        "stand still is not made to be spun. State the limit of tool, holder and machine."
    ),
    "stick-out-long": (
        "So many wheels on one bar make it stand far out of the jaws: it bends and chatters. "
        "Support its free end, or cut fewer at a time."
    ),
    "teeth-overlap": (
        "A space cuts into the next one under the tip, so the tooth between them falls off. "
        "Less hook, fewer teeth, or less depth."
    ),
    "thickness-high": (
        "The wheel is thick for such small teeth: a slight tilt of its axis shows as a taper "
        "along every tooth. Check with an indicator at both ends."
    ),
    "thickness-low": (
        "The wheel is thin for such deep teeth: it bends under the cutter, and the pawl may "
        "climb past it. Back it with a plate while cutting."
    ),
    "tip-assumed-sharp": (
        "Neither tip radius nor tip flat is given, so the tip is taken as sharp, which none "
        "is. The infeed comes out too small. Measure the tip."
    ),
    "tolerance-unused": (
        "A tolerance is given for a feature that this part does not have, so nothing goes by it. "
        "Take it out, or give the part the feature."
    ),
    "tooth-slender": (
        "The tooth is thinner somewhere below its crest than at it, like a hook with a neck, "
        "and breaks there. Less hook makes it stouter."
    ),
    "two-laps": (
        "The cutter is narrower than the space, so every space takes two cuts: all faces in "
        "one lap, then one change of setting, then all backs."
    ),
    "web-thin": (
        "The wall between a bore or hole and its neighbour is thin against the load of a "
        "tooth. Make the hole smaller or move it away."
    ),
}
"""Finding code -> what it means at the bench and what to do."""
