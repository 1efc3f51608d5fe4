"""Sections 1 to 4: as found, work and receipts, after, and uniformity of both."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.reports.paper import (
    Block,
    Column,
    Facts,
    Section,
    Table,
    Words,
    plain,
)
from scheduler.said import date_text
from scheduler.units import shown

if TYPE_CHECKING:
    from scheduler.proof.period import Period
    from scheduler.proof.saving import Saving
    from scheduler.proof.uniformity_change import TestedSide, UniformityChange
    from scheduler.units import System

LEAST_LINES = 4
ESTIMATED = " (estimated)"
NO_TESTS = (
    "No zone was tested both before and after the change: nothing is known of what it "
    "did to uniformity."
)
DU_METHOD = (
    "DU low quarter: mean of the driest quarter of the cans over the mean of all, a "
    "quarter may end in a can (Univ. Florida AE194). Ranges hold what the column says, "
    "nine times in ten. Only tests in one wind band can be held against each other."
)


def as_found_section(found: Saving, units: System) -> Section:
    """The period before."""
    return Section("As found", (period_facts(found.before, units),), "1")


def after_section(found: Saving, units: System) -> Section:
    """The period after."""
    return Section("After", (period_facts(found.after, units),), "3")


def period_facts(one: Period, units: System) -> Facts:
    """Days, water, weather and ground of a period."""
    return Facts(tuple(_facts(one, units)))


def _facts(one: Period, units: System) -> Iterator[tuple[str, str]]:
    def measured(text: str, is_measured: bool) -> str:
        return text if is_measured else text + ESTIMATED

    digits = 1 if units == "us" else 0
    yield (
        "Period",
        f"{plain(one.name)}: {date_text(one.start)} to {date_text(one.stop)}, "
        f"{one.days} nights",
    )
    water = measured(shown(one.water_m3, "m3", units), one.is_metered)
    frost = measured(shown(one.frost_m3, "m3", units), one.is_frost_metered)
    hand = shown(one.hand_m3, "m3", units)
    yield "Water", f"{water}; of it frost {frost}, by hand {hand}"
    eto = shown(one.eto_mm, "mm", units, digits=digits)
    rain = shown(one.rain_mm, "mm", units, digits=digits)
    counted = shown(one.rain_used_mm, "mm", units, digits=digits)
    eto = measured(eto, one.weather_is_measured)
    yield "Weather", f"reference ET {eto}; rain {rain}, of it counted {counted}"
    ground = "not said: taken as the same before and after"
    yield "Ground", ground if one.area_m2 is None else shown(one.area_m2, "m2", units)


def work_section(found: Saving) -> Section:
    """What was done by the log, with boxes for receipts."""
    columns = (
        Column("done on", 1.6, is_number=True),
        Column("where", 1),
        Column("what was done", 3.9),
        Column("receipt no.", 1.4),
        Column("paid on", 1.3),
        Column("amount", 1.3),
    )
    rows = tuple(
        (
            date_text(one.date),
            plain(one.zone or f"package {one.package}"),
            plain(one.what),
            "",
            "",
            "",
        )
        for one in found.work
    )
    empty = tuple([("",) * len(columns)] * max(LEAST_LINES - len(rows), 1))
    return Section("Work done, receipts", (Table(columns, (*rows, *empty)),), "2")


def uniformity_section(found: Saving) -> Section:
    """Tests before and after, their method and what may be said of them."""
    if not found.changes:
        return Section("Uniformity before and after", (Words(NO_TESTS),), "4")
    blocks: list[Block] = [tests_table(found)]
    blocks += [Words(_change(one)) for one in found.changes]
    blocks.append(Words(DU_METHOD))
    return Section("Uniformity before and after", tuple(blocks), "4")


def tests_table(found: Saving) -> Table:
    """A line a test: when, how, what came out."""
    columns = (
        Column("zone", 0.8),
        Column("tested", 1.7, is_number=True),
        Column("condition", 1.5),
        Column("wind", 1.2),
        Column("runs x cans", 1.2, is_number=True),
        Column("DU", 0.8, is_number=True),
        Column("range", 1.4, is_number=True),
        Column("range of", 2.2),
    )
    rows = tuple(
        (plain(one.zone), *_side(side))
        for one in found.changes
        for side in (one.before, one.after)
    )
    return Table(columns, rows, is_filled=True)


def _side(one: TestedSide) -> tuple[str, ...]:
    span = "–"
    if one.low is not None and one.high is not None:
        span = f"{one.low:.2f}–{one.high:.2f}"
    return (
        date_text(one.date),
        plain(one.condition),
        " ".join(one.bands) or "not known",
        f"{one.n_runs} x {one.n_cans}",
        f"{one.du_lq:.2f}",
        span,
        one.range_of,
    )


def _change(one: UniformityChange) -> str:
    band = {True: "in one wind band", False: "in different wind bands"}
    wind = "in a wind that is not known"
    if one.is_same_band is not None:
        wind = band[one.is_same_band]
    return (
        f"{plain(one.zone)}: {one.verdict}, tested {wind}. Its rule ({one.rule}) asks "
        f"for {one.factor_before:.2f} times the need, then {one.factor_after:.2f}."
    )
