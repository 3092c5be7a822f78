"""The cutters of a part side by side on its wheel, as plain text.

Owns the comparison's two tables, what each cutter makes of the space, best first, and how each one
that is usable is set; between them, what a row cannot tell. Refuses to choose: the cutter that is
set up is the part's choice, and is only marked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from profilegen.cutting.compare import Match
from profilegen.cutting.touch import infeed_from
from profilegen.figures import Figure, Figures, mm, tidied
from profilegen.findings.telling import told
from profilegen.forms.wheel import Wheel
from profilegen.job import Job
from profilegen.topics.columns import text_lines
from profilegen.topics.topic import Line, Table, topics, written
from profilegen.topics.zero_words import IN_SHORT, ZERO, feeler_line

HEADER = ("", "Cutter", "Verdict", "Laps", "Gouge", "Left over", "Root diameter")
CREST = 6
"""Column of the header before which the width of the crest stands."""

FORMS = "forms the space"
SETTING = ("", "Cutter", "Lap", "Forms", "Offset", "Infeed from top zero", "from offset zero")


def cutter_text(job: Job, matches: tuple[Match, ...], accept: float, set_up: str | None) -> str:
    """Every cutter, best first; what is to be said of those that do not just form the space; how
    each that is usable is set, a row a lap.

    Args:
        job: whose wheel they are tried on.
        matches: best first.
        accept: deviation still called usable, mm.
        set_up: names the one that is set up, if it is among them.
    """
    said = topics(
        {
            f"{job.part.title}: cutters on this wheel, best first": _results(
                job, matches, accept, set_up
            ),
            "Remarks": _reasons(job, matches, accept),
            **_settings(job, matches, accept, set_up),
        }
    )
    return "\n".join(list(text_lines(written(said, job.part.figures)))[1:]) + "\n"


def _results(
    job: Job, matches: tuple[Match, ...], accept: float, set_up: str | None
) -> Iterator[Line]:
    crest = job.wheel.named("land").capitalize()
    header = (*HEADER[:CREST], crest, *HEADER[CREST:])
    yield Table(header, tuple(_result(match, match.cutter == set_up) for match in matches))
    usable = job.part.figures.length(accept)
    yield f"Gouge, left over: greatest distance from the wanted outline; up to {usable} is usable."
    if set_up is None:
        yield "None of these is set up: check takes the part's own cutters, or its drawer."


def _reasons(job: Job, matches: tuple[Match, ...], accept: float) -> Iterator[str]:
    """A paragraph for each cutter of which more is to be said than its row tells."""
    figures = job.part.figures
    for match in matches:
        verdict = verdict_words(match, figures, accept, job.wheel)
        deep = match.fit is not None and match.fit.below_root > accept
        root = _root_words(job, match, figures) if deep or _is_usable(match, accept) else ""
        why = "" if match.why is None else told(match.why, figures)
        more = [text for text in (root, why) if text]
        if more or verdict != FORMS:
            yield f"{match.cutter}: {'; '.join([verdict, *more])}"


def _settings(
    job: Job, matches: tuple[Match, ...], accept: float, set_up: str | None
) -> dict[str, Iterable[Line]]:
    """The table of settings, and what its words mean; of the best where none is usable."""
    usable = [match for match in matches if _is_usable(match, accept) or match.cutter == set_up]
    rows: list[tuple[str | Figure, ...]] = []
    for match in usable or [match for match in matches if match.cuts][:1]:
        rows += _setting(job, match, match.cutter == set_up)
    if not rows:
        return {}
    every = len(usable) == len(matches)
    which = "the best of them is" if not usable else "each is" if every else "the usable ones are"
    here = "For the print's blank: profilegen check sets for the blank as measured."
    said: tuple[Line, ...] = (
        Table(SETTING, tuple(rows)),
        "Offset: of the apex from the wheel axis.",
        f"{IN_SHORT} {feeler_line(job.part)}",
        *([here] if job.setting.blank is not None else []),
    )
    return {f"How {which} set": said}


def _is_usable(match: Match, accept: float) -> bool:
    """Whether all that a cutter gouges or leaves is within what is called usable."""
    fit = match.fit
    return fit is not None and max(fit.gouge.value, fit.below_root, fit.left_over.value) <= accept


def verdict_words(match: Match, figures: Figures, accept: float, wheel: Wheel) -> str:
    """The verdict with its limit, such as `leaves 0.03 mm at the root, over your 0.02 mm`.

    Args:
        match: with what its cuts make of the space.
        figures: how sizes are written.
        accept: deviation still called usable, mm.
        wheel: that the places are named of.
    """
    if match.fit is None:
        return "cannot enter the space"
    limit = figures.length(accept)
    over = f"over your {limit}: not usable as it stands"
    gouge, left = match.fit.gouge, match.fit.left_over
    if gouge.value > accept:
        return f"gouges {figures.length(gouge.value)} at the {wheel.named(gouge.where)}, {over}"
    if match.fit.below_root > accept:
        return f"goes {figures.length(match.fit.below_root)} below the root wanted, {over}"
    if left.value > accept:
        return f"leaves {figures.length(left.value)} at the {wheel.named(left.where)}, {over}"
    worst = max(match.fit.gouge, match.fit.left_over, key=lambda found: found.value)
    if worst.value < 5e-7:
        return FORMS
    size = figures.length(worst.value)
    verb = "gouges" if worst is match.fit.gouge else "leaves"
    return f"{verb} {size} at the {wheel.named(worst.where)}, within your {limit}: usable"


def _root_words(job: Job, match: Match, figures: Figures) -> str:
    """The root that a cutter leaves, and the web under it, where it is not the root drawn."""
    if match.fit is None or abs(match.fit.root_radius - job.wheel.root_radius) < 5e-4:
        return ""
    left = f"leaves a root of diameter {figures.length(2 * match.fit.root_radius)}"
    web = web_left(job, match)
    return left if web is None else f"{left} and a web of {figures.length(web)} to the bore"


def web_left(job: Job, match: Match) -> float | None:
    """From the bore to the root that a cutter leaves, mm; None without either."""
    if match.fit is None or job.web is None:
        return None
    return job.web - (job.wheel.root_radius - match.fit.root_radius)


def _result(match: Match, is_chosen: bool) -> tuple[str | Figure, ...]:
    first, fit = ("set up" if is_chosen else "", match.cutter, match.verdict), match.fit
    if fit is None:
        return (*first, "-", "-", "-", "-", "-")
    sizes = (fit.gouge.value, fit.left_over.value, fit.land, fit.root_diameter)
    return (*first, str(len(match.cuts)), *map(mm, sizes))


def _setting(job: Job, match: Match, is_chosen: bool) -> list[tuple[str | Figure, ...]]:
    feeler, how = job.part.setup.feeler or 0.0, {"both": "both flanks", "space": "deepest plunge"}
    return [
        (
            "set up" if is_chosen else "",
            match.cutter,
            f"{cut.lap} of {len(match.cuts)}",
            how.get(cut.forms, job.wheel.named(cut.forms)),
            mm(tidied(cut.offset)),
            *(mm(infeed_from(cut, zero, feeler)) for zero in ZERO),
        )
        for cut in match.cuts
    ]
