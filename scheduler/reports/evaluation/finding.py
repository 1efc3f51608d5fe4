"""Section 1: one paragraph that can be read to a grower, and three things to do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.field.range_words import ONE_RUN, THIS_CELL
from scheduler.field.uniformity import rating
from scheduler.reports.evaluation.told import how_sure
from scheduler.reports.paper import Column, Section, Table, Words, plain
from scheduler.reports.text import day_names, minutes_text, was_text
from scheduler.said import date_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.reports.evaluation.told import Told

ACTIONS = 3
AT_THE_CLOCK = "a minute at the clock"


def finding_section(told: Told) -> Section:
    """The finding, then the actions with boxes for who and when."""
    return Section("Finding", (Words(finding(told)), actions_table(told)), "1")


def finding(told: Told) -> str:
    """What was found, how sure that is, why it is so, what the week does with it."""
    return " ".join([*_measured(told), *_cause(told), *_week(told)])


def _measured(told: Told) -> Iterator[str]:
    test = told.test
    name = f"{plain(test.zone)} {plain(told.plan.zone.name)}"
    head = f"{name}, test of {date_text(test.date)}, {plain(test.condition)}"
    yield f"{head} ({how_sure(told)})."
    if told.stops:
        yield f"It cannot be used for run times: {'; '.join(map(plain, told.stops))}."
        return
    if test.stated is not None and not test.runs:
        du = test.stated.du_lq
        yield f"As stated by {plain(test.stated.source)}, DU low quarter {du:.2f}: "
        yield f"{rating(du)}. No readings were kept."
    elif test.du_lq is not None:
        yield (
            f"Water fell at {_rate(told)}; the driest "
            f"quarter of the ground got {test.du_lq:.0%} of the mean (DU low quarter "
            f"{test.du_lq:.2f}{_range(told)}). That is {rating(test.du_lq)}."
        )


def _rate(told: Told) -> str:
    """Net rate of the run, or from the lowest to the highest of several."""
    rates = [
        one.catch.net_rate_mm_per_h
        for one in told.runs
        if one.catch.net_rate_mm_per_h is not None
    ]
    if not rates:
        return "a rate that is not known"
    low = shown(min(rates), "mm_per_h", told.units, with_unit=False)
    high = shown(max(rates), "mm_per_h", told.units)
    return f"{low} to {high}" if len(rates) > 1 else high


def _range(told: Told) -> str:
    """Range of the DU by its name, and what it does not tell."""
    test, summed = told.test, told.test.together
    if len(told.runs) > 1 and summed and summed.du_lq:
        one = summed.du_lq
        return f"; {one.low:.2f}–{one.high:.2f} for this cell in these runs"
    ranges = told.runs[0].ranges if told.runs else None
    if ranges is None or test.du_lq is None:
        return ""
    low, high = ranges.du_lq.low, ranges.du_lq.high
    return f"; {low:.2f}–{high:.2f} for {THIS_CELL}; {ONE_RUN}"


def _cause(told: Told) -> Iterator[str]:
    causes = told.test.shape.causes if told.test.shape else ()
    sure = [one for one in causes if one.is_beyond_chance]
    if sure:
        first = sure[0]
        named = f"{first.kind}, {first.where}" if first.where else first.kind
        yield f"Most likely cause: {named}; {first.evidence}."
    elif causes:
        yield "No shape on the map is more than chance: dry cans lie scattered."


def _week(told: Told) -> Iterator[str]:
    plan, chosen = told.plan, told.chosen
    if plan.status == "blocked":
        yield "Leave the clock as it is until this is settled."
    elif plan.status == "fixed":
        yield f"The zone runs {minutes_text(plan)} min by a fixed setting, not by need."
    elif chosen is not None:
        yield (
            f"Watered by this week's rule ({chosen.rule}), the driest quarter "
            f"gets {chosen.quarters[0]:.0%} of what plants need and the wettest "
            f"{chosen.quarters[-1]:.0%}; {chosen.above_need:.0%} of the water falls "
            "above the need."
        )


# --- actions -----------------------------------------------------------------


def actions(told: Told) -> list[tuple[str, str, str]]:
    """What to do, why, and what it takes: three at most, cheapest first."""
    steps = [(one.what, one.why, one.cost) for one in told.steps]
    if told.steps and told.steps[0].is_first:
        return steps[:ACTIONS]
    return [*_clock(told), *steps][:ACTIONS]


def _clock(told: Told) -> Iterator[tuple[str, str, str]]:
    """The clock costs nothing to set; only where the plan changes it."""
    plan = told.plan
    if plan.status != "planned" or not plan.minutes_per_day:
        return
    if minutes_text(plan) == was_text(plan):
        return
    nights = day_names(plan.days) if len(plan.days) < len(plan.dates) else "every night"
    what = f"set the clock to {minutes_text(plan)} min a night, {nights}"
    was = "" if plan.was_minutes is None else f"; it was {was_text(plan)} min"
    yield what, f"this week's plan by the rule {plan.rule}{was}", AT_THE_CLOCK


def actions_table(told: Told) -> Table:
    """Three lines with room to write who does it and by when."""
    columns = (
        Column("", 0.4),
        Column("do this, cheapest first", 3.7),
        Column("because", 3.4),
        Column("takes", 1.6),
        Column("who", 1.4),
        Column("by when", 1.5),
    )
    rows = tuple(
        (str(i), _short(plain(what)), _short(plain(why)), cost, "", "")
        for i, (what, why, cost) in enumerate(actions(told), 1)
    )
    empty = tuple((str(i), *[""] * 5) for i in range(len(rows) + 1, ACTIONS + 1))
    return Table(columns, (*rows, *empty), is_tall=True)


def _short(text: str, most: int = 170) -> str:
    """A text that fits its box; it stands in full with the causes."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
