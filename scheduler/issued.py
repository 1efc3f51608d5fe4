"""What a site's issued weeks told the clock, as they are frozen in its folder.

IssuedWeek            one week, one revision: when, why, from which inputs
├── IssuedZone        minutes, cycles, nights, and what stood on the clock before
│   ├── KeyNumbers    the few numbers that its minutes were made of
│   └── KeptOverride  minutes that a person chose before, with the reason
└── IssuedRun         one valve open once
"""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KeyNumbers:
    """The numbers that one zone's minutes were made of.

    Attributes
    ----------
    eto_mm : float
        Reference ET of the week. [mm]
    kc : float
        Mean coefficient, on its own area. [-]
    bed_factor : float
        Depth on the bed over ETo times `kc`: pots, spacing, shade. [-]
    rain_mm : float
        Rain that found room. [mm]
    carried_mm : float
        Need beyond ETc less rain: what was lacking at the start, or is left for later
        nights. [mm]
    rule : str
        Factor rule.
    factor : float
        Mean depth over need. [-]
    factors : tuple of (str, float)
        Factor of each rule on the same catches. [-]
    net_rate_mm_per_h : float
        Net precipitation rate. [mm/h]
    du_lq : float
        Uniformity of the driest quarter. [-]
    nights : int
        Waterings of the week.
    kept : float
        Part of the minutes that a shortage of water leaves; 1 without one. [-]
    exact_min : float
        Minutes a night before rounding, after a shortage. [min]
    minutes : int
        Whole minutes a night. [min]
    test : str
        What rate and uniformity rest on.
    learned : float
        What leaching checks and weights make of the use; 1 where they teach nothing.
        [-]
    """

    eto_mm: float
    kc: float
    bed_factor: float
    rain_mm: float
    carried_mm: float
    rule: str
    factor: float
    factors: tuple[tuple[str, float], ...]
    net_rate_mm_per_h: float
    du_lq: float
    nights: int
    kept: float
    exact_min: float
    minutes: int
    test: str = ""
    learned: float = 1.0

    def factor_of(self, rule: str) -> float:
        """Factor of a rule on these catches; that of the week where it is not known."""
        return dict(self.factors).get(rule, self.factor)


@dataclass(frozen=True, slots=True)
class KeptOverride:
    """Minutes a night that a person chose against a plan, and why. [min]."""

    date: dt.date
    minutes: float
    reason: str


@dataclass(frozen=True, slots=True)
class IssuedZone:
    """What an issued week told the clock for one zone.

    Attributes
    ----------
    minutes_per_day : float
        All cycles of a night together. [min]
    cycles : int
        Cycles a night.
    days : tuple of date
        Nights, by the day on whose evening they begin.
    cycle_minutes, soak_minutes : int or None
        Of one cycle, and between two. [min]
    was_minutes : float or None
        What the clock held before. [min]
    was_from : str
        How that is known.
    change : float or None
        Minutes over those before, less 1. [-]
    reason : str
        Why, in at most eight words.
    numbers : KeyNumbers or None
        What the minutes were made of; None for fixed minutes.
    overrides : tuple of KeptOverride
        Chosen by people since the week before.
    controller : str
        Id of its clock; empty of the only one.
    station : int or None
        Where it hangs; None in weeks that did not tell it.
    """

    zone: str
    minutes_per_day: float
    cycles: int
    days: tuple[dt.date, ...]
    cycle_minutes: int | None = None
    soak_minutes: int | None = None
    was_minutes: float | None = None
    was_from: str = ""
    change: float | None = None
    reason: str = ""
    numbers: KeyNumbers | None = None
    overrides: tuple[KeptOverride, ...] = ()
    controller: str = ""
    station: int | None = None


@dataclass(frozen=True, slots=True)
class IssuedRun:
    """One valve open once, as an issued week told it: on the clock of the site."""

    zone: str
    start: dt.datetime
    end: dt.datetime


@dataclass(frozen=True, slots=True)
class IssuedWeek:
    """One issued week, as frozen on disk.

    Attributes
    ----------
    name : str
        Its file without the ending: `2026-W24`, of later revisions `2026-W24.r2`.
    start : date
        First of its nights.
    zones : tuple of IssuedZone
        Zones that were told their minutes.
    runs : tuple of IssuedRun
        Its timetable, if it has one.
    revision : int
        1 for the first one of a week.
    issued_at : str
        Moment of issue, UTC; empty where it is not known.
    forced : str
        Why it was issued in spite of a stop finding; empty where there was none.
    left : tuple of (str, str)
        Zones that were left as the clock was, each with its status.
    inputs : tuple of (str, str)
        Each file that it was made from, with its fingerprint (SHA-256).
    """

    name: str
    start: dt.date
    zones: tuple[IssuedZone, ...]
    runs: tuple[IssuedRun, ...] = ()
    revision: int = 1
    issued_at: str = ""
    forced: str = ""
    left: tuple[tuple[str, str], ...] = ()
    inputs: tuple[tuple[str, str], ...] = ()

    @property
    def order(self) -> tuple[dt.date, int, dt.date]:
        """By week, then by revision: the last one is what the clock was told last."""
        monday = self.start - dt.timedelta(days=self.start.weekday())
        return monday, self.revision, self.start

    def zone(self, name: str) -> IssuedZone | None:
        """What it told one zone, or None."""
        wanted = name.casefold()
        return next((one for one in self.zones if one.zone.casefold() == wanted), None)


def week_name(start: dt.date) -> str:
    """Name of a week: the ISO year and week of its first day.

    Parameters
    ----------
    start : date
        First of the seven nights.

    Returns
    -------
    str
        Such as `2026-W24`.

    References
    ----------
    .. [1] ISO 8601-1:2019, week dates.

    Examples
    --------
    >>> week_name(dt.date(2026, 6, 8)), week_name(dt.date(2027, 1, 1))
    ('2026-W24', '2026-W53')
    """
    year, week, _ = start.isocalendar()
    return f"{year}-W{week:02d}"


def told_until(issued: tuple[IssuedWeek, ...], day: dt.date) -> tuple[IssuedWeek, ...]:
    """Issued weeks up to that of a day; weeks after it are none of its past.

    Parameters
    ----------
    issued : tuple of IssuedWeek
        In any order.
    day : date
        First night of the week that is planned.

    Returns
    -------
    tuple of IssuedWeek
        As given, without later weeks.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> later = IssuedWeek("2026-W25", dt.date(2026, 6, 15), ())
    >>> told_until((later,), dt.date(2026, 6, 10))
    ()
    """
    monday = day - dt.timedelta(days=day.weekday())
    return tuple(one for one in issued if one.order[0] <= monday)
