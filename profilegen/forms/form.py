"""What one tooth form is to the rest of the program.

A form is one module, or one folder, of this room: the keys of its `[wheel]` table, its solver, what
a careful machinist objects to, the sizes that are measured, what `start --ask` asks. It offers all
of it as one `FORM`; `part.kinds` names that module once. Forms never import each other, and no
other room names one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, ClassVar, Final, Generic, Literal, TypeVar

from profilegen.findings.finding import Finding, Phrase, Refusal
from profilegen.part.base import WheelTable

if TYPE_CHECKING:
    from profilegen.forms.wheel import Wheel
    from profilegen.part.part import Part

Keys = TypeVar("Keys", bound=WheelTable)

Hold = Literal["land", "root"]
"""Which given of a tooth stays, beside its space angle, when the blank is not nominal."""


@dataclass(frozen=True, slots=True)
class Ask:
    """Ask for the value of one key."""

    table: str
    key: str


@dataclass(frozen=True, slots=True)
class AskSome:
    """Ask which of some keys the print gives, then for the value of each.

    Attributes:
        table: where they stand.
        keys: to choose from.
        question: what is asked.
    """

    table: str
    keys: tuple[str, ...]
    question: str


@dataclass(frozen=True, slots=True)
class AskKind:
    """Ask for the kind of a table, then for the keys of that kind.

    Attributes:
        table: which table.
        extra: further keys that are asked for, where the kind has them and its rules allow.
    """

    table: str
    extra: tuple[str, ...] = ()


Step = Ask | AskSome | AskKind

FIRST: Final[tuple[Step, ...]] = (
    Ask("", "title"),
    Ask("", "number"),
    Ask("", "material"),
    Ask("wheel", "teeth"),
)
LAST: Final[tuple[Step, ...]] = (
    AskKind("bore", ("corner_radius",)),
    AskKind("cutter", ("tip_radius", "corner_radius", "dxf", "layer")),
    Ask("setup", "head"),
    Ask("setup", "cutter_side"),
    Ask("setup", "front"),
    Ask("setup", "spindle"),
)
"""What is asked of every wheel, before and after its own keys."""


class Form(Generic[Keys]):
    """One tooth form; each kind has one instance of its own subclass.

    Attributes:
        kind: the part file's word for it.
        keys: the model of its `[wheel]` table.
        line: what it is, in one line.
        asked: what `start --ask` asks of its own keys.
        weights: key of a size -> what a change of it counts when a part is to be mended.
    """

    kind: ClassVar[str]
    keys: ClassVar[type[WheelTable]]
    line: ClassVar[str]
    asked: ClassVar[tuple[Step, ...]] = ()
    weights: ClassVar[Mapping[str, float]] = MappingProxyType({})

    def toothed(self, keys: Keys) -> Wheel:
        """The wheel of these keys without bore and holes, nothing objected to.

        Args:
            keys: of its `[wheel]` table, mm and rad.

        Raises:
            Refusal: no teeth have these sizes.
        """
        raise NotImplementedError

    def cautions(self, part: Part, wheel: Wheel) -> Iterable[Finding]:
        """What a careful machinist objects to in teeth that can be made."""
        del part, wheel
        return ()

    def varied(self, keys: Keys, sizes: Mapping[str, float]) -> Keys:
        """The keys of the same teeth with other sizes; what the cutter and the blank set stays as
        solved.

        Args:
            keys: of the wheel as it is.
            sizes: key -> its new size, mm or rad.

        Raises:
            Refusal: the keys themselves have no teeth.
        """
        return keys.model_copy(update=dict(sizes))

    def for_blank(self, keys: Keys, diameter: float, hold: Hold | None) -> Keys | None:
        """The keys of the same wheel on another blank; None where the teeth belong to one blank
        only.

        Args:
            keys: of the print.
            diameter: of the blank at hand, mm.
            hold: the size that stays as it is on the print; None for the givens of the print.

        Raises:
            Refusal: the keys themselves have no teeth.
        """
        del keys, diameter, hold
        return None

    def is_sound(self, keys: Keys) -> bool:
        """Whether teeth with these keys exist and are fit to be offered in place of others."""
        try:
            self.toothed(keys)
        except Refusal:
            return False
        return True

    def least(self, keys: Keys) -> Iterable[tuple[str, float]]:
        """Keys given as 0 that must be more, each with the least that passes, mm."""
        del keys
        return ()

    def consequence(self, keys: Keys, code: str, key: str) -> Phrase | None:
        """What mending a refusal by a key brings, told behind the advice; None for nothing to say.

        Args:
            keys: of the wheel that cannot be made.
            code: of the refusal.
            key: that is changed, without its table.
        """
        del keys, code, key
        return None


AnyForm = Form[Any]
