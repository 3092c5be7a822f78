"""The trade's words, as this program uses them: data only."""

from __future__ import annotations

from typing import Final

TRADE: Final[dict[str, str]] = {
    "angular pitch": (
        "The turn from one tooth to the next: a full turn divided by the number of teeth."
    ),
    "apex": (
        "The point where the two flanks of a cutter would meet if it were ground to nothing. "
        "It hangs below the real tip. Offsets count from it. See tip."
    ),
    "arbor": "The bar that the wheel, or a cutter with a hole in it, is held on.",
    "back": "The long flank of a ratchet tooth, up which the pawl slides. See face.",
    "backlash": (
        "Slack in a screw or worm. Come to every setting from the same side, and it does no harm; "
        "go past, and you go back by more than the slack and come again."
    ),
    "base circle": (
        "The circle of a gear from which its involute flanks are unwound. Nearer to the axis "
        "there is no true flank."
    ),
    "blank": (
        "The turned disc or bar before there are teeth. Its diameter is the outside diameter, "
        "unless you measured another."
    ),
    "bore": (
        "The hole in the middle, on which the wheel sits: round, square, hexagon, keyed or "
        "with a flat."
    ),
    "caution": (
        "A finding to look into before you cut. The files are made all the same. See refused, note."
    ),
    "change wheels": (
        "Gears that you put between the spindle of a worm head and its plate, for differential "
        "dividing."
    ),
    "column": "The upright part of the machine, on the far side of the table from the operator.",
    "compound dividing": (
        "The crank is moved on one circle and the plate on another of the same plate; the sum is "
        "a movement that no circle has. One slip spoils all that follows. See plain dividing."
    ),
    "conventional cut": (
        "The cutter's teeth meet the work against the feed. The slack in the screws stays on "
        "one side; the other way, climbing, can snatch the work in."
    ),
    "crank": "The handle of a worm head, with a pin that drops into the holes of a plate.",
    "crest": "The outermost part of a tooth. Its width is the land.",
    "cutter side": (
        "Where the cutter stands to the work: above it, behind it towards the column, or in front."
    ),
    "dial": (
        "The ring on a handwheel that shows how far the slide has gone. Some read diameters: "
        "twice the travel. Its keys stand under [setup.dials]."
    ),
    "differential dividing": (
        "Change wheels turn the plate while you turn the crank, so that counts come out that no "
        "circle divides. See change wheels, plain dividing."
    ),
    "direct dividing": "A plate on the spindle itself is moved hole by hole, with no worm between.",
    "dividing head": "Another word for the indexing head: what turns the wheel by exact steps.",
    "drawer": (
        "A file of cutters. Looked for in this order: --drawer, the part's own cutters, the "
        "part's drawer key, drawer.toml beside the part, the shipped one; the one used is named."
    ),
    "face": "The steep flank of a ratchet tooth, which the pawl pushes on. See back.",
    "feeler": (
        "A strip of known thickness between cutter and work at touch-off. Its thickness is "
        "added to the infeed."
    ),
    "finding": (
        "Something about the wheel or its set-up that you should know, with a code, a "
        "severity and the key to change. `profilegen words CODE` explains each."
    ),
    "flank": "One side of a tooth, or one edge of a cutter that forms it.",
    "fly cutter": (
        "A single bit spun in a bar. Stand out of its plane, and turn it by hand first."
    ),
    "form diameter": (
        "The diameter from which on outwards a gear's flank is true. Further in is the root."
    ),
    "free end": (
        "The end of the work away from the indexing head. Set-up views look from there to the head."
    ),
    "front": (
        "The face of the wheel that the print shows. Rotation and bore angles are as seen "
        "from there."
    ),
    "gear-tooth vernier": (
        "A caliper with a stop: the stop is set to a height below the tip, and the jaws then "
        "measure straight across the tooth at that height."
    ),
    "gouge": (
        "Metal that a cutter takes which should have stayed: it cuts into a tooth. See left over."
    ),
    "grazing": (
        "The tip just touches the blank and no more: spindle off, turned by hand. Grazed on both "
        "sides, the middle of the two readings is the axis. See touch-off."
    ),
    "hand": "Which way round a wheel is: a mirror image is of the other hand. See rotation.",
    "hook angle": (
        "How far the face leans from the radius through its tip. More than 0: the tip "
        "overhangs the root, and load draws the pawl in. 0: the face is radial. Less than 0: "
        "load throws the pawl out."
    ),
    "hub": "A round boss on one face of the wheel, true with the bore.",
    "idler": (
        "A wheel in a train of gears that turns the sense of the next one round and changes "
        "nothing else. See change wheels."
    ),
    "included angle": "The angle between the two flanks of a vee cutter.",
    "indexing head": (
        "What holds the wheel and turns it by exact steps. Lock it before every cut."
    ),
    "infeed": (
        "How far the cutter travels towards the wheel axis. It means nothing without its "
        "zero. See top zero, offset zero."
    ),
    "go and no-go": (
        "Two gauges: the go enters with its full form, the no-go stays out. For a square the "
        "no-go tries one pair of flats at a time."
    ),
    "involute": (
        "The curve of a gear's flank: what the end of a string draws that is unwound from a round. "
        "Gears with such flanks run evenly, also when the centre distance is a little off."
    ),
    "land": (
        "The straight width left across the crest of a tooth, at the outside diameter. "
        "Measured over two trial cuts it tells how much deeper to go."
    ),
    "lap": (
        "One round of all stops with one setting of the cutter. A space that takes two cuts "
        "takes two laps, never two settings at each stop: that would spoil the spacing. From lap "
        "to lap the work is turned on the way of all stops, so that backlash stays on one side."
    ),
    "left over": (
        "Metal that a cutter leaves which should have gone: the space is too narrow or not "
        "clean. See gouge."
    ),
    "levelled face": (
        "A check of the hook angle: the wheel is turned until one face lies level and looks up, "
        "and its height over the axis is taken. Less than 0 is below the axis."
    ),
    "neck": "The bar turned down behind the wheel, so that the cutter runs out into air.",
    "nose": "The rounded tip of a cutter. See tip.",
    "note": "A finding that is good to know and asks for nothing. See caution, refused.",
    "over crests": (
        "The size over several teeth, caliper jaws laid on the outer corners. It tells the land "
        "and the spacing, not the depth."
    ),
    "over pins": (
        "The size over two round pins laid in opposite spaces. It tells the depth better than a "
        "narrow land does: the pins touch the flanks, not the tips."
    ),
    "offset": (
        "How far the cutter's apex stands to the side of the wheel axis, square to the "
        "infeed; positive towards the tooth that owns the face. Set it before the infeed, and "
        "lock it."
    ),
    "offset zero": (
        "The zero of the infeed that is touched at the set offset: whatever of the cutter touches "
        "the blank first. See touch-off, top zero."
    ),
    "outline": "The outer edge of the wheel as one closed line of straight pieces and true arcs.",
    "outside diameter": "Over the tips of the teeth: the size the blank is turned to.",
    "pilot": (
        "The round hole drilled before a square or hexagon is broached or slotted. The bigger it "
        "is, the less flat is left on each side."
    ),
    "pawl": (
        "The catch that drops into the spaces, pushes on the faces or holds them. Also called "
        "a click."
    ),
    "pitch": (
        "From one tooth to the next. A ratchet has an angular pitch; round the outside it is "
        "that share of the circumference. See angular pitch."
    ),
    "pitch circle": (
        "The circle of a gear that would roll on that of its mate without slip. Its diameter is "
        "the module times the teeth."
    ),
    "plain dividing": (
        "The crank of a worm head is moved by whole turns and holes on one circle. Also called "
        "simple indexing. See sector arms."
    ),
    "radial depth": (
        "Blank radius less root radius: what a depth gauge shows on the radius. Not what the "
        "dial shows unless the cutter stands on centre. See infeed."
    ),
    "reach": (
        "How far the tip must stand out of whatever holds the cutter, so that the holder "
        "clears the work at full depth. See stick-out."
    ),
    "refused": (
        "A finding that stops the work: the wheel, or the cut with this cutter, cannot be "
        "made as asked. The program ends with exit code 3. See caution, note."
    ),
    "relief": (
        "The clearance ground behind a cutting edge, so that its heel does not rub. A bit "
        "spun on a small circle needs more of it than one that stands still."
    ),
    "root": "The deepest material really left between two teeth. See vertex.",
    "rotation": (
        "The way a pawl pushing on the faces drives the wheel, seen from its front: clockwise "
        "or counter-clockwise. It settles the hand of the wheel."
    ),
    "run-in": (
        "The way from where a turning cutter first touches the end face to where its axis is "
        "level with it. See run-out."
    ),
    "run-out": (
        "Two things. Of the blank: how much an indicator swings in one turn; the lands then "
        "swing once a turn. Of the cut: how far the cutter's axis goes past the far face, so "
        "that the whole width is formed. See run-in."
    ),
    "scratch": (
        "A bare mark at every stop before any cut, to count the stops while nothing is lost."
    ),
    "sector arms": (
        "Two arms on a plate, set apart by the holes of one move, so that none is counted twice. "
        "The hole that the pin is in is not counted."
    ),
    "set-up pose": (
        "The wheel turned so that the space being cut looks at the cutter. Offset and infeed "
        "count in it."
    ),
    "space": "The gap between two teeth: what the cutter takes away.",
    "space angle": (
        "The angle between the face and the back of one space. One lap forms it with a cutter "
        "of it."
    ),
    "span": (
        "The size over some neighbouring teeth of a gear, flat jaws on the outer flanks. It tells "
        "the depth of the cut. See over pins."
    ),
    "stick-out": (
        "How far the work stands out of the chuck: wheel, neck, and the way the cutter runs "
        "out. Short is stiff. See reach, neck."
    ),
    "stop": (
        "One angular position of the indexing head. Stop 1 is the first cut; all others count "
        "from it."
    ),
    "surface speed": (
        "How fast the tip of the cutter goes past the work, in m/min or ft/min. With the sweep it "
        "gives the turns a minute. See sweep."
    ),
    "sweep": "The circle that the tip of a turning cutter runs on.",
    "tip": (
        "The lowest real point of a cutter along the infeed. A rounded or flat tip lies short "
        "of the apex; touch-off is with the tip. See apex."
    ),
    "tooth": (
        "What stands between two spaces: face, crest and back. The program counts teeth and "
        "draws spaces. See space, land."
    ),
    "top zero": (
        "The zero of the infeed that is touched before the cutter is offset: the tip, level with "
        "the axis when the infeed is level, just touches the blank at its top as the cutter sees "
        "it. See touch-off, offset zero."
    ),
    "touch-off": (
        "Bringing the cutter up until it just touches, to set the dial to zero. Do it with "
        "the spindle off, turned by hand."
    ),
    "trial cut": (
        "A cut short of full depth on neighbouring spaces, to measure the land and find out "
        "how much deeper."
    ),
    "undercut": (
        "A hollow that the rack cuts into the foot of the teeth of a gear with few teeth. A "
        "profile shift keeps it away."
    ),
    "vernier": (
        "A second scale that divides one step of the first: a ring of holes, or lines beside a "
        "dial."
    ),
    "vertex": (
        "Where face and back would meet in a sharp corner, deeper than any real root. See root."
    ),
    "way": (
        "One manner of coming to every stop on the dividing hardware: a circle and its holes, two "
        "circles, or change wheels. profilegen stops numbers them; --way or the key way takes "
        "one."
    ),
    "web": "The wall left between a bore or hole and the roots, or between two holes.",
    "wedge": "A cutter with two straight flanks: vee, single-angle or double-angle.",
    "whole depth": (
        "How deep a gear's spaces are cut, from the outside of the blank as drawn to the root."
    ),
    "worm head": (
        "A dividing head whose crank turns the spindle through a worm, most often 40 turns to one."
    ),
}
"""Word -> what it means."""
