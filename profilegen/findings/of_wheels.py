"""What there is to say of a wheel: its teeth, bore, hub and holes. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "thickness-low": Entry(
        says="the wheel is thin for the depth of its teeth",
        means=(
            "The wheel is thin for such deep teeth: it bends under the cutter, and the pawl may "
            "climb past it. Back it with a plate while cutting."
        ),
    ),
    "thickness-high": Entry(
        says="the wheel is thick for teeth this small, so that any tilt of the axis shows",
        means=(
            "The wheel is thick for such small teeth: a slight tilt of its axis shows as a taper "
            "along every tooth. Check with an indicator at both ends."
        ),
    ),
    "land-thin": Entry(
        says="a land of {land} burrs, and chips when hardened",
        means=(
            "The crest is so narrow that it burrs, chips when hardened, and wears the outside "
            "diameter away. Leave more land, or cut less deep."
        ),
    ),
    "hook-negative": Entry(
        says="the face leans forward and throws the pawl out under load",
        means=(
            "The face leans forward, so that load pushes the pawl up and out. Only a wheel that is "
            "meant to slip has such teeth."
        ),
    ),
    "hook-steep": Entry(
        says="so much undercut weakens the tip and holds the pawl fast",
        means=(
            "So much undercut leaves a thin tip that breaks, and holds the pawl so fast that it "
            "will not lift."
        ),
    ),
    "tooth-slender": Entry(
        says="the tooth is only {thinnest} thick below its crest",
        means=(
            "The tooth is thinner somewhere below its crest than at it, like a hook with a neck, "
            "and breaks there. Less hook makes it stouter."
        ),
    ),
    "back-dips": Entry(
        says="the back dips towards the axis before it rises, so the root is not the deepest place",
        means=(
            "The back of the tooth runs in below its own foot and rises again before the root. A "
            "pawl that slides down the back stops short of the face. A smaller space angle lifts "
            "the back."
        ),
    ),
    "root-sharp": Entry(
        says="the root is drawn sharp, which no cutter and no wire leaves",
        means=(
            "The root is drawn as a sharp corner. No cutter leaves one and no wire cuts one, and a "
            "crack starts there. Allow a radius."
        ),
    ),
    "root-below-axis": Entry(
        says={
            "": "the space reaches past the axis",
            "depth": "the teeth reach the axis",
        },
        means="The teeth are deeper than the radius of the wheel: they would pass its axis.",
    ),
    "root-below-face": Entry(
        says="the face passes the axis before it comes down to this root",
        means=(
            "The root asked for lies deeper than the face can reach: with this hook the face line "
            "passes the axis farther out. Cut less deep or take less hook."
        ),
    ),
    "root-outside-blank": Entry(
        says={
            "": "the root lies outside the blank",
            "crests": "the root lies outside the line between the crests",
        },
        means=(
            "The root asked for lies outside the blank: the root diameter is bigger than the "
            "outside diameter."
        ),
    ),
    "root-unreachable": Entry(
        says="no tooth of this form comes down to this root",
        means=(
            "No space angle brings the root to this depth with this land. Change the depth or the "
            "land."
        ),
    ),
    "root-too-big": Entry(
        says={
            "": "the root runs off its flanks",
            "space": "the root is too big for the space between the teeth",
        },
        means="The root radius or flat is too big to fit between face and back at this depth.",
    ),
    "flanks-miss": Entry(
        says="face and back do not meet inside the blank",
        means=(
            "Face and back of one space never meet inside the blank: the space angle is too small "
            "for the land and the number of teeth."
        ),
    ),
    "land-gone": Entry(
        says={
            "": "the flanks meet before the crest: no land is left",
            "edge": "teeth without a land come to a knife edge, which burrs and breaks",
        },
        means=(
            "The teeth are so deep, or the spaces so wide, that they meet below the outside "
            "diameter: no crest is left. Cut less deep or take a smaller space angle."
        ),
    ),
    "space-gone": Entry(
        says="the land takes up the whole pitch",
        means="The land is as wide as the whole pitch: nothing is left to cut.",
    ),
    "teeth-overlap": Entry(
        says="a space cuts into the next one ({fault})",
        means=(
            "A space cuts into the next one under the tip, so the tooth between them falls off. "
            "Less hook, fewer teeth, or less depth."
        ),
    ),
    "bore-breaks-out": Entry(
        says={
            "": "the bore breaks out through the roots",
            "rim": "the bore breaks out through the rim",
            "teeth": "the teeth come down to {across} across the roots, into the bore",
        },
        means=(
            "The bore is so big that it runs into the roots, or the rim where there are none: "
            "nothing would hold the wheel together."
        ),
    ),
    "bore-impossible": Entry(
        says={
            "corner_radius": "the corner radii leave no flat",
            "key_width": "the key is as wide as the bore",
            "flat_to_far_side": "the flat must lie between the axis and the bore's rim",
        },
        means=(
            "The sizes of the bore contradict each other, such as corner radii that leave no flat, "
            "or a key as wide as its bore."
        ),
    ),
    "web-thin": Entry(
        says={
            "bore": "the web from bore to {name} is only {web}",
            "hole": "the web from hole to {name} is only {web}",
        },
        means=(
            "The wall between a bore or hole and its neighbour is thin against what it "
            "carries. Make the hole smaller or move it away."
        ),
    ),
    "hole-breaks-out": Entry(
        says="the web from hole to {name} is gone",
        means="A hole runs into the roots, the rim, the bore or the next hole: no wall is left.",
    ),
    "holes-meet": Entry(
        says="its holes run into those of {other}",
        means="Holes of two circles run into each other. Move one circle, or turn it.",
    ),
    "hub-gone": Entry(
        says="the bore takes the whole hub away",
        means="The bore is bigger than the hub, so no hub is left round it.",
    ),
    "hub-in-the-way": Entry(
        says="the hub stands in the cutter's way, unless it is fitted after the teeth are cut",
        means=(
            "The hub reaches out to the roots or past them: the cutter runs into it as it leaves "
            "the teeth. Cut the teeth first and fit the hub after, or make it smaller."
        ),
    ),
    "hole-at-hub": Entry(
        says="the holes run into the side of the hub",
        means=(
            "The drill runs down the side of the hub: it wanders, and the hub loses a slice. Move "
            "the circle of holes in or out."
        ),
    ),
    "size-unit": Entry(
        says={
            "one": (
                "{key} is {size:both}, out of proportion with the other sizes, and in {unit} it "
                "would fit"
            ),
            "all": (
                "a wheel of {size:both} is a rare one; if its sizes are meant in {unit}, which "
                'makes it {meant:both}, make units "{typed}"'
            ),
        },
        means=(
            "A size, or the whole wheel, makes sense in the other unit only: a number in inches "
            "stands in a file in mm, or the reverse. Say the unit with the number, in quotes, or "
            "change units."
        ),
    ),
    "groove-unknown": Entry(
        says=(
            "the grooves are not drawn, for their published data was not to be had: diameters and "
            "stops only, so cut them by a cutter sold for this belt and count"
        ),
        means=(
            "Of a pulley for a toothed belt the diameters and the stops are told and the grooves "
            "are not drawn: the DXF is of a plain disc. A cutter for grooves is sold by belt and "
            "range of teeth."
        ),
    ),
    "blank-fixed": Entry(
        says="this form takes no other blank than its own",
        means=(
            "The teeth of this form belong to one blank only: none of its sizes can give way to a "
            "bigger or smaller one. Turn the blank to size."
        ),
    ),
}
"""Finding code -> its entry."""
