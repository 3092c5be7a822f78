"""What every table of a part file shares: frozen, no unknown keys, rules between keys.

Owns: the base models for wheels, bores and cutters, and `KeyRule`, a broken rule between keys.
Refuses: the keys of any one kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from typing import Any, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic.functional_validators import ModelWrapValidatorHandler

from profilegen.part.fields import (
    Count,
    FieldError,
    Length,
    LengthOrZero,
    Name,
    Relief,
    SignedLength,
    Teeth,
    Turn,
)

FLAT_FLANKED = ("vee", "single-angle", "double-angle")
"""Kinds of cutter with two straight flanks."""


@dataclass(frozen=True, slots=True)
class KeyRule:
    """A rule between keys that a table breaks.

    Attributes:
        key: the key to look at first, or empty for the table as a whole.
        message: one sentence that says what is wrong.
        allowed: what would be accepted.
        hint: the next step to take.
    """

    key: str
    message: str
    allowed: str = ""
    hint: str = ""


class Table(BaseModel):
    """One table of a part file. Sizes are given in shop notation and kept in mm and radians."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    inner: ClassVar[Mapping[str, str]] = {}
    """Key -> table of the registry that may stand there in place of a text."""

    inner_lists: ClassVar[Mapping[str, type[Table]]] = {}
    """Key -> model of the tables of which a list stands there, one or more."""

    left_out_at_zero: ClassVar[frozenset[str]] = frozenset()
    """Keys whose size is there or is not: 0 says the same as leaving the key out."""

    bare_numbers: ClassVar[Mapping[str, tuple[float, float]]] = {}
    """Key whose value is a number without a unit -> the least and the greatest that it may be."""

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rules between keys that a table with just the keys `given` breaks."""
        del given
        return ()

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield the rules between values that this table breaks."""
        yield from ()

    @model_validator(mode="wrap")
    @classmethod
    def _keep_key_rules(cls, data: Any, handler: ModelWrapValidatorHandler[Any]) -> Any:
        table = handler(data)
        broken = cls.key_rules(table.model_fields_set)
        if broken:
            raise FieldError(broken[0].message, broken[0].allowed, broken[0].hint)
        return table


class WheelTable(Table):
    """`[wheel]`: the keys that every kind of wheel has. Each kind narrows `kind`."""

    kind: str = Field(description="The form of the wheel.")
    thickness: Length = Field(description="The width of the rim along the axis.")


class ToothedTable(WheelTable):
    """`[wheel]`: the keys of every kind that has teeth."""

    teeth: Teeth = Field(description="The number of teeth round the whole wheel.")


class BoreTable(Table):
    """`[bore]`: the keys that every kind of bore has. Each kind narrows `kind`."""

    kind: str = Field(description="The shape of the hole in the middle.")
    angle: Turn = Field(
        default=0.0,
        description=(
            "The turn from the face tip of tooth 1 to the middle of a flat or keyway, "
            "counter-clockwise positive seen from the front."
        ),
    )


class CutterTable(Table):
    """`[[cutter]]`: the keys that every cutter has. Each kind narrows `kind`."""

    name: Name = Field(description="What the cutter is called in your drawer.")
    kind: str = Field(description="The shape of the cutter's edge.")
    tip_radius: LengthOrZero | None = Field(
        default=None,
        description="The radius of the rounded tip, measured on the cutter; 0 is a sharp point.",
    )
    tip_flat: LengthOrZero | None = Field(
        default=None,
        description="The width of a flat tip, square to the infeed, measured on the cutter.",
    )
    edge_length: Length | None = Field(
        default=None,
        description="How far the cutting edge reaches up from the tip, along the infeed.",
    )
    body_width: Length | None = Field(
        default=None, description="The greatest width of the cutter, square to the infeed."
    )
    sweep_diameter: Length | None = Field(
        default=None, description="The diameter of the circle that the tip runs on when spun."
    )
    holder_diameter: Length | None = Field(
        default=None,
        description=(
            "The diameter of the bar, collar or shank that carries the cutter and turns with it."
        ),
    )
    teeth: Count | None = Field(
        default=None, description="The number of cutting edges on the cutter; 1 for a fly cutter."
    )
    relief_angle: Relief | None = Field(
        default=None,
        description=(
            "The clearance ground behind the edge, measured square to the edge, from the cutting "
            "direction."
        ),
    )
    relief_ground: Literal["round", "flanks"] = Field(
        default="round",
        description=(
            "How the clearance is ground: round evenly round the tip, as on an insert; flanks for "
            "two flat flanks with the tip stoned along the ridge between them. When in doubt, "
            "round: it is the more cautious one."
        ),
    )
    edge_thickness: Length | None = Field(
        default=None, description="The thickness of the bit or insert below its cutting edge."
    )
    edge_ahead: SignedLength = Field(
        default=0.0,
        description=(
            "How far the cutting edge stands ahead of the spindle's radius line, the way it turns; "
            "negative behind it."
        ),
    )
    material: Name | None = Field(default=None, description="What the cutter is made of.")

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the rule that a tip is either rounded or flat."""
        tips = given & {"tip_radius", "tip_flat"}
        if len(tips) == 2:
            return (
                KeyRule(
                    "tip_flat",
                    "a tip is rounded or flat, not both",
                    "tip_radius or tip_flat",
                    "take out the one you did not measure",
                ),
            )
        return ()

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield a flat tip as wide as the whole cutter, an edge off its own circle, and a holder
        that hides it."""
        if self.sweep_diameter and (self.holder_diameter or 0.0) >= self.sweep_diameter:
            yield KeyRule(
                "holder_diameter",
                "the holder is as big as the circle that the tip runs on, so nothing stands out",
                "less than sweep_diameter",
                "measure the bar, collar or shank beside the cutter",
            )
        if self.sweep_diameter and abs(self.edge_ahead) >= self.sweep_diameter / 2:
            yield KeyRule(
                "edge_ahead",
                "the edge stands outside the circle that its tip runs on",
                "less than half of sweep_diameter",
                "measure it square to the line from the spindle's axis to the tip",
            )
        if self.relief_ground == "flanks" and self.kind not in FLAT_FLANKED:
            yield KeyRule(
                "relief_ground",
                "only a cutter with two straight flanks is ground in flats with a ridge between",
                '"round"',
            )
        if self.tip_flat and self.body_width and self.tip_flat >= self.body_width:
            yield KeyRule(
                "tip_flat",
                "the tip is as wide as the whole cutter, so its flanks have no edge",
                "less than body_width",
                'a cutter with straight sides is kind = "slot"',
            )


def no_tip(given: Set[str], message: str, hint: str) -> tuple[KeyRule, ...]:
    """Return a broken rule for each tip key given to a cutter whose shape has none."""
    return tuple(
        KeyRule(key, message, hint=hint) for key in ("tip_radius", "tip_flat") if key in given
    )
