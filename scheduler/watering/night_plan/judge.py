"""A board and a place that somebody has in mind in; every rule it breaks out."""

from dataclasses import replace

from scheduler.site import BlockedHours
from scheduler.units import System, converted, face_suffix, shown
from scheduler.watering.night_plan.board import NightBoard, board_night
from scheduler.watering.night_plan.night_hours import night_hours
from scheduler.watering.night_plan.pins import why_no_pin
from scheduler.watering.night_plan.result import Pin
from scheduler.watering.timetable import Placed, Timetable
from scheduler.watering.timetable.checker import Broken, broken_places

# a pump is tried in steps of so many of the units that a face shows
PUMP_STEP = {"us": 10.0, "metric": 50.0}


def broken_by(board: NightBoard, pin: Pin, units: System) -> tuple[str, ...]:
    """Rules that a watering would break at a place, all others where they are.

    Parameters
    ----------
    board : NightBoard
        The nights.
    pin : Pin
        The place, as `pin_of` makes it.
    units : {'us', 'metric'}
        For the flows.

    Returns
    -------
    tuple of str
        Each rule once, where it is broken first; empty where the place is free. The
        checker that judges it shares no code with the search.

    References
    ----------
    Source: definition.
    """
    was = board_night(board, pin)
    if was < 0:
        return ("night: it lies outside the week",)
    here = Pin(pin.zone, board.hours.dates[was], pin.to_night, pin.starts)
    why = why_no_pin(board.week.jobs, here, board.hours, board.allowed)
    if why:
        return (f"night: {why}",)
    night = board.hours.dates.index(pin.to_night)
    job = board.job(pin.zone, was)
    assert job is not None, "asked above"
    others = [one for one in board.placed[night] if one.zone != pin.zone]
    zones = {one.zone for one in others}
    jobs = [one for one in board.week.jobs[night] if one.zone in zones]
    starts = tuple(board.hours.minute(night, one) for one in pin.starts)
    table = Timetable((*others, Placed(0, starts, pin.zone)), (), 0.0)
    # how far apart cycles lie is the user's choice here
    free = [replace(one, most_soak_min=None) for one in (*jobs, job)]
    found = broken_places(free, board.week.grids[night], table)
    first = {one.rule: one for one in reversed(found)}
    return tuple(
        _said(board, one, night, units) for one in found if first[one.rule] is one
    )


def _said(board: NightBoard, one: Broken, night: int, units: System) -> str:
    clock = f"{board.hours.clock(night, one.minute):%H:%M}"
    zones = ", ".join(one.zones)
    if one.rule == "pump":
        takes = shown(one.found, "l_per_min", units)
        gives = shown(one.limit, "l_per_min", units)
        return f"pump: {takes} at {clock} ({zones}), it gives {gives}"
    if one.rule == "valves":
        return (
            f"valves: {one.found:.0f} open at {clock} ({zones}), {one.limit:.0f} may be"
        )
    if one.rule == "soak":
        return f"soak: {one.found:.0f} min before {clock}, {one.limit:.0f} asked"
    if one.rule == "closed":
        return _closed(board, one, night)
    if one.rule == "not with":
        return f"not together: {' and '.join(one.zones)} at {clock}"
    if one.rule == "twice":
        return f"cycles: two of {zones} run at {clock}"
    return f"{one.rule}: {one.text}"


def _closed(board: NightBoard, one: Broken, night: int) -> str:
    """Whether a minute is blocked, by what, or outside the window."""
    by = blocked_by(board, one.zones[0], night, one.minute)
    if by is not None:
        return f"blocked: {by.reason} {by.start:%H:%M}-{by.end:%H:%M}"
    window = night_hours(
        board.site.model_copy(update={"blocked_hours": ()}), board.hours.dates
    ).is_open[night]
    is_open = window.nonzero()[0]
    if not is_open.size:
        return "window: none is open that night"
    first = board.hours.clock(night, int(is_open[0]))
    end = board.hours.clock(night, int(is_open[-1]) + 1)
    return f"window: it is open {first:%H:%M}-{end:%H:%M}"


def blocked_by(
    board: NightBoard, zone: str, night: int, minute: int
) -> BlockedHours | None:
    """Blocked hours that keep a zone from a minute.

    Parameters
    ----------
    board : NightBoard
        The nights.
    zone : str
        Id of the zone.
    night, minute : int
        Where.

    Returns
    -------
    BlockedHours or None
        The first in the order of the site.

    References
    ----------
    Source: definition.
    """
    for one in board.site.blocked_hours:
        names = {name.casefold() for name in one.zones}
        if names and zone.casefold() not in names:
            continue
        for at, start, end in board.hours.reach(one):
            if at == night and start <= minute < end:
                return one
    return None


def next_flow_l_per_min(flow_l_per_min: float, units: System, by: int) -> float:
    """Flow one round step up or down from another, as a face counts it.

    Parameters
    ----------
    flow_l_per_min : float
        Where it is. [l_per_min]
    units : {'us', 'metric'}
        10 US gallons a minute, or 50 litres.
    by : int
        1 up, -1 down.

    Returns
    -------
    float
        At least one step. [l_per_min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> next_flow_l_per_min(1583.0, "metric", -1)
    1550.0
    """
    face, step = face_suffix("l_per_min", units), PUMP_STEP[units]
    steps = round(converted(flow_l_per_min, "l_per_min", to=face) / step, 6)
    whole = int(steps)
    if by > 0:
        whole += 1
    elif whole == steps:
        whole -= 1
    return converted(max(whole, 1) * step, face, to="l_per_min")
