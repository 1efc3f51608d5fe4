"""Pot weights of a zone in; what a pot used in a day, and its Kc, out."""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from scheduler.errors import Finding
from scheduler.log import HandWater, Log, PotWeight, Watering
from scheduler.need.leaching import POT_SPREAD, POT_SPREAD_DEGREES
from scheduler.need.sun import daylight_h
from scheduler.need.weighed import weighed_kc
from scheduler.proof.nights import Nights
from scheduler.site import Place, Pots, WeighedUse

# Clock time of the highest sun, summer time and place in the time zone left aside
# (common practice, no source); what that may be off goes into `HOURS_SD`.
HIGHEST_SUN_H = 13.0
HOURS_SD = 0.10
# less of a day's ETo than this between two weighings says nothing of the day
LEAST_PART = 0.4
# one pot on the scales is one plant (common practice, no source)
LEAST_POTS = 2
ML_PER_G = 1.0  # water


@dataclass(frozen=True, slots=True)
class WeighedDay:
    """Pots of one zone weighed twice without water between, about one day.

    Attributes
    ----------
    date : date
        The day whose use it is.
    where : str
        Its first line in the log.
    daily_loss_ml : tuple of float
        What each pot lost, carried to the whole day. [mL]
    part_of_day : float
        Mean part of the day's ETo between the two weighings. [-]
    log_sd : float
        Standard error of the mean loss, as part of itself. [-]
    """

    date: dt.date
    where: str
    daily_loss_ml: tuple[float, ...]
    part_of_day: float
    log_sd: float

    @property
    def mean_loss_ml(self) -> float:
        """Of one pot in the whole day. [mL]."""
        return float(np.mean(self.daily_loss_ml))

    @property
    def is_enough(self) -> bool:
        """Whether enough pots were weighed to teach something of the zone."""
        return len(self.daily_loss_ml) >= LEAST_POTS

    def kc_on_pot_top(self, pots: Pots, eto_mm: float) -> float:
        """Coefficient on the pot top, with the ETo of that day. [-]."""
        used = WeighedUse(daily_loss_ml=self.mean_loss_ml, eto_mm=eto_mm)
        return weighed_kc(used, pots)


@dataclass(frozen=True, slots=True)
class _Pair:
    """Weighings of one pot without water between."""

    date: dt.date
    where: str
    loss_g: float
    part: float


def weighed_days(
    log: Log, nights: Nights, place: Place, *, said_from: dt.date = dt.date.min
) -> tuple[tuple[WeighedDay, ...], tuple[Finding, ...]]:
    """What pots used, day by day, from their weights.

    Parameters
    ----------
    log : Log
        Pot weights with their time, and water given by hand.
    nights : Nights
        Of the zone.
    place : Place
        For the length of the day.
    said_from : date, optional
        Older weighings that tell no use are passed over without a word.

    Returns
    -------
    days : tuple of WeighedDay
        Days on which a pot was weighed twice, in order.
    findings : tuple of Finding
        Weighings that tell no use, and why.

    Notes
    -----
    Weighings of one pot in a row count: of one day, or with a skipped night between.
    The part of the day's ETo between them follows half a sine from sunrise to sunset.
    A pot that gained weight got water and is left out.

    References
    ----------
    Source: balance of water; the half sine is common practice, no source.

    Examples
    --------
    >>> from scheduler.record import History
    >>> from scheduler.site import Site, Zone
    >>> yard = Zone(id="Z5", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> day, here = dt.date(2026, 6, 21), Place(
    ...     latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC")
    >>> log = Log(tuple(
    ...     PotWeight(where=f"log.csv:{i}", typed="", date=day, time=dt.time(hour),
    ...               zone="Z5", place=pot, weight_g=grams)
    ...     for i, (hour, pot, grams) in enumerate(
    ...         [(6, "A1", 9000.0), (20, "A1", 8520.0), (6, "B2", 9100.0),
    ...          (20, "B2", 8580.0)])))
    >>> site = Site(name="Tern Hollow", units="us", place=here)
    >>> nights = Nights(yard, site, History(log=log))
    >>> days, _ = weighed_days(log, nights, here)
    >>> round(days[0].part_of_day, 2), round(days[0].mean_loss_ml)
    (1.0, 501)
    """
    pots: dict[str, list[PotWeight]] = {}
    for one in log.of(PotWeight):
        if one.zone.casefold() == nights.zone.id.casefold():
            pots.setdefault(one.place.strip().casefold(), []).append(one)
    found: dict[dt.date, list[_Pair]] = {}
    said: list[Finding] = []
    for every in pots.values():
        days: dict[dt.date, list[_Pair]] = {}
        for first, last in pairwise(every):
            pair, about = _pair(first, last, log, nights, place)
            said += about if last.date >= said_from else []
            if pair is not None:
                days.setdefault(pair.date, []).append(pair)
        for date, pairs in days.items():
            whole, about = _whole(pairs, every[0])
            said += about if date >= said_from else []
            if whole is not None:
                found.setdefault(date, []).append(whole)
    return tuple(_day(found[date]) for date in sorted(found)), tuple(said)


