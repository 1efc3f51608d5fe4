"""Positions of checked pots in; what must be said of where they stood out."""

from scheduler.errors import Finding
from scheduler.log import LeachingCheck

# fewer pots than this say little of a zone (common practice, no source)
FEW_POTS = 4
SPREAD = "take six pots or more from all over the block: edge, middle and corners"


def place_findings(
    check: LeachingCheck, grid: tuple[int, int] | None
) -> tuple[Finding, ...]:
    """What must be said of how many pots were checked, and where they stood.

    Parameters
    ----------
    check : LeachingCheck
        With the position of each pot.
    grid : tuple of int and int, or None
        Rows and columns of the zone's can map; None without one.

    Returns
    -------
    tuple of Finding
        Too few pots; all from one corner; positions that nobody wrote down.

    Notes
    -----
    One corner is one half of the rows and one half of the columns.

    References
    ----------
    Source: definition; the number of pots is common practice, no source.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.log import LeachingPot, Log
    >>> day = dt.date(2026, 6, 3)
    >>> pots = tuple(
    ...     LeachingPot(where="log.csv:3", typed="", date=day, zone="Z4", place=place,
    ...                 stated_fraction=0.2)
    ...     for place in ("A1", "B1", "A2", "B2"))
    >>> check = Log(pots).leaching_checks()[0]
    >>> [one.level for one in place_findings(check, (4, 8))]
    ['warning']
    """
    place, found = f"{check.where}: zone {check.zone}: leaching", []
    if len(check.pots) < FEW_POTS:
        many = "1 pot was" if len(check.pots) == 1 else f"{len(check.pots)} pots were"
        what = f"only {many} checked: the range is wide"
        found.append(Finding("note", place, what, SPREAD))
    corner = _corner(check, grid)
    if corner:
        what = f"all pots stood {corner}: they do not speak for the zone"
        found.append(Finding("warning", place, what, SPREAD))
    elif not _are_placed(check) and len(check.pots) > 1 and not _words(check):
        what = "where the pots stood was not written down"
        fix = "name each by its place in the can map, such as B3"
        found.append(Finding("note", place, what, fix))
    return tuple(found)


def _are_placed(check: LeachingCheck) -> bool:
    return all(one.position is not None for one in check.pots)


def _words(check: LeachingCheck) -> set[str]:
    """Places in words, such as a corner; running numbers of pots say nothing."""
    named = {one.place.strip().casefold() for one in check.pots}
    return {one for one in named if one and not any(c.isdigit() for c in one)}


def _corner(check: LeachingCheck, grid: tuple[int, int] | None) -> str:
    """Where all pots stood, if that is one corner; else empty."""
    if len(check.pots) < 2:
        return ""
    words = {one.place.strip().casefold() for one in check.pots}
    if len(words) == 1 and _words(check):
        return f"at {check.pots[0].place.strip()}"
    at = [one.position for one in check.pots if one.position is not None]
    if grid is None or len(at) < len(check.pots):
        return ""
    halves = [_half([one[axis] for one in at], grid[axis]) for axis in (0, 1)]
    if not all(halves):
        return ""
    return f"in the {halves[0]} rows and {halves[1]} columns"


def _half(places: list[int], size: int) -> str:
    """First or last, if all places lie in that half."""
    if size < 2:
        return ""
    if max(places) < size / 2:
        return "first"
    return "last" if min(places) >= size / 2 else ""
