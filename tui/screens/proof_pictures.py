"""One zone's proof in; what its three pictures show, and the same in words, out."""

import datetime as dt
from typing import TYPE_CHECKING

from scheduler import said
from scheduler.said import signed
from scheduler.units import System, converted, shown, unit_label
from tui.screens.wording import day_text
from tui.widgets.dated_ranges import Dated, DatedRanges
from tui.widgets.drift_bands import Drifting, DriftPanels
from tui.widgets.meter_bars import BarPair, BarPairs

if TYPE_CHECKING:
    from scheduler.proof.leaching_check import CheckedPots
    from scheduler.proof.learning import Learned
    from scheduler.proof.meter import MeterInterval
    from scheduler.proof.zone_proof import ZoneProof

PERCENT = 100.0
SPAN_DAYS = 14.0  # the least that an axis of days shows


def percent(part: float) -> str:
    return f"{PERCENT * part:.0f} %"


def unbroken(texts: list[str]) -> tuple[str, ...]:
    """The same, with every percent sign kept on the line of its number."""
    return tuple(one.replace(" %", "\u00a0%") for one in texts)


def short_day(day: dt.date) -> str:
    return said.day_text(day)


# --- leaching --------------------------------------------------------------------


def leaching_points(found: "ZoneProof") -> DatedRanges | None:
    """Leaching checks by date; None without any."""
    if not found.checks:
        return None
    points = tuple(
        _point(one, counts)
        for one, counts in zip(found.checks, found.counting, strict=True)
    )
    band = PERCENT * found.band[0], PERCENT * found.band[1]
    target = found.checks[-1].target
    return DatedRanges(
        points=points,
        days=_ends([one.day for one in points]),
        band=band,
        line=PERCENT * target,
        legend=f"● by volume │ range ▾ driest pot ┄ target {percent(target)} "
        f"░ usual {band[0]:.0f}–{band[1]:.0f}",
        words=unbroken(leaching_words(found)),
    )


def _point(one: "CheckedPots", counts: bool) -> Dated:
    leaching = one.leaching
    return Dated(
        day=float(one.check.date.toordinal()),
        label=short_day(one.check.date),
        value=PERCENT * leaching.fraction,
        low=PERCENT * leaching.low,
        high=PERCENT * leaching.high,
        least=PERCENT * one.driest,
        texts=(percent(leaching.fraction), f"{percent(one.driest)} {one.driest_place}"),
        counts=counts,
    )


def leaching_words(found: "ZoneProof") -> list[str]:
    """Each check in a sentence, the newest first."""
    low, high = (percent(one) for one in found.band)
    lines = []
    for one, counts in zip(found.checks, found.counting, strict=True):
        leaching = one.leaching
        text = (
            f"{day_text(one.check.date)}: {len(one.check.pots)} pots leached "
            f"{percent(leaching.fraction)} by volume, {percent(leaching.low)} to "
            f"{percent(leaching.high)} for the zone; the driest, "
            f"{one.driest_place}, {percent(one.driest)}. {check_asks(one)}"
        )
        lines.append(
            text if counts else f"{text} It does not count in what is learned."
        )
    aim = percent(found.checks[-1].target) if found.checks else f"{low} to {high}"
    return [*reversed(lines), f"Target {aim}; usual are {low} to {high}."]


def check_asks(one: "CheckedPots") -> str:
    """What one check asks of the clock."""
    new = one.new
    if new is None or one.minutes is None:
        return "How long the water ran is not known, so it asks for no minutes."
    least = "at least " if one.is_at_least else ""
    floor = f"{new.by_mean:.1f} by the mean, {new.floor:.1f} by the driest pot"
    made = f"Of {one.minutes:g} min it makes {least}{new.minutes} ({floor})"
    percent_of_clock = one.percent_of_clock
    if percent_of_clock is None:
        return f"{made}."
    return f"{made}, or percent adjust {percent_of_clock} % instead, not both."


# --- drift -----------------------------------------------------------------------


def drift_panels(found: "ZoneProof") -> DriftPanels | None:
    """Kc and rate over the weeks; None where nothing was looked at."""
    learnt = found.learnt
    if learnt is None or not found.kc or not learnt.minutes.used:
        return None
    days = [one.on for one in found.kc]
    return DriftPanels(
        panels=(_drifting("Kc", found.kc), _drifting("rate", found.rate)),
        line=1.0,
        marks=tuple(float(one.date.toordinal()) for one in learnt.minutes.used),
        labels=tuple((float(day.toordinal()), short_day(day)) for day in days),
        words=unbroken(drift_words(found)),
    )


