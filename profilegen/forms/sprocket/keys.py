"""The keys of a sprocket's `[wheel]` table, and which of them go together."""

from __future__ import annotations

from collections.abc import Iterator, Set
from typing import Annotated, ClassVar, Final, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from profilegen.forms.sprocket.chains import CHAINS, RollerChain
from profilegen.part.base import KeyRule, ToothedTable
from profilegen.part.fields import FieldError, Length, what

GapForm = Literal["minimum", "maximum"]

SIZES: Final = frozenset({"pitch", "roller_diameter"})

_NAMES: Final = ", ".join(CHAINS)


def _chain(value: object) -> str:
    """The number of a chain, as text; a bare number is read as one."""
    text = str(value) if isinstance(value, int) and not isinstance(value, bool) else value
    if not isinstance(text, str):
        raise FieldError(f"this is {what(value)} where the number of a chain is wanted", _NAMES)
    number = text.strip().upper().removeprefix("#")
    if number not in CHAINS:
        hint = "for any other chain give pitch and roller_diameter"
        raise FieldError("there is no such chain here", _NAMES, hint)
    return number


ChainNumber = Annotated[
    str,
    BeforeValidator(_chain),
    WithJsonSchema({"type": "string", "enum": list(CHAINS)}),
]
"""The number of a roller chain."""


class Sprocket(ToothedTable):
    """A sprocket: its chain by number, or by pitch and roller diameter."""

    left_out_at_zero: ClassVar = frozenset[str]()

    kind: Literal["sprocket"] = Field(description="The tooth form: for a roller chain.")
    chain: ChainNumber | None = Field(
        default=None, description='The number of the roller chain, such as "06B" or "40".'
    )
    pitch: Length | None = Field(
        default=None, description="From roller to roller of the chain, along the straight chain."
    )
    roller_diameter: Length | None = Field(
        default=None, description="The greatest diameter of the chain's rollers."
    )
    gap_form: GapForm = Field(
        default="minimum",
        description=(
            "Which limit of the standard the gap between two teeth is drawn at: minimum for the "
            "narrowest gap, maximum for the widest. What is made may lie anywhere between."
        ),
    )
    tip_diameter: Length | None = Field(
        default=None,
        description="The diameter over the tips; the usual one for the chain when left out.",
    )
    root_diameter: Length | None = Field(
        default=None,
        description="The diameter under the seats of the rollers; the pitch diameter less a "
        "roller when left out.",
    )

    @classmethod
    def key_rules(cls, given: Set[str]) -> tuple[KeyRule, ...]:
        """Return the broken rule: a chain, or both pitch and roller."""
        allowed = "chain, or pitch and roller_diameter"
        both = sorted(SIZES & given)
        if "chain" in given and both:
            text = f"chain and {both[0]} both say which chain it is"
            return (KeyRule(both[0], text, allowed, f"take out {' and '.join(both)}, or chain"),)
        if "chain" in given or len(both) == 2:
            return ()
        if both:
            (other,) = SIZES - given
            return (KeyRule("", f"{both[0]} is given without {other}", allowed, f"add {other}"),)
        return (KeyRule("", "which chain it is for is not given", allowed, 'add chain = "08B"'),)

    def value_rules(self) -> Iterator[KeyRule]:
        """Yield rollers that do not fit between each other."""
        if self.pitch is not None and self.roller.roller >= self.roller.pitch:
            text = "a roller is smaller than the pitch of its chain"
            yield KeyRule("roller_diameter", text, hint="give both as the chain is marked")

    @property
    def roller(self) -> RollerChain:
        """The chain, mm; plates of width and height 0 where only pitch and roller are known."""
        if self.chain is not None:
            return CHAINS[self.chain]
        return RollerChain(self.pitch or 0.0, self.roller_diameter or 0.0, 0.0, 0.0)
