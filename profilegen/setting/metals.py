"""Which metal the words of a part file name, and how fast high-speed steel cuts it.

A metal is known by whole words: a name of the shop, or a designation of a standard. A word that is
not here is not guessed at. Surface speeds are the low end of shop charts of milling speeds for
high-speed steel (stainless, tool steel and hard alloys, mild steel, bronze, brass); those of
medium-carbon steel, cast iron and aluminium are remembered, no source. Which designation belongs to
which group is remembered: numbers of AISI and SAE, names and numbers of EN 10027, grades of EN
10025, EN 10277, ISO 683 and ISO 4957, EN numbers of the old BS 970, CW numbers of EN 12164.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Metal:
    """A group of metals that are cut alike.

    Attributes:
        name: of the group, in words.
        surface: m/min at a plain cut by high-speed steel; None where no chart here has it.
        names: what it is called, in lower case, words parted by single spaces.
    """

    name: str
    surface: float | None
    names: frozenset[str]


def _metal(name: str, surface: float | None, others: str = "") -> Metal:
    """A metal, its other names parted by commas."""
    return Metal(name, surface, frozenset((name, *filter(None, others.split(", ")))))


METALS: Final[tuple[Metal, ...]] = (
    _metal(
        "mild steel",
        25.0,
        "low carbon steel, free cutting steel, free machining steel, leaded steel, 1008, 1010, "
        "1015, 1016, 1018, 1020, 1022, 1025, 1117, 1118, 1213, 1215, 12l14, 11l17, a36, s235, "
        "s235jr, s275, s275jr, s355, s355jr, st37, st52, c10, c15, c20, c22, c22e, 11smn30, "
        "11smnpb30, 9smn28, 9smnpb28, en1a, en3, en3b, 070m20, 080a15, 230m07, "
        "1.0715, 1.0718, 1.0037, 1.0038, 1.0570, 1.0577, 1.0401, 1.0402",
    ),
    _metal(
        "medium-carbon steel",
        18.0,
        "carbon steel, medium carbon steel, plain carbon steel, 1035, 1038, 1040, 1042, 1045, "
        "1050, 1055, 1137, 1141, 1144, c30, c35, c35e, c40, c45, c45e, c50, c50e, c55, c60, "
        "ck35, ck45, ck60, en8, en8d, en8m, en9, 080m40, 070m55, 212m36, 1.0501, 1.0503, "
        "1.1191, 1.0601, 1.1221, 1.0726",
    ),
    _metal(
        "alloy steel",
        9.0,
        "chromium molybdenum steel, chrome moly steel, chromoly, 4130, 4135, 4140, 4142, 4145, "
        "4150, 4320, 4340, 5120, 5140, 5160, 6150, 8620, 8640, 9310, 25crmo4, 34crmo4, "
        "42crmo4, 42crmos4, 34crnimo6, 30crnimo8, 41cr4, 16mncr5, 20mncr5, 18crnimo7, 51crv4, "
        "en16, en16t, en19, en19t, en24, en24t, en36, en36a, en39, 605m36, 708m40, 709m40, "
        "817m40, 655m13, 1.7218, 1.7220, 1.7225, 1.7227, 1.6582, 1.7131, 1.7147, 1.7035",
    ),
    _metal(
        "tool steel",
        14.0,
        "silver steel, gauge plate, ground flat stock, drill rod, high carbon steel, o1, o2, "
        "w1, w2, l6, 1070, 1075, 1080, 1084, 1095, c75, c75s, c80, c100, c100s, c105w1, "
        "115crv3, 100mncrw4, 90mncrv8, 100cr6, 52100, 1.2210, 1.2510, 1.2842, 1.3505, 1.1545, "
        "1.1274",
    ),
    _metal(
        "high-alloy tool steel",
        9.0,
        "high alloy tool steel, cold work steel, hot work steel, a2 tool steel, d2, d3, d6, "
        "h11, h13, s7, p20, x153crmov12, x155crvmo12, x210cr12, x100crmov5, x40crmov5 1, "
        "1.2379, 1.2080, 1.2363, 1.2344, 1.2343, 1.2311",
    ),
    _metal(
        "stainless steel",
        9.0,
        "stainless, 17 4ph, 17 4 ph, x5crni18 10, x8crnis18 9, x2crnimo17 12 2, 302, 303, "
        "303se, 304, 304l, 316, 316l, 321, 410, 416, 420, 430, 430f, 431, 440c, 630, 1.4301, "
        "1.4305, 1.4307, 1.4401, 1.4404, 1.4005, 1.4021, 1.4034, 1.4057, 1.4104, 1.4542, 1.4571",
    ),
    _metal(
        "cast iron",
        18.0,
        "grey cast iron, grey iron, gray cast iron, gray iron, gg20, gg25, en gjl 200, "
        "en gjl 250, gjl 200, gjl 250, continuous cast iron",
    ),
    _metal(
        "bronze",
        45.0,
        "phosphor bronze, tin bronze, leaded bronze, gunmetal, gun metal, sae 660, pb1, pb102, "
        "lg2, lb2, cusn8, cusn12, c93200, c54400",
    ),
    _metal(
        "brass",
        60.0,
        "leaded brass, engraving brass, clock brass, free cutting brass, naval brass, cz120, "
        "cz121, cz122, cw608n, cw612n, cw614n, cw617n, c353, c360, c35300, c36000, cuzn39pb3, "
        "cuzn39pb2, cuzn38pb2, cuzn40pb2",
    ),
    _metal(
        "aluminium",
        60.0,
        "aluminum, aluminium alloy, aluminum alloy, dural, duralumin, 2007, 2011, 2014, 2017, "
        "2024, 5083, 6026, 6060, 6061, 6063, 6082, 7020, 7075, he30",
    ),
    _metal(
        "aluminium bronze",
        None,
        "aluminum bronze, cualni, cual10ni5fe4, ab2, ca104",
    ),
    _metal("manganese bronze", None),
    _metal("silicon bronze", None),
    _metal(
        "beryllium copper",
        None,
        "beryllium bronze, cube2",
    ),
    _metal(
        "high-speed steel",
        None,
        "high speed steel, hss, m2 tool steel, m42",
    ),
    _metal(
        "white cast iron",
        None,
        "white iron, chilled cast iron, chilled iron",
    ),
    _metal(
        "ductile iron",
        None,
        "sg iron, ductile cast iron, spheroidal cast iron",
    ),
    _metal(
        "manganese steel",
        None,
        "mangalloy, hadfield steel",
    ),
    _metal(
        "spring steel",
        None,
        "en45, en45a, en42j, blue steel, 55si7, 61sicr7",
    ),
)
"""Every metal that is known; those without a speed are here so that no other one takes their words:
aluminium bronze is no aluminium."""

HARDEST_HRC, HARDEST_HV, HARDEST_HB = 35.0, 345.0, 330.0
"""Hardness above which no wheel is form-cut by high-speed steel: common practice, no published
source; the three are about one hardness by the conversion table of ISO 18265, remembered."""

_NOT_YET: Final = frozenset({"un", "not", "be", "before", "unhardened", "never", "pre"})
_AFTER: Final = frozenset({"after", "later", "afterwards", "last"})
_SOFT: Final = frozenset({"annealed", "normalised", "normalized", "soft"})
_HARD: Final = frozenset({"hardened", "quenched", "nitrided", "carburised", "carburized"})
_SCALES: Final = {
    "hrc": HARDEST_HRC,
    "rc": HARDEST_HRC,
    "rockwell": HARDEST_HRC,
    "hv": HARDEST_HV,
    "hb": HARDEST_HB,
    "hbw": HARDEST_HB,
    "bhn": HARDEST_HB,
}


def metal_of(material: str) -> Metal | None:
    """The metal that the words name; None when they name none, or one that is not here.

    The longest name counts where one holds another, as `stainless steel` does `steel`. Of several
    metals it is the one without a speed, or else the slowest.
    """
    words = _words(material)
    found = _inside_out(list(_named(words)))
    return min(found, key=lambda metal: metal.surface or 0.0, default=None)


def is_hardened(material: str) -> bool:
    """Whether the words say that the metal is already too hard for high-speed steel.

    A number of hardness settles it; else the word `hardened`, unless the words say that this comes
    after cutting.
    """
    words = _words(material)
    numbers = list(_hardnesses(words))
    if any(value > most for value, most in numbers):
        return not (_SOFT | _AFTER | {"be"}) & set(words)
    if numbers or _SOFT & set(words):
        return False
    for at, word in enumerate(words):
        if word in _HARD and not _NOT_YET & set(words[max(0, at - 2) : at]):
            return not _AFTER & set(words)
    return False


def _words(material: str) -> list[str]:
    """The words in lower case; a number keeps its point, a hyphen parts words."""
    return re.findall(r"\d+(?:\.\d+)+|[^\W_]+", material.lower())


def _named(words: list[str]) -> Iterator[tuple[int, int, Metal]]:
    """First and last word of every name in the text, with its metal; `EN 8` is `EN8`."""
    for metal in METALS:
        for name in metal.names:
            parts = _words(name)
            for at in range(len(words) - len(parts) + 1):
                if words[at : at + len(parts)] == parts:
                    yield at, at + len(parts), metal
                if len(parts) == 1 and "".join(words[at : at + 2]) == name and words[at].isalpha():
                    yield at, at + 2, metal


def _inside_out(found: list[tuple[int, int, Metal]]) -> list[Metal]:
    """The metals of those names that are no part of a longer one."""
    return [
        metal
        for start, end, metal in found
        if not any(s <= start and end <= e and e - s > end - start for s, e, _ in found)
    ]


def _hardnesses(words: list[str]) -> Iterator[tuple[float, float]]:
    """Every number beside a scale of hardness, and the hardest of that scale."""
    for at, word in enumerate(words):
        joined = re.fullmatch(r"(\d+)?(hrc|rc|hv|hbw|hb|bhn)(\d+)?", word)
        scale = joined[2] if joined else word
        if scale not in _SCALES:
            continue
        beside = [joined[1], joined[3]] if joined else []
        beside += words[max(0, at - 1) : at] + words[at + 1 : at + 2]
        number = next((one for one in beside if one and re.fullmatch(r"\d+(\.\d+)?", one)), None)
        if number is not None:
            yield float(number), _SCALES[scale]
