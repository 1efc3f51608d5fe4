"""Readings of meters in, the water between them out."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from scheduler.errors import Finding, Level
from scheduler.log import MeterReading
from scheduler.said import date_text, day_text
from scheduler.trace import Trace
from scheduler.units import UNITS, converted

DAY_S = 86400.0
# A changed multiplier is only believed if the water of its interval is like that of the
# others, within this factor (common practice, no source): a multiplier is wrong by 10.
LIKE_OTHERS = 3.0


@dataclass(frozen=True, slots=True)
class DialInterval:
    """The water of one meter between two of its readings.

    Attributes
    ----------
    meter : str
        Name of the meter.
    start, stop : MeterReading
        The readings.
    volume_m3 : float or None
        Water between them; None where the dial cannot tell. [m3]
    trace : Trace
        Of `meter_volume_m3`.
    """

    meter: str
    start: MeterReading
    stop: MeterReading
    volume_m3: float | None
    trace: Trace

    @property
    def days(self) -> float:
        """Days from reading to reading."""
        return (moment(self.stop) - moment(self.start)).total_seconds() / DAY_S

    @property
    def nights(self) -> tuple[dt.date, ...]:
        """Days on whose evening a night between the readings begins."""
        count = (self.stop.date - self.start.date).days
        return tuple(self.start.date + dt.timedelta(days=i) for i in range(count))

    def holds(self, date: dt.date, time: dt.time | None) -> bool:
        """Whether something done then ran between the readings; noon if not said."""
        then = dt.datetime.combine(date, time or dt.time(12))
        return moment(self.start) <= then < moment(self.stop)


def moment(reading: MeterReading) -> dt.datetime:
    """Local moment of a reading; the first of its day where no time was noted.

    Parameters
    ----------
    reading : MeterReading
        The reading.

    Returns
    -------
    datetime
        Without a zone, like the log.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = MeterReading(where="", typed="", date=dt.date(2026, 6, 1), meter="pump",
    ...                    reading=1.0, unit="m3")
    >>> moment(one).hour
    0
    """
    return dt.datetime.combine(reading.date, reading.time or dt.time.min)


def dial_intervals(
    readings: Iterable[MeterReading],
) -> tuple[tuple[DialInterval, ...], tuple[Finding, ...]]:
    """Water between the readings of each meter.

    Parameters
    ----------
    readings : iterable of MeterReading
        Of any meters, in any order.

    Returns
    -------
    intervals : tuple of DialInterval
        By meter, then by time.
    findings : tuple of Finding
        Dials that fall, and what is not known for another reason.

    Notes
    -----
    A dial that falls has rolled over if its digits are known and the roll-over is
    likelier (less water) than a swap. Where the multiplier changes without a new dial,
    either the dial went on as a volume, or as a number; the one that is like the other
    intervals is taken, and no one where that does not decide.

    References
    ----------
    Source: definition (dial after less dial before, times multiplier).

    Examples
    --------
    >>> def dial(day, reading):
    ...     return MeterReading(where="", typed="", date=dt.date(2026, 6, day),
    ...                         meter="pump", reading=reading, unit="m3", digits=3)
    >>> found, said = dial_intervals([dial(8, 20.0), dial(1, 990.0)])
    >>> found[0].volume_m3, said
    (30.0, ())
    """
    by_meter: dict[str, list[MeterReading]] = {}
    for one in readings:
        by_meter.setdefault(one.meter, []).append(one)
    found: list[DialInterval] = []
    said: list[Finding] = []
    for name in sorted(by_meter):
        # an old dial is read last before the new one is read first
        ordered = sorted(
            by_meter[name], key=lambda one: (moment(one), one.is_new, one.reading)
        )
        usual = _usual_m3_per_day(ordered)
        for before, after in pairwise(ordered):
            volume, how, finding = _between(before, after, usual)
            trace = _trace(before, after, volume, how)
            found.append(DialInterval(name, before, after, volume, trace))
            said += [finding] if finding else []
    return tuple(found), tuple(said)


_Told = tuple[float | None, str, Finding | None]


def _between(before: MeterReading, after: MeterReading, usual: float | None) -> _Told:
    """Water between two readings, how it is known, and what must be said."""
    if after.is_new:
        if after.date == before.date:
            return 0.0, "the dial was changed that day", None
        what = (
            f"a new dial: the water since {day_text(before.date)} ({before.where}) is "
            "not known"
        )
        fix = "add the last reading of the old dial, on the day of the change"
        return None, "a new dial", Finding("note", after.where, what, fix)
    if _scale(before) != _scale(after):
        return _changed(before, after, usual)
    rise = after.dial_m3 - before.dial_m3
    if rise >= 0:
        whole = after.roll_over_m3
        if whole is None or after.dial_m3 < whole:
            return rise, "difference of the dial", None
        what = f"{after.reading:.10g} has more digits than the dial ({after.digits})"
        fix = "correct the reading, or the digits"
        return None, "digits do not fit", _warning(after, what, fix)
    return _fallen(before, after, rise)


def _fallen(before: MeterReading, after: MeterReading, rise: float) -> _Told:
    dial = f"from {before.reading:.10g} ({before.where}) to {after.reading:.10g}"
    whole = after.roll_over_m3
    if whole is None:
        what = f"the dial of {after.meter!r} fell {dial}"
        fix = (
            "add the digits of the dial if it rolled over, or new dial; else one of "
            "the two is a slip"
        )
        return None, "the dial fell", _warning(after, what, fix)
    if before.dial_m3 >= whole:
        what = f"{before.reading:.10g} ({before.where}) has more digits than the dial"
        return None, "digits do not fit", _warning(after, what, "correct the digits")
    if rise + whole > -rise:
        what = (
            f"the dial of {after.meter!r} fell {dial}: a roll-over would be more water "
            "than half the dial, a slip is likelier"
        )
        return None, "the dial fell", _warning(after, what, "correct the wrong one")
    return rise + whole, "the dial rolled over", None


def _changed(before: MeterReading, after: MeterReading, usual: float | None) -> _Told:
    """Water across a change of multiplier or unit on a dial that is not new."""
    went = (
        f"the dial of {after.meter!r} goes from {_dial(before)} ({before.where}) to "
        f"{_dial(after)}"
    )
    days = (moment(after) - moment(before)).total_seconds() / DAY_S
    as_volume = after.dial_m3 - before.dial_m3
    number = (after.reading - before.reading) * (after.multiplier or 1.0)
    as_number = converted(number, after.unit, to="m3")
    likely = [
        (volume, words)
        for volume, words in (
            (as_volume, "as one volume that went on"),
            (as_number, "as one number that went on, all at the new multiplier"),
        )
        if _is_like(volume, days, usual)
    ]
    if len(likely) != 1:
        fix = "add new dial if it was changed, or correct the multiplier"
        what = f"{went}: the water between is not known"
        return None, "multiplier changed", _warning(after, what, fix)
    volume, words = likely[0]
    fix = "correct the multiplier of the wrong side, or add new dial"
    level: Level = "note" if volume == as_volume else "warning"
    said = Finding(level, f"{after.where}: multiplier", f"{went}; taken {words}", fix)
    return volume, f"multiplier changed, taken {words}", said


def _is_like(volume: float, days: float, usual: float | None) -> bool:
    if volume < 0 or usual is None or days <= 0:
        return False
    return usual * days / LIKE_OTHERS <= volume <= usual * days * LIKE_OTHERS


def _usual_m3_per_day(ordered: Sequence[MeterReading]) -> float | None:
    """Median water a day over the intervals that need no judgement."""
    rates = []
    for before, after in pairwise(ordered):
        days = (moment(after) - moment(before)).total_seconds() / DAY_S
        rise = after.dial_m3 - before.dial_m3
        plain = not after.is_new and _scale(before) == _scale(after)
        if plain and rise > 0 and days > 0:
            rates.append(rise / days)
    return median(rates) if rates else None


def _scale(one: MeterReading) -> tuple[str, float]:
    return one.unit, one.multiplier or 1.0


def _dial(one: MeterReading) -> str:
    return f"{one.reading:.10g} {UNITS[one.unit].label} x {one.multiplier or 1.0:g}"


def _warning(after: MeterReading, what: str, fix: str) -> Finding:
    return Finding("warning", f"{after.where}: reading", what, fix)


def _trace(
    before: MeterReading, after: MeterReading, volume: float | None, how: str
) -> Trace:
    dials = tuple(
        Trace(
            f"dial_{name}_m3",
            one.dial_m3,
            "reading x multiplier",
            "measured",
            (),
            f"{one.where}: {_dial(one)}, {date_text(one.date)}",
        )
        for name, one in (("before", before), ("after", after))
    )
    formula = "dial after less dial before, x multiplier"
    return Trace("meter_volume_m3", volume, formula, "measured", dials, how)
