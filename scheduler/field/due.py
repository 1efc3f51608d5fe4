"""Zones and their tests in, the tests that are due out."""

import datetime as dt
from calendar import monthrange
from collections.abc import Sequence

from scheduler.errors import Finding
from scheduler.field.feeding import feeding_tests
from scheduler.record import CanTest
from scheduler.said import date_text
from scheduler.site import Site


def tests_due(
    site: Site, tests: Sequence[CanTest], today: dt.date
) -> tuple[Finding, ...]:
    """Zones whose test is missing, stale, or rests on one run.

    Parameters
    ----------
    site : Site
        Its zones, and how often they are tested.
    tests : sequence of CanTest
        All tests.
    today : date
        The day to count from.

    Returns
    -------
    tuple of Finding
        One a zone at most, in the order of the zones.

    References
    ----------
    .. [1] Univ. Florida AE194 (test at least once a year).

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> tests_due(Site(name="a", units="us", place=place), [], dt.date(2026, 6, 8))
    ()
    """
    by_zone: dict[str, list[CanTest]] = {}
    for test in tests:
        if test.date <= today:
            by_zone.setdefault(test.zone.casefold(), []).append(test)
    due = []
    for zone in site.zones:
        if zone.watered in ("off", "fixed minutes"):
            continue
        tested = by_zone.get(zone.id.casefold(), [])
        own = [one for one in tested if one.package in (None, zone.package)]
        where = f"zone {zone.id}"
        if not own:
            due.append(
                Finding("warning", where, "has no usable test", "run a catch-can test")
            )
            continue
        newest = max(test.date for test in own)
        if _whole_months(newest, today) >= site.test_every_months:
            due.append(
                Finding(
                    "warning",
                    where,
                    f"was last tested {date_text(newest)}",
                    f"test it again (every {site.test_every_months} months)",
                )
            )
        elif _n_runs(own, newest) == 1:
            due.append(
                Finding(
                    "note",
                    where,
                    "rests on one run on one day",
                    "repeat it on the same grid in the wind you water in",
                )
            )
    return tuple(due)


def _n_runs(own: Sequence[CanTest], newest: dt.date) -> int:
    """Runs of the newest day, and those of earlier tests that are pooled with it."""
    last = [test for test in own if test.date == newest]
    return sum(len(test.runs) for test in (*last, *feeding_tests(own).earlier))


def next_test_date(tested: dt.date, every_months: int) -> dt.date:
    """Day on which a test is to be repeated.

    Parameters
    ----------
    tested : date
        Day of the newest test.
    every_months : int
        How often the site tests its zones.

    Returns
    -------
    date
        So many months later; the last of a month that has no such day.

    References
    ----------
    .. [1] Univ. Florida AE194 (test at least once a year).

    Examples
    --------
    >>> next_test_date(dt.date(2026, 5, 12), 12)
    datetime.date(2027, 5, 12)
    >>> next_test_date(dt.date(2026, 8, 31), 6)
    datetime.date(2027, 2, 28)
    """
    years, month = divmod(tested.month - 1 + every_months, 12)
    year, month = tested.year + years, month + 1
    return tested.replace(
        year=year, month=month, day=min(tested.day, monthrange(year, month)[1])
    )


def _whole_months(since: dt.date, today: dt.date) -> int:
    months = (today.year - since.year) * 12 + today.month - since.month
    return months - (today.day < since.day)
