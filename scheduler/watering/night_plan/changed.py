"""The last issued week and this one in; what changes by zone out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.record import IssuedWeek, IssuedZone
from scheduler.watering.night_plan.result import NightPlan, PlannedRun, WateredZone


@dataclass(frozen=True, slots=True)
class ZoneSetting:
    """What the clock holds for one zone.

    Attributes
    ----------
    minutes_per_day : float
        Of one watering. [min per day]
    cycles : int
        In so many cycles.
    weekdays : tuple of int
        Nights, Monday is 0.
    starts : tuple of time
        Starts of the first cycle that occur, by weekday; empty where none is told.
    """

    minutes_per_day: float
    cycles: int
    weekdays: tuple[int, ...]
    starts: tuple[dt.time, ...]


@dataclass(frozen=True, slots=True)
class ZoneChange:
    """One zone, then and now; None where it is not watered."""

    zone: str
    was: ZoneSetting | None
    now: ZoneSetting | None

    @property
    def is_changed(self) -> bool:
        """Whether something has to be keyed in; starts count where both tell them."""
        if self.was is None or self.now is None:
            return self.was is not self.now
        a, b = self.was, self.now
        same = (a.minutes_per_day, a.cycles, a.weekdays) == (
            b.minutes_per_day,
            b.cycles,
            b.weekdays,
        )
        return not same or bool(a.starts and b.starts and a.starts != b.starts)


def last_issued(issued: Sequence[IssuedWeek], first: dt.date) -> IssuedWeek | None:
    """Newest issued week up to a day.

    Parameters
    ----------
    issued : sequence of IssuedWeek
        All of them.
    first : date
        First night of the week that they are held against.

    Returns
    -------
    IssuedWeek or None
        The latest start, of equal ones the last name (a revision).

    References
    ----------
    Source: definition.
    """
    told = [one for one in issued if one.start <= first]
    return max(told, key=lambda one: (one.start, one.name)) if told else None


def zone_changes(
    last: IssuedWeek, zones: Sequence[WateredZone], night: NightPlan | None
) -> tuple[ZoneChange, ...]:
    """What changes against an issued week.

    Parameters
    ----------
    last : IssuedWeek
        The week before.
    zones : sequence of WateredZone
        This week.
    night : NightPlan or None
        Its nights.

    Returns
    -------
    tuple of ZoneChange
        In the order of the zones, then zones that are gone.

    References
    ----------
    Source: definition.
    """
    was = {one.zone.casefold(): one.zone for one in last.zones}
    told = {one.zone: one for one in reversed(last.zones)}
    ran: dict[str, list[dt.datetime]] = {}
    for old in last.runs:
        ran.setdefault(old.zone.casefold(), []).append(old.start)
    runs: dict[str, list[PlannedRun]] = {}
    for run in night.runs if night else ():
        runs.setdefault(run.zone, []).append(run)

    def before(zone: str) -> ZoneSetting | None:
        return _was(told.get(zone), ran.get(zone.casefold(), ()))

    changes = [
        ZoneChange(
            one.zone.id,
            before(was.pop(one.zone.id.casefold(), "")),
            _now(one, runs.get(one.zone.id, ())),
        )
        for one in zones
        if one.status != "blocked"
    ]
    blocked = {one.zone.id.casefold() for one in zones if one.status == "blocked"}
    gone = [zone for key, zone in was.items() if key not in blocked]
    changes += [ZoneChange(zone, before(zone), None) for zone in gone]
    return tuple(one for one in changes if one.was or one.now)


def _was(told: IssuedZone | None, runs: Sequence[dt.datetime]) -> ZoneSetting | None:
    if told is None or not told.minutes_per_day:
        return None
    days = tuple(sorted({one.weekday() for one in told.days}))
    starts = _firsts(runs, told.days)
    return ZoneSetting(told.minutes_per_day, told.cycles, days, starts)


def _now(one: WateredZone, runs: Sequence[PlannedRun]) -> ZoneSetting | None:
    if not (one.cycles and one.cycle_minutes and one.days):
        return None
    dates = tuple(sorted({run.night for run in runs})) or one.days
    days = tuple(sorted({day.weekday() for day in dates}))
    starts = _firsts([run.start for run in runs], dates)
    minutes = float(one.cycles * one.cycle_minutes)
    return ZoneSetting(minutes, one.cycles, days, starts)


def _firsts(
    runs: Sequence[dt.datetime], nights: Sequence[dt.date]
) -> tuple[dt.time, ...]:
    """Start of each night's first run, by weekday; equal ones once."""
    firsts = []
    for day in sorted(nights, key=dt.date.weekday):
        noon = dt.datetime.combine(day, dt.time(12))
        mine = [one for one in runs if noon <= one < noon + dt.timedelta(days=1)]
        if mine:
            firsts.append(min(mine).time())
    return tuple(dict.fromkeys(firsts))
