"""A wind log in; the same log in order and without what no wind can be out."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, IntArray, frozen
from scheduler.errors import Finding
from scheduler.record import WindLog

# Bounds are common practice, no source, unless one is named.
MOST_SPEED_M_PER_S = 60.0
MOST_GUST_M_PER_S = 75.0
# What loggers write for "nothing measured" (-99, -9999); no wind is that far below 0.
MARKS_BELOW = -98.0
# A mean that stands this far above both rows beside it is a fault of sensor or logger:
# squalls last for minutes, and the rows beside them feel them too.
GLITCH_TIMES = 5.0
GLITCH_ABOVE_M_PER_S = 10.0
STUCK_ROWS = 12
# Common practice, no source: a longer hole is a break, not rows that were lost. [s]
BREAK_S = 12 * 3600
# Gusts and means are rounded apart from each other. [m/s]
GUST_ROUNDING_M_PER_S = 0.5


class _Refusal(NamedTuple):
    """Values of one column that are read as not measured."""

    wrong: BoolArray
    why: str
    fix: str


def checked(log: WindLog) -> WindLog:
    """The log in order of time, without what no wind can be.

    Parameters
    ----------
    log : WindLog
        Rows as read, in any order.

    Returns
    -------
    WindLog
        Impossible values are NaN, rows that contradict each other are left out, and
        every reason is a finding at the first row it concerns.

    Notes
    -----
    A speed that hangs is reported but kept. Nothing is ever turned into zero.

    References
    ----------
    Source: bounds are common practice, no source.

    Examples
    --------
    >>> rows = np.array(["2026-05-12T10", "2026-05-12T11"], "datetime64[s]")
    >>> none = np.full(2, np.nan)
    >>> log = WindLog(rows, 3600.0, np.array([2.0, 469.0]), none, none, 2.0, "m", "m")
    >>> checked(log).speed_m_per_s
    array([ 2., nan])
    """
    log, findings = _in_order(log)
    findings += [*_height(log), *_spacing(log)]
    speed, gust = log.speed_m_per_s.copy(), log.gust_m_per_s.copy()
    direction = log.direction_deg.copy()
    # a generator sees each correction before it makes its next comparison
    for label, values, refusals in (
        ("speed", speed, _speed_refusals(log, speed)),
        ("gust", gust, _gust_refusals(log, gust, speed)),
        ("direction", direction, _direction_refusals(direction)),
    ):
        for refusal in refusals:
            if refusal.wrong.any():
                findings.append(_refusal_finding(log, values, refusal, label))
                values[refusal.wrong] = np.nan
    findings += _stuck(log, speed)
    return replace(
        log,
        speed_m_per_s=frozen(speed),
        gust_m_per_s=frozen(gust),
        direction_deg=frozen(direction),
        findings=(*log.findings, *findings),
    )


def _speed_refusals(log: WindLog, speed: FloatArray) -> Iterator[_Refusal]:
    yield from _out_of_bounds(log, speed, MOST_SPEED_M_PER_S)
    before, after = np.full(speed.size, np.nan), np.full(speed.size, np.nan)
    before[1:], after[:-1] = speed[:-1], speed[1:]
    # only rows that stand side by side in time say anything about each other
    is_next = np.diff(log.start_utc).astype(np.int64) <= log.interval_s
    before[1:][~is_next] = np.nan
    after[:-1][~is_next] = np.nan
    beside = np.maximum(before, after)
    above = speed - beside > GLITCH_ABOVE_M_PER_S
    yield _Refusal(
        above & (speed > GLITCH_TIMES * beside),
        f"more than {GLITCH_TIMES:g} times the rows beside it",
        "check the logger; a real squall shows in the rows beside it",
    )


def _gust_refusals(
    log: WindLog, gust: FloatArray, speed: FloatArray
) -> Iterator[_Refusal]:
    yield from _out_of_bounds(log, gust, MOST_GUST_M_PER_S)
    yield _Refusal(
        gust < speed - GUST_ROUNDING_M_PER_S,
        "below the mean of its row",
        "check whether two columns are swapped",
    )


def _out_of_bounds(log: WindLog, values: FloatArray, most: float) -> Iterator[_Refusal]:
    yield _Refusal(
        values < MARKS_BELOW,
        "a mark for nothing measured",
        "leave the cell empty to say so",
    )
    yield _Refusal(values < 0, "below 0", "check the sensor and its zero point")
    yield _Refusal(
        values > most, f"above {log.as_written(most)}", "check the unit and the logger"
    )


def _direction_refusals(direction: FloatArray) -> Iterator[_Refusal]:
    yield _Refusal(
        direction < MARKS_BELOW,
        "a mark for nothing measured",
        "leave the cell empty to say so",
    )
    yield _Refusal(
        (direction < 0) | (direction > 360),
        "outside 0 to 360",
        "check the column; directions are clockwise from north",
    )


def _refusal_finding(
    log: WindLog, values: FloatArray, refusal: _Refusal, label: str
) -> Finding:
    rows = np.flatnonzero(refusal.wrong)
    value = float(values[rows[0]])
    is_angle = label == "direction"
    seen = f"{value:.4g}°" if is_angle else log.as_written(value)
    more = f" (and {rows.size - 1} more rows)" if rows.size > 1 else ""
    return Finding(
        "note" if value < MARKS_BELOW else "warning",
        log.place(int(rows[0]), label),
        f"{seen}{more} is {refusal.why}; read as not measured",
        refusal.fix,
    )


def _height(log: WindLog) -> Iterator[Finding]:
    if log.height_m is None:
        yield Finding(
            "note",
            f"{log.where}: height_m",
            "the height of the wind sensor is not stated",
            "measure it above the ground and state height_m; a mast of 10 m reads a "
            "third more than the wind at 2 m",
        )


# --- rows --------------------------------------------------------------------


def _in_order(log: WindLog) -> tuple[WindLog, list[Finding]]:
    """Rows in order of time, each moment once."""
    log = _rows(log, np.argsort(log.start_utc, kind="stable"))
    same = np.zeros(log.start_utc.size, dtype=np.bool_)
    same[1:] = log.start_utc[1:] == log.start_utc[:-1]
    if not same.any():
        return log, []
    columns = (log.speed_m_per_s, log.gust_m_per_s, log.direction_deg)
    equal = np.ones(same.size - 1, dtype=np.bool_)
    for one in columns:
        equal &= (one[1:] == one[:-1]) | (np.isnan(one[1:]) & np.isnan(one[:-1]))
    differs = np.isin(log.start_utc, np.unique(log.start_utc[1:][same[1:] & ~equal]))
    copies = same & ~differs
    findings = []
    if differs.any():
        what = f"{differs.sum()} rows tell a moment in two ways; none of them is used"
        fix = "delete the wrong rows, or check that the log is of one logger"
        place = log.place(int(np.argmax(differs)))
        findings.append(Finding("warning", place, what, fix))
    if copies.any():
        what = f"{copies.sum()} rows stand twice; each is used once"
        place = log.place(int(np.argmax(copies)))
        findings.append(Finding("note", place, what, "delete the copies"))
    return _rows(log, np.flatnonzero(~differs & ~copies)), findings


def _rows(log: WindLog, chosen: IntArray) -> WindLog:
    return replace(
        log,
        start_utc=frozen(log.start_utc[chosen], "datetime64[s]"),
        speed_m_per_s=frozen(log.speed_m_per_s[chosen]),
        gust_m_per_s=frozen(log.gust_m_per_s[chosen]),
        direction_deg=frozen(log.direction_deg[chosen]),
        line=frozen(log.line[chosen] if log.line.size else log.line, np.int64),
    )


def _spacing(log: WindLog) -> Iterator[Finding]:
    step_s = np.diff(log.start_utc).astype(np.int64)
    if not step_s.size:
        return
    holes = np.flatnonzero(step_s > 1.5 * log.interval_s)
    is_break = step_s[holes] > BREAK_S
    gaps, breaks = holes[~is_break], holes[is_break]
    fix = "rows that are missing count as not logged"
    if gaps.size:
        lost = int(np.round(step_s[gaps] / log.interval_s - 1).sum())
        longest_min = step_s[gaps].max() / 60 - log.interval_s / 60
        what = f"{gaps.size} gaps, {lost} rows are missing, at most "
        what += f"{longest_min:g} min at a time"
        yield Finding("note", log.place(int(gaps[0]) + 1), what, fix)
    # a logger that is carried to each test has no long part; nothing of it is lost
    parts = np.diff(np.concatenate(([0], breaks + 1, [step_s.size + 1])))
    if breaks.size and parts.max() * log.interval_s > BREAK_S:
        many = "1 break" if breaks.size == 1 else f"{breaks.size} breaks"
        what = f"{many} of more than {BREAK_S / 3600:g} hours"
        yield Finding("note", log.place(int(breaks[0]) + 1), what, fix)
    close = np.flatnonzero(step_s < log.interval_s)
    if close.size:
        yield Finding(
            "warning",
            log.place(int(close[0]) + 1),
            f"{close.size} rows begin less than {log.interval_s / 60:g} min, the "
            "stated interval, after the row before",
            "check interval_min",
        )


def _stuck(log: WindLog, speed: FloatArray) -> Iterator[Finding]:
    breaks = np.flatnonzero(speed[1:] != speed[:-1]) + 1
    edges = np.concatenate(([0], breaks, [speed.size]))
    length = np.diff(edges)
    begins = edges[:-1]
    if not speed.size:
        return
    long = np.flatnonzero((length >= STUCK_ROWS) & (speed[begins] > 0))
    if long.size:
        best = int(long[np.argmax(length[long])])
        seen = log.as_written(float(speed[begins[best]]))
        yield Finding(
            "warning",
            log.place(int(begins[best]), "speed"),
            f"{seen} in {length[best]} rows in a row; kept "
            f"({long.size} such stretches)",
            "look at the sensor; empty the cells if it hung",
        )
