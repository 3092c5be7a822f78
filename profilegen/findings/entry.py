"""One entry of the catalogue of findings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Entry:
    """What a finding code says and what it means.

    Attributes:
        says: the sentence, with the names of its facts in braces; `{size:both}` is a length in both
            units, `{cause:short}` another finding's sentence up to its colon. By case where the
            code has several sentences.
        means: what it means at the bench and what to do.
    """

    says: str | Mapping[str, str]
    means: str