def _drifting(name: str, weeks: "tuple[Learned, ...]") -> Drifting:
    last = weeks[-1]
    return Drifting(
        title=f"{name} × {last.factor:.2f} ({last.low:.2f}–{last.high:.2f})",
        days=tuple(float(one.on.toordinal()) for one in weeks),
        values=tuple(one.factor for one in weeks),
        lows=tuple(one.low for one in weeks),
        highs=tuple(one.high for one in weeks),
    )


def drift_words(found: "ZoneProof") -> list[str]:
    """Both corrections at their first and last week, and what was seen."""
    said = []
    for name, weeks in (("Kc", found.kc), ("Rate", found.rate)):
        first, last = weeks[0], weeks[-1]
        said.append(
            f"{name} over what was entered: {_told(first)} on {day_text(first.on)}, "
            f"{_told(last)} on {day_text(last.on)}, 90 % sure."
        )
    learnt = found.learnt
    for one in learnt.minutes.used if learnt else ():
        said.append(f"{day_text(one.date)}: {one.kind}, {one.ratio:.2f} ({one.where}).")
    for one in learnt.minutes.held if learnt else ():
        what = f"{one.kind}, {one.ratio:.2f} ({one.where}), stands against all else"
        said.append(f"{day_text(one.date)}: {what}: held back.")
    return said


def _told(one: "Learned") -> str:
    return f"{one.factor:.2f} ({one.low:.2f} to {one.high:.2f})"


# --- meter -----------------------------------------------------------------------


def meter_pairs(found: "ZoneProof", units: System) -> BarPairs | None:
    """Plan and meter by interval; None without two readings."""
    if not found.intervals:
        return None
    # thousands of gallons, so that the scale leaves room for the bars
    to = "kgal" if units == "us" else "m3"
    unit = unit_label(to, units)
    return BarPairs(
        pairs=tuple(_pair(one, to) for one in found.intervals),
        legend=("plan and log", f"meter, {unit}", "frost", "by hand"),
        words=unbroken(meter_words(found, units)),
    )


def _pair(one: "MeterInterval", to: str) -> BarPair:
    sizes = [
        converted(size, "m3", to=to)
        for size in (one.expected_m3, one.frost_m3, one.hand_m3)
    ]
    metered = one.dial.volume_m3
    apart = [
        name
        for name, size in (("frost", one.frost_m3), ("hand", one.hand_m3))
        if size > 0
    ]
    return BarPair(
        expected=sizes[0],
        apart=(sizes[1], sizes[2]),
        measured=None if metered is None else converted(metered, "m3", to=to),
        top=off_text(one),
        foot=short_day(one.dial.stop.date),
        note="+".join(apart),
        is_off=one.is_off,
    )


def off_text(one: "MeterInterval") -> str:
    """How far the meter is off, marked where it is too far."""
    if one.off is None:
        return "–"
    return f"{'▲' if one.is_off else ''}{signed(PERCENT * one.off, '.0f')} %"


def meter_words(found: "ZoneProof", units: System) -> list[str]:
    """Each interval in a sentence, the newest first."""
    lines = [meters_of(found)]
    for one in reversed(found.intervals):
        start, stop = one.dial.start.date, one.dial.stop.date
        apart = "".join(
            f", {name} {shown(size, 'm3', units)}"
            for name, size in (("frost", one.frost_m3), ("by hand", one.hand_m3))
            if size > 0
        )
        lines.append(
            f"{short_day(start)} to {short_day(stop)}: plan and log "
            f"{shown(one.expected_m3, 'm3', units)}{apart}, meter "
            f"{shown(one.dial.volume_m3, 'm3', units)}, {off_text(one)}."
        )
    return lines


def meters_of(found: "ZoneProof") -> str:
    """Which meters the zone runs through, and who else does."""
    seen: dict[str, list[str]] = {}
    for one in found.intervals:
        seen[one.dial.meter] = [water.zone for water in one.zones]
    told = []
    for meter, zones in seen.items():
        others = [one for one in zones if one != found.zone.id]
        told.append(
            f"{meter} (with {', '.join(others)})" if others else f"{meter} (alone)"
        )
    return f"Meter {', '.join(told)}."


def _ends(days: list[float]) -> tuple[float, float]:
    """Ends of an axis of days, with room beside the outer ones."""
    room = max(SPAN_DAYS, days[-1] - days[0]) / 6
    return days[0] - room, days[-1] + 2 * room
