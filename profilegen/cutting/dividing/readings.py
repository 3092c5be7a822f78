"""What the dial or plate shows, in words: degrees, minutes, seconds; hole numbers; turns and holes.

Owns: the spelling of readings and of a way. Holes and notches count from 0 at stop 1.
"""

from __future__ import annotations

from fractions import Fraction

from profilegen.cutting.dividing.hardware import Scale
from profilegen.cutting.dividing.ways import Move, Way


def reading(scale: Scale, place: Fraction) -> str:
    """What shows when the work stands at `place`, turns of the work since stop 1 of lap 1."""
    return shown(scale, int(place * scale.count))


def shown(scale: Scale, count: int) -> str:
    """What shows at a position of the scale, counted from stop 1 of lap 1."""
    if scale.sort == "plate":
        return f"hole {count}"
    if scale.sort == "notches":
        return f"notch {count}"
    if scale.sort == "vernier":
        hole, mark = divmod(count, scale.count // scale.circle)
        return f"hole {hole}, vernier {mark}"
    if scale.sort == "steps":
        return f"{count} steps"
    if scale.sort == "dial":
        return sexagesimal(Fraction(count, scale.count))
    turns, hole = divmod(count, scale.circle)
    return _turns(turns) if scale.circle == 1 else f"{_turns(turns)}, hole {hole} of {scale.circle}"


def sexagesimal(place: Fraction) -> str:
    """A share of a turn in degrees, minutes and seconds, such as 12° 05' 30\"."""
    seconds = place * 1296000
    whole = int(seconds)
    text = f"{whole // 3600}° {whole // 60 % 60:02d}' {whole % 60:02d}"
    rest = round((seconds - whole) * 100)
    return f'{text}.{min(rest, 99):02d}"' if rest else f'{text}"'


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
    if move is not None:
        text = f"{move_words(move)} for each move"
        if move.spaces > 1:
            text += f", which passes over {move.spaces} spaces"
        return text + (f"; {_train(move)}" if move.wheels else f", on plate {scale.plate}")
    if not way.exact:
        return f"nearest {_unit(scale)}, stop by stop from the list"
    return _exact_words(scale, int(way.per_stop))


def _exact_words(scale: Scale, count: int) -> str:
    if scale.sort == "dial":
        return f"{sexagesimal(count * scale.step)} for each stop"
    if scale.sort == "steps":
        return f"{count} steps for each stop"
    if scale.sort == "vernier":
        return f"{count} vernier positions for each stop"
    if scale.sort in ("plate", "notches"):
        return f"{count} of {scale.circle} {_unit(scale)}s for each stop"
    turns, holes = divmod(count, scale.circle)
    text = move_words(Move(turns, (holes,), (scale.circle,)))
    if not holes:
        return f"{text} for each stop"
    arms = f"arms {holes} holes apart ({holes + 1} with the pin's own)"
    return f"{text} for each stop, plate {scale.plate}, {arms}"


def _unit(scale: Scale) -> str:
    """What one position of the scale is called."""
    names = {"vernier": "vernier position", "notches": "notch", "dial": "mark of the dial"}
    if scale.sort == "crank":
        return "whole turn" if scale.circle == 1 else f"hole of the {scale.circle} circle"
    return {**names, "plate": "hole", "steps": "step"}[scale.sort]


def slips(scale: Scale) -> tuple[tuple[str, Fraction], ...]:
    """Every slip of one that can be made, with what it turns the work, turns."""
    said = [(f"one {_unit(scale)}", scale.step)]
    if scale.sort == "vernier":
        said.append(("one hole of the plate", Fraction(1, scale.circle)))
    if scale.ratio > 1 and scale.circle > 1:
        said.append(("one turn of the crank", Fraction(1, scale.ratio)))
    if scale.sort == "dial":
        said.append(("one turn of the handwheel", Fraction(1, scale.ratio)))
    return tuple(said)


def _train(move: Move) -> str:
    wheels = move.wheels
    if len(wheels) == 2:
        text = f"spindle {wheels[0]}, plate {wheels[1]}"
    else:
        text = f"spindle {wheels[0]}, studs {wheels[1]} and {wheels[2]}, plate {wheels[3]}"
    sense = "with" if move.with_crank else "against"
    count = ("no idler", "one idler", "two idlers")[idlers(move)]
    return f"{text}, {count}: the plate turns {sense} the crank"


def idlers(move: Move) -> int:
    """How many idlers a train takes: a pair of studs turns the sense round as one idler does.

    On a head whose plate is driven as on the common ones; the sense is tried by hand all the same.
    """
    return (1 if len(move.wheels) == 2 else 0) + (0 if move.with_crank else 1)


def warnings(way: Way) -> tuple[str, ...]:
    """What goes wrong with a compound or differential way."""
    if way.move is None:
        return ()
    if way.method == "differential":
        return (
            "the plate must be free to turn, its locking pin out, and the head level",
            "try the sense of the plate by hand before cutting: another idler turns it round",
            "fit change wheels with the power off, and put their guard back",
        )
    said = [
        "both circles are on one plate; never change the plate within a turn of the work",
        "every move adds to the one before: one slip spoils all that follow",
    ]
    if way.move.spaces > 1:
        said.append("the stops do not follow each other round the wheel")
    return tuple(said)
