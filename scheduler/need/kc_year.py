"""A zone and a year's weather in, its crop coefficient on every day of a year out."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import DateArray, FloatArray, frozen
from scheduler.need.dual_use import Wetting
from scheduler.need.kc_curve import DAYS_OF_YEAR, PlantKc
from scheduler.need.season_days import SeasonDays
from scheduler.need.zone_use import ZoneUse, zone_use
from scheduler.record import DailySeries
from scheduler.said import day_text
from scheduler.site import Zone
from scheduler.trace import Trace


@dataclass(frozen=True, slots=True, eq=False)
class KcYear:
    """Crop coefficient of a zone's plants through the year of today.

    Attributes
    ----------
    date : array of shape (n_days,)
        Days of the year. [datetime64[D]]
    kc : array of shape (n_days,)
        Coefficient; the basal one where wet ground is not known. [-]
    basal : array of shape (n_days,) or None
        Of the plants alone, where the ground is counted apart. [-]
    today : int
        Place of today among the days.
    kind, area, source, note : str
        How it runs through the year, the area it is for, where it came from, and what
        a reader must know.
    trace : Trace
        Of the coefficient of today.
    """

    date: DateArray
    kc: FloatArray
    basal: FloatArray | None
    today: int
    kind: str
    area: str
    source: str
    note: str
    trace: Trace


def kc_year(
    zone: Zone,
    today: dt.date,
    *,
    weather: Iterable[DailySeries] = (),
    days: SeasonDays | None = None,
    wetting: Wetting | None = None,
) -> KcYear | None:
    """Crop coefficient of a zone on every day of the year of today.

    Parameters
    ----------
    zone : Zone
        With the plants that rule in it.
    today : date
        The day that is marked.
    weather : iterable of DailySeries
        The site's stations, for coefficients of a table.
    days : SeasonDays, optional
        Weather of a year; only the evaporation from wet ground follows it.
    wetting : Wetting, optional
        Nights that wet the ground; every one if not given.

    Returns
    -------
    KcYear or None
        None where the zone has no plant, or its coefficient cannot be known.

    Notes
    -----
    29 February is left out. Where the ground is counted apart, the days of `days` stand
    for those of this year.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 6, equations 58, 66 and 69.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> box = Plant(name="box", kc=0.8, kc_area="bed", kc_from="weighed")
    >>> zone = Zone(id="F1", name="box", area_m2=100.0, grown_in="soil", plant=box)
    >>> found = kc_year(zone, dt.date(2026, 6, 8))
    >>> float(found.kc[found.today]), found.kind, found.source
    (0.8, 'one number all year', 'weighed')
    """
    first = np.datetime64(f"{today.year:04d}-01-01", "D")
    dates = first + np.arange(DAYS_OF_YEAR)
    use, _ = zone_use(zone, dates, weather=weather, wetting=wetting)
    if use is None:
        return None
    place = min((today - dt.date(today.year, 1, 1)).days, DAYS_OF_YEAR - 1)
    own = use.coefficient
    kc, basal, trace = own.on(dates), None, use.kc_trace(np.zeros(1), dates[[place]])
    if use.ground is not None:
        basal = frozen(kc)
        kc, trace = _with_ground(use, dates, days, place)
    return KcYear(
        date=dates,
        kc=frozen(kc),
        basal=basal,
        today=place,
        kind=_kind(own),
        area=use.plant.kc_area,
        source=own.source,
        note=own.note,
        trace=trace,
    )


def _with_ground(
    use: ZoneUse, dates: DateArray, days: SeasonDays | None, place: int
) -> tuple[FloatArray, Trace]:
    """Kcb + Ke over the days of that weather; Kcb alone where none is known."""
    basal = use.coefficient.on(dates)
    if days is None or days.date.size < dates.size:
        name = "basal coefficient of the plants; no year's weather wets the ground"
        return basal, Trace("kcb", float(basal[place]), name, use.coefficient.source)
    eto, rain = days.eto_mm_per_day[: dates.size], days.rain_mm[: dates.size]
    kc = use.kc(eto, dates, rain)
    trace = Trace(
        "kc",
        float(kc[place]),
        f"kcb + ke on that day, in the weather of {days.name}",
        "FAO-56 (1998) eq. 69",
        (use.kc_trace(eto, dates, rain),),
    )
    return kc, trace


def _kind(own: PlantKc) -> str:
    """How a coefficient runs through the year."""
    if own.season is not None:
        start = day_text(own.season.start)
        again = "anew each year" if own.season.every_year else own.season.start.year
        return f"a curve of four stages from {start}, {again}"
    return "one number all year" if len(own.levels) == 1 else "by month, in steps"
