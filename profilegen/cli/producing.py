"""The one door from the commands to the reports: outputs of a job as files to be written.

Owns their names: the part's stem and the ending of the output; for a single R12 file also the
version and unit, since R12 carries no units.
Refuses to write files and to know how an output is made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from profilegen.cli.saying import say
from profilegen.cli.standard_input import DASH, NAMELESS, stem_of_part
from profilegen.cli.writing import Outgoing
from profilegen.findings.cannot_make import CannotMakeError

if TYPE_CHECKING:
    from profilegen.drawing.marks import Sheet
    from profilegen.job import Job
    from profilegen.part.part import Part

Version = Literal["R12", "R2000", "R2010"]
Paper = Literal["A4", "Letter"]


@dataclass(frozen=True, slots=True)
class Choices:
    """How outputs are made, where the user may choose.

    Attributes:
        version: of the DXF.
        paper: None for the one that suits the part's unit.
        scale: of the template, to 1.
    """

    version: Version = "R2010"
    paper: Paper | None = None
    scale: float = 1.0


def stem_of(file: str, part: Part | None = None) -> str:
    """The name that a part's outputs begin with: the file's name without its endings; from standard
    input the number or title of the part, or `part`."""
    from profilegen.part import part as parts

    if file == DASH:
        return NAMELESS if part is None else stem_of_part(part)
    return parts.stem_of(Path(file)).strip(". ") or NAMELESS


def kinds_for(job: Job) -> tuple[str, ...]:
    """The outputs that make sense for this job, in the order in which they are listed."""
    from profilegen.output.registry import OUTPUTS

    return tuple(kind for kind in OUTPUTS if can_be_made(job, kind))


def can_be_made(job: Job, kind: str) -> bool:
    """Whether an output makes sense: some need a cutter that can form the wheel."""
    from profilegen.output.registry import OUTPUTS

    return bool(job.plan.cuts) or not OUTPUTS[kind].needs_cut


def produce(
    job: Job, kind: str, choices: Choices, base: Path, unit_in_name: bool = False
) -> Outgoing:
    """One output, to be written at `base` (folder and stem) with its own ending.

    `unit_in_name` says version and unit in the name of an R12 file, which carries no unit itself.
    """
    from profilegen.output.registry import Options, build

    quiet_libraries()
    options = Options(dxf_version=choices.version, paper=choices.paper, scale=choices.scale)
    made = build(job, kind, options)
    marked = unit_in_name and choices.version == "R12" and made.ending.endswith(".dxf")
    name = f"{base.name}-R12-{job.part.units}" if marked else base.name
    return Outgoing(base.parent / f"{name}{made.ending}", made.data, made.use, made.words)


def quiet_libraries() -> None:
    """Keep the DXF library's remarks to programmers, and what it quotes of a file, off stderr."""
    import logging

    logging.getLogger("ezdxf").setLevel(logging.CRITICAL + 1)


def picture(sheets: Sequence[Sheet], ending: str) -> bytes:
    """Sheets as a PDF where the ending is `.pdf`, else the first of them as an SVG, and that said
    where there are more."""
    if ending == ".pdf":
        from profilegen.output.pdf import pdf_bytes

        return pdf_bytes(sheets)
    from profilegen.output.svg import svg_bytes

    if len(sheets) > 1:
        say(f"a .svg holds the first of {len(sheets)} pages; a .pdf holds them all")
    return svg_bytes(sheets[0])


def names_of(base: Path) -> frozenset[str]:
    """Every file name that an output of this stem can have."""
    from profilegen.output.registry import OUTPUTS

    stems = (base.name, f"{base.name}-R12-mm", f"{base.name}-R12-in")
    return frozenset(f"{stem}{output.ending}" for stem in stems for output in OUTPUTS.values())


def key_picture(part: Part) -> bytes | None:
    """The tooth with every key at the dimension it sets, as an SVG file; None for no tooth."""
    from profilegen.views import key_picture as drawn

    try:
        return picture([drawn.key_picture(part)], ".svg")
    except CannotMakeError:
        return None
