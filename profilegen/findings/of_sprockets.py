"""Words for findings of teeth for chains. Data only."""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry

ENTRIES: Final[dict[str, Entry]] = {
    "pin-not-seated": Entry(
        says="a pin of {pin} does not lie in the seat of a roller",
        means=(
            "Over pins a sprocket is measured with pins as thick as a roller, which lie on the "
            "floor of the seat. This pin is so thick that it rests on the flanks."
        ),
    ),
    "seats-drilled": Entry(
        says=(
            "without a form cutter, drill the seats with a drill of {least} to {most} on a circle "
            "of {circle}, before the blank is turned down to the tips"
        ),
        means=(
            "The floor of each gap is round, so a drill makes it: index the blank under a spindle, "
            "centre, drill and ream each seat while the blank is still larger than the tips, then "
            "turn it down. Saw or mill the rest of the gap away, dress the flanks to a template. "
            "An end mill of that diameter, with its axis along the wheel's, does the same. Clamp "
            "thin work on both sides, and follow the machine's manual."
        ),
    ),
    "tip-below-seat": Entry(
        says="the tips lie no higher than the seats of the rollers",
        means=(
            "With so small a tip diameter nothing of the tooth is left above the seat: a roller "
            "would lie on a shallow hollow and jump out."
        ),
    ),
    "tip-low": Entry(
        says="a tip diameter of {tip} is less than the standard's least for this chain",
        means=(
            "Short teeth hold the chain less well: when it has worn and rides higher, it jumps "
            "sooner. ISO 606 gives the least tip diameter. With the widest gap the teeth come to a "
            "point before that: draw the gap narrower."
        ),
    ),
    "tip-high": Entry(
        says="a tip diameter of {tip} is more than the standard's greatest for this chain",
        means=(
            "Teeth so tall may not enter the links: the rollers meet the tips on their way in. ISO "
            "606 gives the greatest tip diameter. Turn the blank down."
        ),
    ),
    "teeth-few": Entry(
        says="the standard has no sprocket with so few teeth",
        means=(
            "Under nine teeth the chain bends so far at each tooth that it jerks and wears fast. "
            "ISO 606 covers 9 to 150 teeth; its formulas are used all the same."
        ),
    ),
    "teeth-many": Entry(
        says="the standard has no sprocket with so many teeth",
        means=(
            "With over 150 teeth a little wear lifts the chain off the wheel. ISO 606 covers 9 to "
            "150 teeth; its formulas are used all the same."
        ),
    ),
    "chain-rough": Entry(
        says="with so few teeth the chain runs roughly at speed",
        means=(
            "The rollers come in on a polygon: with few teeth the chain rises and falls at each of "
            "them. By hand or slowly it does not matter. Common practice, no published source."
        ),
    ),
    "teeth-wide": Entry(
        says="teeth this wide do not go between the plates of the chain",
        means=(
            "The teeth must be narrower than the gap between the inner plates of the chain. Make "
            "the rim thinner, or turn it thinner where the teeth are."
        ),
    ),
    "hub-under-chain": Entry(
        says="the plates of the chain would run on the hub",
        means=(
            "The plates reach farther in than the rollers. A hub bigger than this lifts the chain "
            "out of the teeth. Common practice, no published source."
        ),
    ),
}
"""Finding code -> its entry."""
