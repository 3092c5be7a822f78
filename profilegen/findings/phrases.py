"""Parts of sentences: what to do, and what several findings say in the same words. Data only.

A name in braces is a fact of the phrase. The common advice, to give a key another value, has no
phrase: it is a `Make`.
"""

from __future__ import annotations

from typing import Final

_SERVE: Final = "keep every {between} within its limits"

PHRASES: Final[dict[str, str]] = {
    # what a finding is about
    "on-blank": "on the blank as measured",
    "form-cutter": "the wheel of the form cutter {name}",
    # what to do about a wheel
    "look-at": "no one value mends it, so look at {first} first, then at {others} and teeth",
    "look-at-teeth": "no one value mends it, so look at {first} first, then at teeth",
    "look-first": "no one value mends it, so look at {first} first",
    "leaves-land": "which leaves a land of {land}",
    "change-space": "change the space between the teeth",
    "change-hook": "change {key}, or the space between the teeth",
    "smaller-with": "make {key} smaller, and {rest} with it",
    "no-room": "there is no room for {key} of any size",
    "no-room-by-hub": "there is no room for them beside it, so change hub.diameter",
    "move-away": "move {key} away",
    "take-out": "take out {key}",
    "or-less-round": "{make}, or give it a lesser tip_radius",
    # what to do about a cutter
    "choose-another": "choose another cutter",
    "choose-or": "choose another cutter, or {make}",
    "less-or-another": "make {key} less, or set up another cutter",
    "add-up": "make the two {key} add up to {than} {angle}",
    "or-bigger": "or {key} bigger",
    "or-write": "or {key} {value}",
    "or-accept": (
        "{advice}; profilegen cutters says what it would leave, and setup.accept takes that much"
    ),
    "or-turn-over": (
        'make {key} "{flat}", setup.cutter_side the other side, or turn the wheel over: '
        'setup.front = "{front}"'
    ),
    "is-held": "it is held there: take out {key}, or hold another value",
    "to-say-so": "{make} to say so",
    "on-the-line": "set the edge on the line and {make}",
    "makes-tip": "it makes a tip of {tip} and a root of diameter {root}",
    "makes": "it makes a land of {land}, a hook of {hook} and a root of diameter {root}",
    # of a setting
    "or-hold": "or hold the other given by blank.hold",
    "for-paper": "for paper {make}",
    "support-or": "support its free end, or {make}",
    "shift": "{label} {nominal} to {measured}",
    "no-shift": "nothing you could measure",
    "angle-and": "its space angle and {held}",
    "givens": "the print's givens",
    "land-becomes": "the land becomes {land}, ",
    # what dividing hardware would do
    "more": "; {first}{rest}",
    "say-way": "{how}: say --way 1",
    "make-way": "{how}: {make}, or say --way 1",
    "way-exact": "way 1 ({method}) is exact",
    "way-within": "way 1 ({method}) keeps every {between} within its limits",
    "allow-error": "profilegen stops --allow-error lists them all the same",
    "no-plates": (
        "[dividing] gives no plates, so only whole turns of the crank are possible: write what "
        "plates the head has; "
    ),
    "or-train": ", or dividing.change_wheels if the head takes them",
    "circle-exact": (
        "{bare}a circle that is a multiple of {holes} holes would be exact, in "
        "dividing.plates{train}"
    ),
    "circle-within": (
        f"{{bare}}a circle of {{holes}} holes would {_SERVE}, in dividing.plates{{train}}"
    ),
    "finer": f"{{bare}}hardware of {{positions}} positions in a turn or more would {_SERVE}",
    "holes-exact": "{counts} positions in a turn would be exact: {make}",
    "holes-within": f"{{counts}} positions in a turn would {_SERVE}: {{make}}",
    "steps": "a multiple of {exact} positions in a turn would be exact{fine}, by {key}",
    "or-finer": f", and {{fine}} or more would {_SERVE}",
}
"""Name -> words."""
