"""Tests of one zone in; the uniformity before and after something changed out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ZoneResult:
    """One test, as far as before and after need it; `du_lq` is None without a result.

    `bands` are the wind bands of its runs.
    """

    zone: str
    package: str | None
    test: str
    date: dt.date
    condition: str
    du_lq: float | None
    bands: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Before:
    """The last test of the condition before; `note` says what makes it doubtful."""

    test: str
    condition: str
    date: dt.date
    du_lq: float
    change: float
    note: str = ""


def same_condition(one: str, other: str) -> bool:
    """Whether two names of a condition mean the same.

    Parameters
    ----------
    one, other : str
        Names as entered.

    Returns
    -------
    bool
        True apart from case and spaces.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> same_condition("As found", "as  found ")
    True
    """
    return " ".join(one.casefold().split()) == " ".join(other.casefold().split())


def before(now: ZoneResult, tests: Sequence[ZoneResult]) -> Before | None:
    """The newest earlier result of the same zone and package in another condition.

    Parameters
    ----------
    now : ZoneResult
        The test that is asked about.
    tests : sequence of ZoneResult
        Tests of the site in the order of the history, `now` among them.

    Returns
    -------
    Before or None
        None where nothing was tested before, or the condition did not change.

    Notes
    -----
    Two conditions are never pooled. One test of each says little of whether the change
    is more than chance and wind.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> old = ZoneResult("Z5", "p", "a", dt.date(2026, 3, 24), "as found", 0.61)
    >>> new = ZoneResult("Z5", "p", "b", dt.date(2026, 5, 19), "after tune-up", 0.77)
    >>> round(before(new, [old, new]).change, 2)
    0.16
    """
    if now.du_lq is None:
        return None
    place = {one.test: i for i, one in enumerate(tests)}
    earlier = [
        one
        for one in tests
        if one.zone.casefold() == now.zone.casefold()
        and one.package == now.package
        and one.du_lq is not None
        and (one.date, place[one.test]) < (now.date, place.get(now.test, len(tests)))
        and not same_condition(one.condition, now.condition)
    ]
    if not earlier:
        return None
    last = max(earlier, key=lambda one: (one.date, place[one.test]))
    known = {band for band in (*last.bands, *now.bands) if band != "unknown"}
    note = ""
    if len(known) > 1:
        note = f"in other wind ({', '.join(last.bands)}, then {', '.join(now.bands)})"
    du_lq = last.du_lq or 0.0
    return Before(last.test, last.condition, last.date, du_lq, now.du_lq - du_lq, note)
