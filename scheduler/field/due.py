"""Zones and their tests in, the tests that are due out."""

import datetime as dt
from collections.abc import Sequence

from scheduler.errors import Finding
from scheduler.record import CanTest
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
    due = []
    for zone in site.zones:
        if zone.watered in ("off", "fixed minutes"):
            continue
        own = [
            t
            for t in tests
            if t.zone.casefold() == zone.id.casefold() and t.date <= today
        ]
        where = f"zone {zone.id}"
        if not own:
            due.append(
                Finding("warning", where, "was never tested", "run a catch-can test")
            )
            continue
        newest = max(own, key=lambda test: test.date)
        months = (today.year - newest.date.year) * 12 + today.month - newest.date.month
        if months >= site.test_every_months:
            due.append(
                Finding(
                    "warning",
                    where,
                    f"was last tested {newest.date:%d %b %Y}",
                    f"test it again (every {site.test_every_months} months)",
                )
            )
        elif len(newest.runs) == 1:
            due.append(
                Finding(
                    "note",
                    where,
                    "rests on one run on one day",
                    "repeat it on the same grid in the wind you water in",
                )
            )
    return tuple(due)
