"""The catalogue of findings: every code with its sentence and what it means at the bench.

What a finding says when it is printed and what `words` says of its code come from the same entry. A
test holds the entries against the codes and the facts that the rooms give, both ways.
"""

from __future__ import annotations

from typing import Final

from profilegen.findings.entry import Entry
from profilegen.findings.of_clocks import ENTRIES as OF_CLOCKS
from profilegen.findings.of_cuts import ENTRIES as OF_CUTS
from profilegen.findings.of_gears import ENTRIES as OF_GEARS
from profilegen.findings.of_settings import ENTRIES as OF_SETTINGS
from profilegen.findings.of_sprockets import ENTRIES as OF_SPROCKETS
from profilegen.findings.of_wheels import ENTRIES as OF_WHEELS

CATALOGUE: Final[dict[str, Entry]] = {
    **OF_WHEELS,
    **OF_GEARS,
    **OF_CLOCKS,
    **OF_CUTS,
    **OF_SETTINGS,
    **OF_SPROCKETS,
}
"""Finding code -> its entry."""
