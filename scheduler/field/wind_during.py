"""A run and the site's wind logs in; the wind during that run, and its source, out."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import Finding, Level
from scheduler.field.wind import (
    NEEDED_SHARE,
    RunWind,
    WindBand,
    other_clock,
    run_wind,
    utc_of,
    wind_band,
)
from scheduler.record import CanRun, WindLog
from scheduler.units import System, shown

WindSource = Literal["log", "typed", "unknown"]
# A logged mean this far from the typed one tells another story (common practice, no
# source: about half the limit for testing). [m/s]
DIFFERS_M_PER_S = 1.0
# Heights that stand for the wind at 2 m, the height of the limits (common practice, no
# source). [m]
NEAR_TWO_M = (1.0, 3.0)


@dataclass(frozen=True, slots=True)
class SiteWind:
    """The wind logs of a site, and what is needed to ask them.

    Attributes
    ----------
    logs : tuple of WindLog
        Checked logs.
    time_zone : str
        Zone of the starts of runs.
    system : {'us', 'metric'}
        Units of the findings.
    usual_m_per_s : float or None
        Usual wind of the irrigation hours, which places the bands. [m/s]
    usual_from : str
        Where that comes from, or why it is not known.
    """

    logs: tuple[WindLog, ...] = ()
    time_zone: str = "UTC"
    system: System = "us"
    usual_m_per_s: float | None = None
    usual_from: str = ""

    def band(self, mean_m_per_s: float) -> WindBand:
        """Band of a mean wind at this site."""
        return wind_band(mean_m_per_s, usual_m_per_s=self.usual_m_per_s)


@dataclass(frozen=True, slots=True)
class WindDuring:
    """Wind during one run; None where it is not known.

    Attributes
    ----------
    mean_m_per_s, gust_m_per_s : float or None
        Mean over the run, and highest gust of its logged part. [m/s]
    direction_deg : float or None
        Direction of the mean wind vector, where it comes from. [deg]
    share_logged : float or None
        Part of the run that the log covers; None when no log was asked.
    band : str
        `calm`, `usual`, `windy` or `unknown`.
    source : {'log', 'typed', 'unknown'}
        Where the mean comes from.
    log : str
        Name of the log.
    height_m : float or None
        Height that the mean stands for. [m]
    findings : tuple of Finding
        What must be said about it.
    """

    mean_m_per_s: float | None = None
    gust_m_per_s: float | None = None
    direction_deg: float | None = None
    share_logged: float | None = None
    band: WindBand = "unknown"
    source: WindSource = "unknown"
    log: str = ""
    height_m: float | None = None
    findings: tuple[Finding, ...] = ()


def wind_during(run: CanRun, site_wind: SiteWind) -> WindDuring:
    """Wind during a run: of the log that covers most of it, else as typed.

    Parameters
    ----------
    run : CanRun
        The run, with its start in local time and its minutes.
    site_wind : SiteWind
        The logs.

    Returns
    -------
    WindDuring
        Means and their source. Where no log covers enough of the run, the typed wind
        stands; where there is none, the wind is unknown.

    Notes
    -----
    Speeds stay at the height of the sensor; a height far from 2 m is said.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> run = CanRun("1", "run1.csv", np.zeros((1, 1)), (("",),), (("A1",),), "ml",
    ...              minutes=30.0, wind_m_per_s=1.0)
    >>> wind_during(run, SiteWind()).band
    'calm'
    """
    if not site_wind.logs:
        return _as_typed(run, site_wind, None, ())
    start, minutes = run.start, run.minutes
    if start is None or minutes is None or not 0 < minutes <= 24 * 60:
        lacking = "start" if start is None else "minutes"
        what = f"the {lacking} of the run is not given, so no wind log can be asked"
        fix = f"write the {lacking} of the run in test.toml"
        return _as_typed(run, site_wind, None, (Finding("note", run.where, what, fix),))
    where = f"{run.where}: start"
    start_utc, said = utc_of(start, time_zone=site_wind.time_zone, where=where)
    if start_utc is None:
        return _as_typed(run, site_wind, None, said)
    found = [
        (log, run_wind(log, start_utc=start_utc, minutes=minutes))
        for log in site_wind.logs
    ]
    log, wind = max(found, key=lambda one: one[1].share_logged)
    clocks = other_clock(
        log, start_utc=start_utc, minutes=minutes, system=site_wind.system
    )
    if not wind.is_known:
        others = [] if log.clock_is_confirmed else clocks.others
        seen = [
            f"{one.clock}: {shown(one.wind.mean_m_per_s, 'm_per_s', site_wind.system)}"
            for one in others
            if one.wind.is_known
        ]
        return _not_covered(run, (log, wind), ", ".join(seen), site_wind)
    more = (
        *(_in_run(run, one) for one in (*wind.findings, *clocks.findings)),
        *_height(run, log),
        *_differs(run, log, wind, site_wind.system),
    )
    return WindDuring(
        mean_m_per_s=wind.mean_m_per_s,
        gust_m_per_s=_or_none(wind.gust_m_per_s),
        direction_deg=_or_none(wind.direction_deg),
        share_logged=wind.share_logged,
        band=site_wind.band(wind.mean_m_per_s),
        source="log",
        log=log.name,
        height_m=log.height_m,
        findings=more,
    )


def _as_typed(
    run: CanRun,
    site_wind: SiteWind,
    share_logged: float | None,
    said: tuple[Finding, ...],
) -> WindDuring:
    mean = run.wind_m_per_s
    if mean is None:
        return WindDuring(share_logged=share_logged, findings=said)
    return WindDuring(
        mean_m_per_s=mean,
        share_logged=share_logged,
        band=site_wind.band(mean),
        source="typed",
        findings=said,
    )


def _not_covered(
    run: CanRun, asked: tuple[WindLog, RunWind], others: str, site_wind: SiteWind
) -> WindDuring:
    """The typed wind, or none; other clocks that would cover the run are named."""
    log, wind = asked
    typed, share = run.wind_m_per_s, wind.share_logged
    if typed is not None and share == 0 and not others:
        return _as_typed(
            run, site_wind, share, ()
        )  # a log of another time says nothing here
    logged = (
        f"{share:.0%} of the run is logged in {log.where}"
        if share
        else ("no wind log covers the run")
    )
    needed = f", {NEEDED_SHARE:.0%} are needed" if share else ""
    outcome = "wind unknown" if typed is None else "the wind in test.toml stands"
    hint = f" (if the log {log.where} were {others})" if others else ""
    what = f"{logged}{needed}: {outcome}{hint}"
    fix = "check the clock of the log and the start of the run, or enter the wind"
    level: Level = "warning" if share or others else "note"
    said = (Finding(level, f"{run.where}: wind", what, fix),)
    return _as_typed(run, site_wind, share, said)


def _in_run(run: CanRun, said: Finding) -> Finding:
    """The finding of a log, placed at the run that it speaks of."""
    what = f"{said.what} (log {said.where.removesuffix(': clock')})"
    return Finding(said.level, f"{run.where}: wind", what, said.fix)


def _height(run: CanRun, log: WindLog) -> Iterator[Finding]:
    low, high = NEAR_TWO_M
    if log.height_m is not None and not low <= log.height_m <= high:
        what = (
            f"the wind was logged at {log.height_m:g} m above the ground and is given "
            "as logged; the limits for testing are meant for about 2 m"
        )
        fix = "log the wind at the height of the sprinklers"
        yield Finding("note", f"{run.where}: wind", what, fix)


def _differs(
    run: CanRun, log: WindLog, wind: RunWind, system: System
) -> Iterator[Finding]:
    typed = run.wind_m_per_s
    if typed is None or abs(typed - wind.mean_m_per_s) <= DIFFERS_M_PER_S:
        return
    what = (
        f"test.toml says {shown(typed, 'm_per_s', system)}, the log {log.where} "
        f"{shown(wind.mean_m_per_s, 'm_per_s', system)}; the log is used"
    )
    fix = "check the clock of the log and the start of the run, or correct the wind"
    yield Finding("warning", f"{run.where}: wind", what, fix)


def _or_none(value: float) -> float | None:
    return value if math.isfinite(value) else None
