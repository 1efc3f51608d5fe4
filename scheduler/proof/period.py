"""A site, its meters and a span of days in; its water and its weather out."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, QuantityError
from scheduler.need.outlook import MEASURED, UNKNOWN, Outlook, outlook
from scheduler.need.stations import stations_et
from scheduler.proof.dial import DialInterval
from scheduler.proof.flow_range import flow_range
from scheduler.proof.hardware import standing_tests
from scheduler.proof.meter import MeterInterval
from scheduler.proof.meter_causes import L_PER_M3
from scheduler.proof.meter_water import zones_of
from scheduler.proof.told import told_nights
from scheduler.record import History
from scheduler.said import date_text, day_text
from scheduler.site import Site
from scheduler.trace import Trace

# Part of the days on which weather must be measured before water is laid to it (common
# practice, no source).
KNOWN_DAYS = 0.9
WEEK_DAYS = 7


@dataclass(frozen=True, slots=True)
class Span:
    """Days from a first to a last one that no longer counts, under a name."""

    name: str
    start: dt.date
    stop: dt.date


@dataclass(frozen=True, slots=True, kw_only=True)
class Period:
    """Water, weather and ground of some days.

    Attributes
    ----------
    name : str
        As the user named it.
    start, stop : date
        First night, and the day after the last one.
    days : int
        Nights that count.
    water_m3 : float or None
        All water of the meters, frost and hand water too; or the estimate. [m3]
    is_metered : bool
        False where it is minutes times flow.
    frost_m3, hand_m3 : float
        Part of it that went against frost, and by hand. [m3]
    is_frost_metered : bool
        False where frost water is minutes times flow.
    area_m2 : float or None
        Ground that was watered; None where nobody said that it changed. [m2]
    eto_mm, rain_mm, rain_used_mm : float or None
        Reference ET, rain, and what the zones count of it up to the ETo of its week.
        [mm]
    weather_is_measured : bool
        ETo of nine days of ten was measured.
    dials : tuple of DialInterval
        The readings that it rests on; empty for an estimate.
    trace : Trace or None
        Of `water_m3`.
    """

    name: str
    start: dt.date
    stop: dt.date
    days: int
    water_m3: float | None
    is_metered: bool = True
    frost_m3: float = 0.0
    hand_m3: float = 0.0
    is_frost_metered: bool = True
    area_m2: float | None = None
    eto_mm: float | None = None
    rain_mm: float | None = None
    rain_used_mm: float | None = None
    weather_is_measured: bool = True
    dials: tuple[DialInterval, ...] = ()
    trace: Trace | None = None


def parsed_span(text: str) -> Span:
    """A year, or the days from one date to another.

    Parameters
    ----------
    text : str
        `2025`, or `2026-04-13..2026-05-18`.

    Returns
    -------
    Span
        From the first day on; readings up to the last day count.

    Raises
    ------
    QuantityError
        If it is neither, or ends before it starts.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> parsed_span("2025").stop
    datetime.date(2026, 1, 1)
    """
    plain = text.strip()
    if re.fullmatch(r"(19|20|21)\d\d", plain):
        year = int(plain)
        return Span(plain, dt.date(year, 1, 1), dt.date(year + 1, 1, 1))
    fix = "write a year such as 2025, or 2026-04-13..2026-05-18"
    try:
        start, stop = (dt.date.fromisoformat(one) for one in plain.split(".."))
    except ValueError:
        raise QuantityError(f"{plain!r} is no span of days", fix) from None
    if stop <= start:
        raise QuantityError(f"{plain!r} ends before it starts", fix)
    return Span(plain, start, stop)


def period(
    site: Site,
    history: History,
    intervals: Sequence[MeterInterval],
    span: Span,
    today: dt.date,
) -> tuple[Period, tuple[Finding, ...]]:
    """Water of a span by the meters, else by the clock, with the weather of its days.

    Parameters
    ----------
    site : Site
        Zones and place.
    history : History
        Weather, rain, issued weeks and log.
    intervals : sequence of MeterInterval
        Of every meter.
    span : Span
        Only intervals that lie whole within it count.
    today : date
        The day to count from.

    Returns
    -------
    period : Period
        Its area is not known: see `Period.area_m2`.
    findings : tuple of Finding
        What is estimated, and what is left out.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> found, said = period(site, History(), (), parsed_span("2025"),
    ...                      dt.date(2026, 6, 8))
    >>> found.water_m3 is None, len(said)
    (True, 2)
    """
    inside = [
        one
        for one in _not_twice(site, intervals)
        if span.start <= one.dial.start.date and one.dial.stop.date <= span.stop
    ]
    known = [one for one in inside if one.dial.volume_m3 is not None]
    said = [_left_out(one, span) for one in inside if one.dial.volume_m3 is None]
    if known:
        said += _uneven(known, span)
        made = _metered(known, span)
        nights = sorted({night for one in known for night in one.dial.nights})
    else:
        stop = min(span.stop, today)
        count = max((stop - span.start).days, 0)
        nights = [span.start + dt.timedelta(days=i) for i in range(count)]
        made = _estimated(site, history, span, nights)
        said.append(_not_metered(made, span))
    weather, about = _weather(site, history, nights, today)
    return _with_weather(made, weather, _rain_share(site)), (*said, *about)


def _metered(known: Sequence[MeterInterval], span: Span) -> Period:
    nights = {night for one in known for night in one.dial.nights}
    water = sum(one.dial.volume_m3 or 0.0 for one in known)
    trace = Trace(
        "water_m3",
        water,
        "sum over meters and readings",
        "measured",
        tuple(one.dial.trace for one in known),
    )
    return Period(
        name=span.name,
        start=min(one.dial.start.date for one in known),
        stop=max(one.dial.stop.date for one in known),
        days=len(nights),
        water_m3=water,
        frost_m3=sum(one.frost_m3 for one in known),
        hand_m3=sum(one.hand_m3 for one in known),
        is_frost_metered=all(one.is_frost_metered for one in known),
        dials=tuple(one.dial for one in known),
        trace=trace,
    )


def _estimated(
    site: Site, history: History, span: Span, nights: Sequence[dt.date]
) -> Period:
    """Minutes of the clock times flow, where no meter tells."""
    parts = []
    for zone in site.zones:
        tests = standing_tests(zone, history, span.stop)
        flow = flow_range(zone, site.package_of(zone), tests, span.stop)
        ran = told_nights(zone, site, history, nights).ran_min
        if flow is None or not np.isfinite(ran).any():
            continue
        volume = float(np.nansum(ran)) * flow.flow_l_per_min / L_PER_M3
        formula = "minutes as told and logged x flow"
        name = f"water_{zone.id}_m3"
        parts.append(Trace(name, volume, formula, "definition", (flow.trace,)))
    water = sum(one.value for one in parts if isinstance(one.value, float))
    trace = Trace("water_m3", water, "sum over the zones", "definition", tuple(parts))
    return Period(
        name=span.name,
        start=span.start,
        stop=nights[-1] + dt.timedelta(days=1) if nights else span.start,
        days=len(nights),
        water_m3=water if parts and nights else None,
        is_metered=False,
        trace=trace if parts else None,
    )


# --- weather -------------------------------------------------------------------


def _weather(
    site: Site, history: History, nights: Sequence[dt.date], today: dt.date
) -> tuple[Outlook | None, tuple[Finding, ...]]:
    if not nights:
        return None, ()
    series, _ = stations_et(history.weather, site.place)
    dates = np.array(nights, dtype="datetime64[D]")
    return outlook(series, history.rain, dates=dates, today=today)


def _rain_share(site: Site) -> float:
    """Part of the rain that the zones count, by their ground; all where none says."""
    ground = sum(one.area_m2 for one in site.zones)
    counted = sum(
        one.area_m2 * (1.0 if one.rain_counted is None else one.rain_counted)
        for one in site.zones
    )
    return counted / ground if ground else 1.0


def _with_weather(made: Period, weather: Outlook | None, share: float) -> Period:
    if weather is None:
        return made
    eto, rain = weather.eto_mm_per_day, weather.rain_mm
    measured = np.array([one == MEASURED for one in weather.eto_basis])
    rain_known = np.array([one != UNKNOWN for one in weather.rain_basis])
    has_rain = bool(rain_known.mean() >= KNOWN_DAYS)
    return replace(
        made,
        eto_mm=float(eto.sum()),
        rain_mm=float(rain.sum()) if has_rain else None,
        rain_used_mm=rain_used_mm(eto, rain * share) if has_rain else None,
        weather_is_measured=bool(measured.mean() >= KNOWN_DAYS),
    )


def rain_used_mm(eto_mm_per_day: FloatArray, rain_mm: FloatArray) -> float:
    """Rain that weeks could use: of each week no more than its reference ET.

    Parameters
    ----------
    eto_mm_per_day : array of shape (n_days,)
        Reference ET, day by day. [mm/day]
    rain_mm : array of shape (n_days,)
        Rain of the same days. [mm]

    Returns
    -------
    float
        At most the sum of the rain. [mm]

    Notes
    -----
    It is the most that rain can have saved: pots catch less of it.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> rain_used_mm(np.full(7, 5.0), np.array([90.0, 0, 0, 0, 0, 0, 0]))
    35.0
    """
    starts = np.arange(0, eto_mm_per_day.size, WEEK_DAYS)
    weeks = [np.add.reduceat(one, starts) for one in (eto_mm_per_day, rain_mm)]
    return float(np.minimum(*weeks).sum()) if starts.size else 0.0


# --- findings --------------------------------------------------------------------


def _not_twice(
    site: Site, intervals: Sequence[MeterInterval]
) -> tuple[MeterInterval, ...]:
    """Intervals without those of a meter behind another one."""
    zones = {
        one.dial.meter: {z.id for z in zones_of(site, one.dial.stop)}
        for one in intervals
    }
    behind = {
        name
        for name, own in zones.items()
        if any(own < other for other in zones.values())
    }
    return tuple(one for one in intervals if one.dial.meter not in behind)


def _left_out(one: MeterInterval, span: Span) -> Finding:
    dial = one.dial
    what = (
        f"{day_text(dial.start.date)} to {date_text(dial.stop.date)} is left out of "
        f"{span.name}: the meter cannot tell its water"
    )
    return Finding("note", dial.stop.where, what, "see `lowquarter meter`")


def _uneven(known: Sequence[MeterInterval], span: Span) -> list[Finding]:
    """Meters of one period that do not cover the same days."""
    days: dict[str, set[dt.date]] = {}
    for one in known:
        days.setdefault(one.dial.meter, set()).update(one.dial.nights)
    every = set().union(*days.values())
    short = [f"{name} {len(own)}" for name, own in days.items() if own != every]
    if not short:
        return []
    what = f"of {len(every)} nights of {span.name} not all meters tell: " + ", ".join(
        short
    )
    return [Finding("warning", "log.csv", what, "name days that all meters cover")]


def _not_metered(made: Period, span: Span) -> Finding:
    if made.water_m3 is None:
        what = f"nothing is known of the water of {span.name}: no meter, no clock"
        fix = "record meter readings, or write [zone.as_found]"
    else:
        what = f"no meter tells the water of {span.name}: estimated, minutes x flow"
        fix = "record meter readings; what is estimated proves nothing"
    return Finding("warning", "log.csv", what, fix)
