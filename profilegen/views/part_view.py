"""The part as the print shows it: seen from the front, with its dimensions, and edge on beside it.

Owns which dimensions stand on the part and where; everything fits the given box.
"""

from __future__ import annotations

import cmath
import math

from profilegen.drawing.boxes import Box
from profilegen.drawing.dimensions import leader, linear, vertical
from profilegen.drawing.lettering import text_box, text_width
from profilegen.drawing.marks import (
    CHAINED,
    DASHED,
    WIDE,
    Block,
    Mark,
    Text,
    line,
    outline_of,
    stroke,
    together,
)
from profilegen.drawing.symbols import centre_cross, turn_arrow
from profilegen.drawing.view import View
from profilegen.figures import Figures
from profilegen.forms.wheel import Wheel
from profilegen.geometry.measure import farthest
from profilegen.job import Job
from profilegen.views.lettering_sizes import LETTERS

EDGE_GAP = 17.0
"""mm between the front view and the view edge on."""


def part_view(job: Job, figures: Figures, room: Box) -> Block:
    """Front view and edge view, as large as both fit.

    Args:
        job: the wheel on the print's blank is drawn.
        figures: how sizes are written; `KeyNames` writes the keys in their place.
        room: mm on the page.
    """
    wheel = job.wheel
    size = 2 * wheel.radius
    width = wheel.thickness + (0.0 if job.part.hub is None else job.part.hub.length)
    scale = min((room.width - EDGE_GAP - 22.0) / (size + width), (room.height - 27.0) / size)
    spare = room.width - EDGE_GAP - scale * (size + width)
    left = room.x0 + spare / 2 - 2.0 + scale * wheel.radius
    centre = complex(left, room.centre.imag - 1.0)
    view = View(scale, centre)
    edge_at = complex(centre.real + scale * wheel.radius + EDGE_GAP, centre.imag)
    return together((_front(job, figures, view, room), _edge(job, figures, view, edge_at)))


def _front(job: Job, figures: Figures, view: View, room: Box) -> Block:
    wheel = job.wheel
    radius = view.scale * wheel.radius
    centre = view.point(0)
    outline = stroke(*(view.curve(curve) for curve in wheel.contours), width=WIDE, name="part")
    sense = -1.0 if wheel.hand != "counter-clockwise" else 1.0
    arrow = turn_arrow(centre, radius + 4.5, math.pi / 2 - sense * 0.35, sense * 0.7)
    driven = () if wheel.hand is None else (arrow,)
    up = -1.0 if wheel.hand != "counter-clockwise" else 1.0
    title = Text(
        complex(centre.real, centre.imag + radius + 7.0),
        "seen from the front",
        LETTERS.size,
        "middle",
    )
    first = Text(
        view.point(wheel.radius) + complex(1.6, up * 2.6),
        "1",
        LETTERS.size,
        "left",
        "middle",
        bold=True,
    )
    texts = (title, first) if wheel.is_toothed else (title,)
    blocks = [
        Block((outline, centre_cross(centre, radius + 2.5))),
        *driven,
        Block(texts, tuple(text_box(text) for text in texts)),
        _outside(job, figures, view, room),
        _bore(job, figures, view),
        _first_hole(job, figures, view, room),
    ]
    return together(blocks)


def _nearest_crest(wheel: Wheel, way: complex) -> complex:
    """The direction from the axis to the middle of the crest that lies nearest to a direction; that
    direction itself on a plain rim."""
    if not wheel.is_toothed:
        return way
    step, middle = wheel.angular_pitch, wheel.crest_angle
    base = wheel.wheel_from_base.inverse().direction(way)
    number = round((cmath.phase(base) - middle) / step)
    return wheel.wheel_from_base.direction(cmath.exp(1j * (middle + number * step)))


def _first_hole(job: Job, figures: Figures, view: View, room: Box) -> Block:
    """Hole and circle of the last of the drilled circles, on a leader above the wheel; of the
    others the table tells."""
    drilled = [of for of in job.wheel.rounds if of.size]
    if not drilled:
        return Block(())
    of = drilled[-1]
    turn = cmath.rect(1.0, math.tau * round(of.count * 3 / 8) / of.count)
    at = view.point(of.diameter / 2 * turn)
    hole = figures.sized("Ø {}", of.size, "hole_diameter")
    said = f"{hole} on {figures.sized('Ø {}', of.diameter, 'circle_diameter')}"
    centre, radius = view.point(0), view.scale * job.wheel.radius
    knee = complex(
        max(room.x0 + text_width(said, LETTERS.size) + 3.0, centre.real - 0.8 * radius),
        centre.imag + radius + 3.0,
    )
    tip = at + view.scale * of.size / 2 * (knee - at) / abs(knee - at)
    return leader(tip, knee, said, LETTERS, toward=-1)


