"""Sections 8 to 10: how it was measured, photos, the next test; sources."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.field.range_words import range_caveat
from scheduler.field.visit import mouth_diameter_mm
from scheduler.reports.evaluation.causes import cause_caveat
from scheduler.reports.evaluation.told import counted
from scheduler.reports.paper import (
    Block,
    Facts,
    Photos,
    Section,
    Words,
    plain,
)
from scheduler.said import date_text, day_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation
    from scheduler.reports.evaluation.told import Told

AT_CANS = (
    "Measured at the height of the cans: roots in soil even water out, plants over "
    "pots funnel or shed it"
)
ALWAYS = (
    "Univ. Florida AE194 (DU and its scale; 0.75 and 0.85 are common practice, no "
    "source)",
    "Mecham 2010, ASABE IRR10-10040 (low half)",
)
# A source that names a publication begins so.
_PUBLISHED = re.compile(
    r"FAO|Univ\.|UC |ASABE|[A-Z]\w+ (et al|and [A-Z])|general textbooks|Mecham"
)
CONFIDENTIAL = (
    "Confidential: made for the grower, who decides who else may see it. It is advice, "
    "not an inspection."
)


def method_section(told: Told) -> Section:
    """Cans, runs, exclusions, and what the result cannot tell."""
    blocks: list[Block] = [Facts(tuple(_facts(told)))]
    return Section("Method, cans, exclusions, limits", tuple(blocks), "8")


def _facts(told: Told) -> Iterator[tuple[str, str]]:
    read, units = told.read, told.units
    if read.mouth_area_cm2 is not None:
        mouth = shown(mouth_diameter_mm(read.mouth_area_cm2), "mm", units)
        yield "Can mouth", f"{mouth} across"
    else:
        yield "Can mouth", "not known: ratios hold, rates cannot be told"
    for run in told.runs:
        yield plain(run.run), _run(run, told)
        for text in _excluded(run):
            yield "Left out", text
    if told.test.together and told.test.together.n_runs > 1:
        yield "Runs together", "catches summed by position, at places all runs caught"
    yield "DU", "mean of the driest quarter over the mean; a quarter may end in a can"
    yield "Limits", f"{AT_CANS}. {_sentence(range_caveat())}"
    shapes = cause_caveat(told)
    if shapes:
        yield "Shapes", shapes
    for one in told.test.findings:
        yield _level(one.level), plain(f"{one.what}; {one.fix}")


def _level(level: str) -> str:
    return {"stop": "Stop", "warning": "Look at it"}.get(level, "Note")


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."


def _run(run: RunEvaluation, told: Told) -> str:
    caught, units = run.catch.run, told.units
    rows, columns = caught.reading.shape
    parts = [f"{counted(run.catch.n_cans, 'can')} on {rows} x {columns} places"]
    if caught.minutes is not None:
        parts.append(shown(caught.minutes, "min", units))
    if caught.start is not None:
        parts.append(f"from {day_text(caught.start, '%d %b %Y %H:%M')}")
    if caught.pressure_kpa is not None:
        parts.append(shown(caught.pressure_kpa, "kpa", units))
    wind = run.wind
    if wind is not None and wind.source == "log":
        parts.append(f"wind from {plain(wind.log)}, {wind.share_logged:.0%} logged")
    elif wind is not None and wind.source == "typed":
        parts.append("wind as typed")
    return ", ".join(parts)


def _excluded(run: RunEvaluation) -> Iterator[str]:
    caught = run.catch.run
    for one in caught.excluded:
        name = caught.label[one.row][one.column] or f"row {one.row + 1}"
        reading = f"{caught.reading[one.row, one.column]:g}"
        yield f"can {plain(name)} ({reading}): {plain(one.reason)}"
    if run.as_kept is not None:
        kept, measured = run.as_kept.du_lq, run.uniformity.du_lq
        yield f"DU {measured:.2f} without, {kept:.2f} with what was left out"


def photos_section(told: Told) -> Section:
    """Frames for what a picture shows better than a number."""
    dry = "the driest cans"
    if told.runs:
        run = told.runs[0]
        names = [run.catch.run.label[row][column] for row, column in run.driest[:4]]
        dry = f"the driest cans ({', '.join(plain(one) for one in names if one)})"
    captions = (
        f"1  {dry} and the heads beside them",
        "2  the head that most needs work, no.",
        "3  gauge or meter while it runs",
        "4  the crop in the driest and the wettest quarter",
    )
    return Section("Photos", (Photos(captions),), "9")


def next_section(told: Told) -> Section:
    """When to test again, and how so that it can be compared."""
    words = (
        f"Test again by {date_text(told.next_test)}, sooner after any change of "
        "nozzles, pressure or spacing: same grid, same hour, same wind, so that the "
        "two can be compared. After new hardware set the minutes anew before the "
        "plants show it."
    )
    blocks: list[Block] = [Words(words), Words(CONFIDENTIAL)]
    blocks.append(Words(f"Sources: {'; '.join(sources(told))}."))
    return Section("Next test, sources", tuple(blocks), "10")


def sources(told: Told) -> tuple[str, ...]:
    """Publications that the numbers of this report rest on."""
    named = [
        part
        for one in told.plan.trace.chain()
        for part in one.source.split("; ")
        if _PUBLISHED.match(part)
    ]
    return tuple(dict.fromkeys((*ALWAYS, *named)))
