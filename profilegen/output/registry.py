"""Every file that a job becomes, by name: what is in it and what it is for.

Owns the list: a new output is its report, a back end when its format is new, and one line of
`OUTPUTS` here. Nothing is imported before its file is asked for, and nothing is written here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from profilegen.drawing.marks import Sheet
    from profilegen.job import Job

Use = Literal["send", "print", "pin up", "tick off", "keep"]
Paper = Literal["A4", "Letter"]
Kind = Literal["pdf", "svg"]
Version = Literal["R12", "R2000", "R2010"]


@dataclass(frozen=True, slots=True)
class Options:
    """What a user may choose about files.

    Attributes:
        dxf_version: of every DXF.
        paper: of sheets and templates; A4 for mm parts and Letter for inch parts when None.
        scale: of the template, to 1.
    """

    dxf_version: Version = "R2010"
    paper: Paper | None = None
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class Output:
    """One kind of file.

    Attributes:
        ending: what stands behind the part's stem in the file name.
        use: what it is for, in the words the last lines of `make` use.
        words: what it is; `{scale}` stands for the scale drawn.
        needs_cut: whether it makes no sense without a cutter that can form the wheel.
        build: job and options to bytes.
    """

    ending: str
    use: Use
    words: str
    needs_cut: bool
    build: Callable[[Job, Options], bytes]


@dataclass(frozen=True, slots=True)
class OutputFile:
    """One finished file: ending of its name, bytes, use and words."""

    ending: str
    data: bytes
    use: Use
    words: str


def _dxf(job: Job, options: Options) -> bytes:
    from profilegen.dxf.writing import dxf_bytes
    from profilegen.views.dxf_layers import part_layers

    return dxf_bytes(part_layers(job), job.part.units, options.dxf_version)


def _cutter_dxf(job: Job, options: Options) -> bytes:
    from profilegen.dxf.writing import dxf_bytes
    from profilegen.views.dxf_layers import cutter_layers

    return dxf_bytes(cutter_layers(job), job.part.units, options.dxf_version)


def _template(job: Job, options: Options) -> Sheet:
    from profilegen.sheets.template import template

    key = ("template", options.paper, options.scale)
    (sheet,) = job.laid_out(key, lambda: (template(job, options.scale, options.paper),))
    return sheet


def _template_svg(job: Job, options: Options) -> bytes:
    from profilegen.output.svg import svg_bytes

    return svg_bytes(_template(job, options))


def _template_pdf(job: Job, options: Options) -> bytes:
    from profilegen.output.pdf import pdf_bytes

    return pdf_bytes([_template(job, options)])


def _sheets(job: Job, options: Options) -> tuple[Sheet, ...]:
    from profilegen.sheets.setup_sheet import setup_sheets

    return job.laid_out(("sheet", options.paper), lambda: setup_sheets(job, options.paper))


def _sheet_svg(job: Job, options: Options) -> bytes:
    from profilegen.output.svg import svg_bytes

    return svg_bytes(_sheets(job, options)[0])


def _sheet_pdf(job: Job, options: Options) -> bytes:
    from profilegen.output.pdf import pdf_bytes

    return pdf_bytes(_sheets(job, options))


def _stops(job: Job, options: Options) -> bytes:
    from profilegen.output.csv_rows import csv_bytes
    from profilegen.topics.stop_rows import stop_rows

    return csv_bytes(stop_rows(job))


def _json(job: Job, options: Options) -> bytes:
    from profilegen.output.json_text import json_text

    return json_text(job.as_dict()).encode()


def _record_pdf(job: Job, options: Options) -> bytes:
    from profilegen.output.pdf import pdf_bytes
    from profilegen.sheets.record_sheet import record_sheets

    return pdf_bytes(record_sheets(job, options.paper))


TEMPLATE = "check template {scale}"

OUTPUTS: Final[dict[str, Output]] = {
    "dxf": Output(".dxf", "send", "outline and holes at nominal size", False, _dxf),
    "cutter-dxf": Output(
        "-cutter-DO-NOT-CUT.dxf", "keep", "outline with the cutter at every stop", True, _cutter_dxf
    ),
    "template-svg": Output("-template.svg", "print", TEMPLATE, False, _template_svg),
    "template-pdf": Output("-template.pdf", "print", TEMPLATE, False, _template_pdf),
    "sheet-svg": Output("-sheet.svg", "pin up", "set-up sheet, first page", False, _sheet_svg),
    "sheet-pdf": Output("-sheet.pdf", "pin up", "set-up sheet, every page", False, _sheet_pdf),
    "stops": Output("-stops.csv", "tick off", "every stop", False, _stops),
    "record-pdf": Output("-record.pdf", "print", "record sheet for ten pieces", False, _record_pdf),
    "json": Output(".json", "keep", "every number, for programs", False, _json),
}
"""Name -> output, in the order in which files are listed."""


def build(job: Job, name: str, options: Options) -> OutputFile:
    """One file by the name of its output.

    Raises:
        KeyError: there is no such output.
    """
    output = OUTPUTS[name]
    data = output.build(job, options)
    return OutputFile(output.ending, data, output.use, _words(output, options))


def _words(output: Output, options: Options) -> str:
    if "{scale}" not in output.words:
        return output.words
    from profilegen.sheets.template import ratio

    return output.words.format(scale=ratio(options.scale))