def _outside(job: Job, figures: Figures, view: View, room: Box) -> Block:
    """The outside diameter, on a leader that points at the centre and lands below the wheel, left
    of the bore's."""
    centre, radius = view.point(0), view.scale * job.wheel.radius
    said = figures.sized("Ø {}", 2 * job.wheel.radius, "outside_diameter")
    edge = room.x0 + text_width(said, LETTERS.size) + 3.0
    beside = min(centre.real - 0.75 * radius, _bore_knee(job, figures, view) - 2.0)
    knee = complex(max(edge, beside), centre.imag - radius - 6.5)
    tip = centre + radius * _nearest_crest(job.wheel, (knee - centre) / abs(knee - centre))
    return leader(tip, knee, said, LETTERS, toward=-1)


_BORE_WORDS = {
    "round": {"diameter": "Ø {}"},
    "square": {"across_flats": "□ {}"},
    "hexagon": {"across_flats": "hexagon {} across flats"},
    "keyed": {"diameter": "Ø {}", "key_width": "key {}"},
    "d-bore": {"diameter": "Ø {}", "flat_to_far_side": "flat {}"},
}


def _bore(job: Job, figures: Figures, view: View) -> Block:
    """The bore's main size, on a leader that lands below the wheel."""
    wheel = job.wheel
    if wheel.bore is None:
        return Block(())
    _, tip, _ = farthest(wheel.bore, 100 * cmath.exp(1j * math.radians(45)))
    low = view.point(-1j * wheel.radius).imag
    knee = complex(_bore_knee(job, figures, view), low - 6.5)
    return leader(view.point(tip), knee, _bore_words(job, figures), LETTERS, toward=1)


def _bore_words(job: Job, figures: Figures) -> str:
    """The bore's main sizes; nothing without a bore."""
    if job.wheel.bore is None:
        return ""
    facts = {fact.key: fact for fact in job.wheel.bore_sizes}
    return ", ".join(
        figures.sized(words, facts[key].number, key)
        for key, words in _BORE_WORDS[str(facts["kind"].value)].items()
    )


def _bore_knee(job: Job, figures: Figures, view: View) -> float:
    """Where the landing of the bore's leader begins, x on the page (mm): it ends short of the view
    beside."""
    middle, reach = view.point(0).real, view.scale * job.wheel.radius
    end = middle + reach + EDGE_GAP - 6.0
    return min(middle + 0.2 * reach, end - text_width(_bore_words(job, figures), LETTERS.size))


def _edge(job: Job, figures: Figures, view: View, at: complex) -> Block:
    """The wheel edge on, front to the left, with thickness and hub."""
    wheel, scale = job.wheel, view.scale
    high, wide = scale * wheel.radius, scale * wheel.thickness
    disc = Box(at.real, at.imag - high, at.real + wide, at.imag + high)
    marks: list[Mark] = [outline_of(disc, WIDE)]
    if wheel.is_toothed:
        marks += _level_pair(disc, scale * wheel.root_radius)
    if wheel.bore is not None:
        marks += _level_pair(disc, scale * farthest(wheel.bore, 0j)[0], DASHED)
    foot = complex(disc.x0, disc.y0)
    said = figures.sized("{}", wheel.thickness, "thickness")
    size = linear(foot, foot + disc.width, foot - 11j, said, manner=LETTERS)
    hub, right = _hub(job, figures, scale, disc)
    axis = line(complex(disc.x0 - 4, at.imag), complex(right + 4, at.imag), dash=CHAINED)
    return together([Block((*marks, axis)), hub, size])


def _level_pair(disc: Box, reach: float, dash: tuple[float, ...] = ()) -> list[Mark]:
    """Two level lines across the disc, `reach` mm on the page above and below its axis."""
    lines = [(complex(disc.x0, y), complex(disc.x1, y)) for y in _about(disc.centre.imag, reach)]
    return [line(*ends, dash=dash) for ends in lines]


def _about(middle: float, reach: float) -> tuple[float, float]:
    return middle + reach, middle - reach


def _hub(job: Job, figures: Figures, scale: float, disc: Box) -> tuple[Block, float]:
    """The hub on its side of the disc with its diameter, and how far right the two reach, mm."""
    hub = job.part.hub
    if hub is None:
        return Block(()), disc.x1
    long, half = scale * hub.length, scale * hub.diameter / 2
    x0 = disc.x0 - long if hub.side == "front" else disc.x1
    high, low = _about(disc.centre.imag, half)
    right = max(disc.x1, x0 + long)
    said = figures.sized("Ø {}", hub.diameter, "hub.diameter")
    size = vertical(complex(right, low), complex(right, high), right + 7.0, said, LETTERS)
    return Block((outline_of(Box(x0, low, x0 + long, high), WIDE),)) + size, right
