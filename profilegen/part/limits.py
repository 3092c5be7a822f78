"""Limits of one feature: what the part file says, or else the default.

Owns the defaults of blank and bore (outside h11, round bore H7, across flats H11, keyway width JS9,
the rest ISO 2768-m; common practice, no published source) and says which of them was used; those of
teeth come with the tooth form.
Refuses limits of features that follow from others: `gauges` carries those through.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from profilegen.errors import InputError, Problem
from profilegen.part import iso286, iso2768
from profilegen.part.allowance import Allowance
from profilegen.part.iso286 import NoClass

if TYPE_CHECKING:
    from profilegen.part.how_measured import Measured
    from profilegen.part.measuring import Tolerance

FITS: Final = {
    "outside_diameter": "h11",
    "bore_diameter": "H7",
    "across_flats": "H11",
    "key_width": "JS9",
}
"""Feature -> default class of ISO 286; JS9 is the normal fit of a keyway in a hub (DIN 6885-1)."""


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits of one feature.

    Attributes:
        nominal: mm or rad.
        low: least allowed.
        high: greatest allowed.
        source: the tolerance in words, such as `h11` or `follows from the land`.
        is_default: whether the part file leaves it to the program.
    """

    nominal: float
    low: float
    high: float
    source: str
    is_default: bool = True

    @property
    def has_nominal(self) -> bool:
        """Whether the nominal is within: a blank at hand may put what it makes outside."""
        return self.low <= self.nominal <= self.high


def limits_of(
    tolerance: Tolerance | None, feature: str, nominal: float, measured: Measured | None = None
) -> Limits:
    """The limits of a length, mm.

    Args:
        tolerance: of the part file, or None.
        feature: its key under `[tolerance]`.
        nominal: mm.
        measured: with the default that the tooth form has for it, if any.

    Raises:
        InputError: a class that the part file names has no value at this size, or what it gives
            leaves nothing of it.
    """
    given: Allowance | None = getattr(tolerance, feature, None)
    low, high, source = deviations_of(tolerance, feature, nominal, measured)
    if given is not None and nominal + low <= 0:
        text = "this tolerance leaves nothing of the size"
        allowed = "a lower deviation that is smaller than the size itself"
        raise InputError(Problem(f"tolerance.{feature}", text, given.text, allowed))
    is_default = given is None and not _is_asked(tolerance, source)
    return Limits(nominal, nominal + low, nominal + high, source, is_default)


def deviations_of(
    tolerance: Tolerance | None, feature: str, nominal: float, measured: Measured | None = None
) -> tuple[float, float, str]:
    """Lower and upper deviation of a length, mm, and the words for them: as given, or the default,
    which takes half of a size at most.

    Args:
        tolerance: of the part file, or None.
        feature: its key under `[tolerance]`.
        nominal: mm.
        measured: with the default that the tooth form has for it, if any.

    Raises:
        InputError: a class that the part file names has no value at this size.
    """
    given: Allowance | None = getattr(tolerance, feature, None)
    if given is not None:
        return _of_length(given, feature, nominal)
    own = measured.default if measured is not None else None
    low, high, source = own or _default(tolerance, feature, nominal)
    return max(-nominal / 2, low), high, source


def angle_limits(
    tolerance: Tolerance | None, feature: str, nominal: float, measured: Measured
) -> Limits:
    """The limits of an angle, rad.

    Args:
        tolerance: of the part file, or None.
        feature: its key under `[tolerance]`.
        nominal: rad.
        measured: with its shorter leg in mm, by which the general class goes, and what its limits
            must stand between.

    Raises:
        InputError: what the part file gives leaves no angle.
    """
    given: Allowance | None = getattr(tolerance, feature, None)
    if given is None and measured.default is not None:
        low, high, source = measured.default
        return Limits(nominal, nominal + low, nominal + high, source)
    if given is not None and given.deviations is not None:
        low, high = nominal + given.deviations[0], nominal + given.deviations[1]
        least, most = measured.between
        if low <= least or high >= most:
            text = "with this tolerance the angle is none that a tooth can have"
            allowed = f"limits between {math.degrees(least):g} and {math.degrees(most):g} deg"
            raise InputError(Problem(f"tolerance.{feature}", text, given.text, allowed))
        return Limits(nominal, low, high, _in_words(given), False)
    name = given.general if given else _general(tolerance)
    give = iso2768.angle(measured.leg, name)
    text = f"ISO 2768-{name}"
    is_default = given is None and not _is_asked(tolerance, text)
    return Limits(nominal, nominal - give, nominal + give, text, is_default)


def is_given(tolerance: Tolerance | None, feature: str) -> bool:
    """Whether the part file gives this feature a tolerance of its own."""
    return getattr(tolerance, feature, None) is not None


def _of_length(given: Allowance, feature: str, size: float) -> tuple[float, float, str]:
    """Lower and upper deviation, mm, and the words for them."""
    if given.deviations is not None:
        return (*given.deviations, _in_words(given))
    try:
        if given.fit:
            found = iso286.deviations(size, given.fit)
            return found.lower, found.upper, given.fit
        give = iso2768.linear(size, given.general)
    except NoClass as error:
        raise _told(f"tolerance.{feature}", given.text, error, feature) from None
    return -give, give, f"ISO 2768-{given.general}"


def _in_words(given: Allowance) -> str:
    """The deviations as written; a bare size means plus and minus, and that is said."""
    low, high = given.deviations or (0.0, 0.0)
    return f"±{given.text}" if low == -high and given.text[0] not in "+±" else given.text


def _default(tolerance: Tolerance | None, feature: str, size: float) -> tuple[float, float, str]:
    fit = FITS.get(feature)
    if fit and size <= iso286.UP_TO[-1]:
        found = iso286.deviations(size, fit)
        return found.lower, found.upper, fit
    return _rest(tolerance, feature, size)


def _rest(tolerance: Tolerance | None, feature: str, size: float) -> tuple[float, float, str]:
    """By the general class; under 0.5 mm and over 4000 mm, where there is none, that of the nearest
    step, and half the size at most."""
    name, most = _general(tolerance), iso2768.LINEAR_UP_TO[-1]
    try:
        give = iso2768.linear(min(max(size, iso2768.LEAST), most), name)
    except NoClass as error:
        raise _told("tolerance.general", f"ISO 2768-{name}", error, feature) from None
    if iso2768.LEAST <= size <= most:
        return -give, give, f"ISO 2768-{name}"
    give = min(give, size / 2)
    past = f"under {iso2768.LEAST:g} mm" if size < most else f"over {most:g} mm"
    return -give, give, f"no general tolerance {past}"


def _general(tolerance: Tolerance | None) -> str:
    return tolerance.general[-1] if tolerance is not None else "m"


def _is_asked(tolerance: Tolerance | None, source: str) -> bool:
    """Whether limits are of the general class that the part file itself names."""
    named = tolerance is not None and "general" in tolerance.model_fields_set
    return named and source == f"ISO 2768-{_general(tolerance)}"


def _told(where: str, got: str, error: NoClass, feature: str) -> InputError:
    """The error of a class that has no value at the size of a feature."""
    text = f"{error}, and {feature} is none of these"
    hint = f'give plus and minus for it: tolerance.{feature} = "0.1", say'
    return InputError(Problem(where, text, got, hint=hint))
