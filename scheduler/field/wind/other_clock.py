"""A log and one run in; the run's wind by every clock the log may stand on out."""

from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding
from scheduler.field.wind.clock import clock_stamps, read_clock
from scheduler.field.wind.runs import RunWind, run_wind
from scheduler.record import WindLog
from scheduler.units import System, shown

# Common practice, no source: about half the limit for testing. [m/s]
CLOCKS_DIFFER_M_PER_S = 1.0
CLOCKS = ("local", "standard", "utc")


@dataclass(frozen=True, slots=True)
class ClockAnswer:
    """Wind of the run if the log stood on that clock."""

    clock: str
    wind: RunWind


@dataclass(frozen=True, slots=True)
class OtherClocks:
    """The declared clock's answer beside those of the others, each moment once."""

    declared: ClockAnswer
    others: tuple[ClockAnswer, ...]
    findings: tuple[Finding, ...]


def other_clock(
    log: WindLog, *, start_utc: np.datetime64, minutes: float, system: System = "us"
) -> OtherClocks:
    """Wind of one run by the declared clock and by the others it could be.

    Parameters
    ----------
    log : WindLog
        Rows as read with the declared clock.
    start_utc : datetime64
        Start of the run in UTC.
    minutes : float
        Length of the run. [min]
    system : {'us', 'metric'}
        Units of the finding.

    Returns
    -------
    OtherClocks
        The answers, and a warning when two differ by more than 1 m/s and nobody
        confirmed the clock.

    Notes
    -----
    Another clock is another window on the same rows: the one in which the declared
    clock shows what the other clock showed during the run.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-05-12T06:10", "2026-05-12T10:10"], "datetime64[s]")
    >>> none = np.full(2, np.nan)
    >>> log = WindLog(rows, 2400.0, np.array([4.0, 1.0]), none, none, 2.0, "m", "m.csv",
    ...               time_zone="America/New_York")
    >>> both = other_clock(log, start_utc=rows[1], minutes=40.0, system="metric")
    >>> both.findings[0].what
    'if the log were local: 4.0 m/s, if utc as declared: 1.0 m/s: which?'
    """
    declared = ClockAnswer(
        log.clock, run_wind(log, start_utc=start_utc, minutes=minutes)
    )
    begins, others = {start_utc.astype("datetime64[s]")}, []
    for clock in CLOCKS:
        seen = clock_stamps([start_utc], clock, time_zone=log.time_zone)
        begin = read_clock(seen, log.clock, time_zone=log.time_zone).utc[0]
        if np.isnat(begin) or begin in begins:
            continue
        begins.add(begin)
        wind = run_wind(log, start_utc=begin, minutes=minutes)
        others.append(ClockAnswer(clock, wind))
    said = () if log.clock_is_confirmed else _suspicion(log, declared, others, system)
    return OtherClocks(declared, tuple(others), said)


def _suspicion(
    log: WindLog, declared: ClockAnswer, others: list[ClockAnswer], system: System
) -> tuple[Finding, ...]:
    mean = declared.wind.mean_m_per_s
    # a mean that is not known is NaN and differs from nothing
    apart = [
        one
        for one in others
        if abs(one.wind.mean_m_per_s - mean) > CLOCKS_DIFFER_M_PER_S
    ]
    if not apart:
        return ()
    answers = [f"{one.clock}: {_speed(one, system)}" for one in apart]
    what = (
        f"if the log were {', '.join(answers)}, "
        f"if {declared.clock} as declared: {_speed(declared, system)}: which?"
    )
    fix = (
        "compare the logger with a watch, then state its clock and that it is confirmed"
    )
    return (Finding("warning", f"{log.where}: clock", what, fix),)


def _speed(answer: ClockAnswer, system: System) -> str:
    return shown(answer.wind.mean_m_per_s, "m_per_s", system)
