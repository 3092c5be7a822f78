"""What the dial or plate shows, in words: degrees, minutes, seconds; hole numbers; turns and holes.

Owns: the spelling of readings and of a way. All count from 0 at stop 1 of lap 1: turns and steps go
on counting through every lap, since they are what is turned; the holes of a plate on the spindle,
and notches, are what it shows and begin again with each turn of the work.
"""

from __future__ import annotations

from fractions import Fraction

from profilegen.dividing.hardware import Scale
from profilegen.dividing.way import Move, Way


def shown(scale: Scale, count: int) -> str:
    """What shows at a position of the scale.

    Args:
        scale: what is counted.
        count: positions from stop 1 of lap 1 over all turns, 0 or more; whole turns of a plate or
            of notches are left out, those of a crank or handwheel are told.
    """
    if scale.sort == "plate":
        return f"hole {count % scale.count}"
    if scale.sort == "notches":
        return f"notch {count % scale.count}"
    if scale.sort == "vernier":
        hole, mark = divmod(count % scale.count, scale.count // scale.circle)
        return f"hole {hole}, vernier {mark}"
    if scale.sort == "steps":
        return f"{count} steps"
    if scale.sort == "dial":
        turns, mark = divmod(count, scale.count // scale.ratio)
        at, dial = (sexagesimal(Fraction(each, scale.count)) for each in (count, mark))
        return f"{at}, {_turns(turns)}, dial {dial}"
    turns, hole = divmod(count, scale.circle)
    return _turns(turns) if scale.circle == 1 else f"{_turns(turns)}, hole {hole} of {scale.circle}"


def shown_compound(scale: Scale, begin: int, move: Move, k: int, made: int = 0) -> str:
    """What both circles show after k moves: crank against plate, and plate against head.

    Args:
        scale: of the first circle.
        begin: where the crank stands on it at the start of the lap, holes from stop 1 of lap 1.
        move: each of the moves.
        k: how many were made in this lap.
        made: how many were made in the laps before.
    """
    first, second = move.circles
    crank = begin + k * (move.turns * first + move.holes[0])
    return f"{shown(scale, crank)}; plate hole {(made + k) * move.holes[1] % second} of {second}"


def sexagesimal(place: Fraction) -> str:
    """A share of a turn in degrees, minutes and seconds, such as 12° 05' 30".

    Args:
        place: turns, 0 or more; to a hundredth of a second.
    """
    seconds = place * 1296000
    whole = int(seconds)
    text = f"{whole // 3600}° {whole // 60 % 60:02d}' {whole % 60:02d}"
    rest = round((seconds - whole) * 100)
    return f'{text}.{min(rest, 99):02d}"' if rest else f'{text}"'


def short_sexagesimal(place: Fraction) -> str:
    """A share of a turn as `sexagesimal` writes it, without leading parts that are nothing, such as
    10".

    Args:
        place: turns, 0 or more; less than a degree leaves minutes and seconds, or seconds alone.
    """
    text = sexagesimal(place)
    for nothing in ("0° ", "00' "):
        text = text.removeprefix(nothing)
    return text.removeprefix("0") if text.startswith("0") and text[1].isdigit() else text


def _turns(turns: int) -> str:
    return f"{turns} turn" if turns == 1 else f"{turns} turns"


def move_words(move: Move) -> str:
    """One move of the crank, such as 1 turn + 7/39 + 29/41."""
    text = _turns(move.turns) if move.turns else ""
    for holes, circle in zip(move.holes, move.circles, strict=True):
        if holes:
            sign = "- " if holes < 0 else "+ " if text else ""
            text += f"{' ' if text else ''}{sign}{abs(holes)}/{circle}"
    return text


def way_words(way: Way) -> str:
    """One way in a line."""
    scale, move = way.scale, way.move
    if way.method == "compound" and move is not None:
        over = f", which passes over {move.spaces} spaces" if move.spaces > 1 else ""
        pairs = zip(move.holes, move.circles, strict=True)
        arms = " and ".join(f"{_arms(abs(n))} on the {circle} circle" for n, circle in pairs)
        return f"{move_words(move)} for each stop{over}, plate {scale.plate}, {arms}"
    if not way.even:
        return f"nearest {_unit(scale)}, stop by stop from the list"
    words = _even_words(scale, int(way.per_stop))
    return f"{words}; {_train(move)}" if move is not None else words


def _even_words(scale: Scale, count: int) -> str:
    if scale.sort == "dial":
        return f"{sexagesimal(count * scale.step)} for each stop"
    if scale.sort == "steps":
        return f"{count} steps for each stop"
    if scale.sort == "vernier":
        return f"{count} vernier positions for each stop"
    if scale.sort in ("plate", "notches"):
        return f"{count} of {scale.circle} {_UNITS[scale.sort][1]} for each stop"
    turns, holes = divmod(count, scale.circle)
    if not holes:
        return f"{_turns(turns)} for each stop"
    text = move_words(Move(turns, (holes,), (scale.circle,)))
    return f"{text} for each stop, plate {scale.plate}, {_arms(holes)}"


def _arms(holes: int) -> str:
    """How far apart the sector arms are set."""
    return f"arms {_holes(holes)} apart ({holes + 1} with the pin's own)"


def _holes(holes: int) -> str:
    return f"{holes} hole" if holes == 1 else f"{holes} holes"


_UNITS = {
    "plate": ("hole", "holes"),
    "vernier": ("vernier position", "vernier positions"),
    "notches": ("notch", "notches"),
    "dial": ("mark of the dial", "marks of the dial"),
    "steps": ("step", "steps"),
}


def _unit(scale: Scale) -> str:
    """What one position of the scale is called."""
    if scale.sort == "crank":
        return "whole turn" if scale.circle == 1 else f"hole of the {scale.circle} circle"
    return _UNITS[scale.sort][0]


def slips(way: Way) -> tuple[tuple[str, Fraction], ...]:
    """Every slip of one that can be made, with what it turns the work, turns."""
    scale = way.scale
    said = [(f"one {_unit(scale)}", scale.step)]
    if way.method == "compound" and way.move is not None:
        circle = way.move.circles[1]
        said.append((f"one hole of the {circle} circle", Fraction(1, circle * scale.ratio)))
    if scale.sort == "vernier":
        said.append(("one hole of the plate", Fraction(1, scale.circle)))
    if scale.sort == "crank" and scale.circle > 1:
        said.append(("one turn of the crank", scale.circle * scale.step))
    if scale.sort == "dial":
        said.append(("one turn of the handwheel", Fraction(1, scale.ratio)))
    return tuple(said)


def _train(move: Move) -> str:
    wheels = move.wheels
    text = f"change wheels: spindle {wheels[0]} drives "
    if len(wheels) == 4:
        text += f"{wheels[1]} on the stud, {wheels[2]} beside it drives "
    text += f"worm {wheels[-1]}"
    count = ("no idler", "one idler", "two idlers")[idlers(move)]
    return f"{text}, {count}: the plate turns {'with' if move.with_crank else 'against'} the crank"


def idlers(move: Move) -> int:
    """How many idlers a train takes: a pair of studs turns the sense round as one idler does.

    On a head whose plate is driven as on the common ones; the sense is tried by hand all the same.
    """
    return (1 if len(move.wheels) == 2 else 0) + (0 if move.with_crank else 1)


def warnings(way: Way) -> tuple[str, ...]:
    """How a compound or differential way is done, and what goes wrong with it."""
    if way.move is None:
        return ()
    if way.method == "differential":
        return (
            "The plate must be free to turn, its locking pin out, and the head level.",
            "Try the sense of the plate by hand before cutting: another idler turns it round.",
            "Fit change wheels with the power off, and put their guard back.",
        )
    second = way.move.circles[1]
    said = [
        f"The head needs a pin behind the plate that holds it by its {second} circle, and arms for "
        "each circle or a mark for every move.",
        f"Each move: {_in_order(way.move)}.",
        "Both circles are on one plate: never change the plate within a turn of the work.",
        "Every move adds to the one before: one slip spoils all that follow.",
    ]
    if way.move.spaces > 1:
        said.append("The stops do not follow each other round the wheel.")
    return tuple(said)


def _in_order(move: Move) -> str:
    """The two movements of a compound move as they are made: one against the dial before the other,
    so that the last is with the dial."""
    (n1, n2), (first, second) = move.holes, move.circles
    turns = f"{_turns(move.turns)} and " if move.turns else ""
    crank = f"the crank on against the plate by {turns}{_holes(n1)} of the {first} circle"
    plate = f"by {_holes(abs(n2))} of the {second} circle"
    if n2 < 0:
        return (
            f"first crank and plate together back {plate}, past the hole by more than the backlash "
            f"and on to it again; then {crank}"
        )
    return f"first {crank}; then crank and plate together on {plate}"