def _pair(
    first: PotWeight, last: PotWeight, log: Log, nights: Nights, place: Place
) -> tuple[_Pair | None, list[Finding]]:
    where = f"{last.where}: zone {last.zone}: pot weight"
    apart = (last.date - first.date).days
    if apart > 1 or (apart == 1 and not nights.is_skipped(first.date)):
        return None, []  # a night's water came between
    if first.time is None or last.time is None:
        what = f"{last.place} was weighed without a time of day: its use is not known"
        return None, [Finding("note", where, what, "write the time of each weighing")]
    if _got_water(first, last, log):
        return None, []
    if last.weight_g >= first.weight_g:
        what = f"{last.place} lost no weight since {first.time:%H:%M}: it got water"
        fix = "weigh between two waterings, after the pot has drained"
        return None, [Finding("note", where, what, fix)]
    loss = first.weight_g - last.weight_g
    return _Pair(first.date, first.where, loss, _part_of_day(first, last, place)), []


def _whole(
    pairs: Sequence[_Pair], pot: PotWeight
) -> tuple[_Pair | None, list[Finding]]:
    """All that one pot lost on one day, however often it was weighed."""
    part = sum(one.part for one in pairs)
    if part < LEAST_PART:
        where = f"{pairs[0].where}: zone {pot.zone}: pot weight"
        what = f"{pot.place}: {part:.0%} of the day's ETo lies between the weighings"
        fix = "weigh in the morning when drained, and again in the evening"
        return None, [Finding("note", where, what.replace("%", " %"), fix)]
    loss = sum(one.loss_g for one in pairs)
    return _Pair(pairs[0].date, pairs[0].where, loss, part), []


def _got_water(first: PotWeight, last: PotWeight, log: Log) -> bool:
    """Whether water that was noted with a time came between two weighings."""
    assert first.time is not None, "asked before"
    assert last.time is not None, "asked before"
    start, end = (first.date, first.time), (last.date, last.time)
    every = [*log.of(HandWater), *log.of(Watering)]
    return any(
        one.zone.casefold() == first.zone.casefold()
        and one.time is not None
        and start < (one.date, one.time) < end
        for one in every
    )


def _part_of_day(first: PotWeight, last: PotWeight, place: Place) -> float:
    """Part of a day's ETo between two weighings: half a sine by daylight. [-]."""
    day = first.date.timetuple().tm_yday
    light = float(daylight_h(place.latitude_deg, day))
    parts = [_risen(one.time, light) for one in (first, last)]
    return (last.date - first.date).days + parts[1] - parts[0]


def _risen(time: dt.time | None, light_h: float) -> float:
    """Part of the day's ETo before a time."""
    assert time is not None, "asked before"
    hour = time.hour + time.minute / 60.0
    sunrise = HIGHEST_SUN_H - light_h / 2.0
    passed = min(max((hour - sunrise) / light_h, 0.0), 1.0)
    return (1.0 - math.cos(math.pi * passed)) / 2.0


def _day(pairs: Sequence[_Pair]) -> WeighedDay:
    losses = np.array([ML_PER_G * one.loss_g / one.part for one in pairs])
    mean, more = float(losses.mean()), losses.size - 1.0
    spread = POT_SPREAD_DEGREES * POT_SPREAD**2 + float(
        ((losses / mean - 1) ** 2).sum()
    )
    error = math.sqrt(spread / (POT_SPREAD_DEGREES + more) / losses.size)
    part = float(np.mean([one.part for one in pairs]))
    # a whole day hangs on no hours
    hours = HOURS_SD if abs(part - 1.0) > 0.02 else 0.0
    where = min(pairs, key=lambda one: (len(one.where), one.where)).where
    total = math.hypot(error, hours)
    return WeighedDay(pairs[0].date, where, tuple(losses.tolist()), part, total)
