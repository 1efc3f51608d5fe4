"""A board in; flow, price and wind by minute, and the minutes without leave, out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import BoolArray, FloatArray, frozen
from scheduler.site import Site
from scheduler.watering.night_plan.board import NightBoard
from scheduler.watering.night_plan.night_hours import NightHours, night_hours


@dataclass(frozen=True, slots=True)
class ClosedSpan:
    """Minutes of a night in which a zone must not run.

    Attributes
    ----------
    start_min, end_min : int
        From the first to after the last. [min]
    is_blocked : bool
        Inside the window, but blocked; else outside the window.
    """

    start_min: int
    end_min: int
    is_blocked: bool


def night_flow_l_per_min(board: NightBoard, night: int) -> FloatArray:
    """Flow in each minute of a night.

    Parameters
    ----------
    board : NightBoard
        The nights.
    night : int
        Which.

    Returns
    -------
    array of shape (n_minutes,)
        Change-overs included; zones of unknown flow count as 0. [l_per_min]

    References
    ----------
    Source: definition.
    """
    grid = board.week.grids[night]
    flow = np.zeros(grid.is_open.shape[2])
    for one in board.placed[night]:
        job = board.job(one.zone, night)
        minutes = job.cycle_min if job else 0
        for start in one.starts:
            first = max(start - grid.change_over_min, 0)
            flow[first : max(start + minutes, 0)] += board.week.flow[one.zone] or 0.0
    return frozen(flow)


def energy_price_money_per_kwh(site: Site, hours: NightHours) -> FloatArray | None:
    """Price of energy in each minute of the nights.

    Parameters
    ----------
    site : Site
        For its tariff.
    hours : NightHours
        The nights.

    Returns
    -------
    array of shape (n_nights, n_minutes), or None
        A later period overrides; not a number where a minute has no price; None without
        periods: one price for all hours moves nothing. [money_per_kwh]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> hours = NightHours((dt.date(2026, 6, 8),), 1320, np.ones((1, 390), dtype=bool))
    >>> site = Site(name="a", units="us", place=place)
    >>> energy_price_money_per_kwh(site, hours) is None
    True
    """
    tariff = site.tariff
    if tariff is None or not tariff.period:
        return None
    base = tariff.energy_price_money_per_kwh
    price = np.full(hours.is_open.shape, np.nan if base is None else base)
    for one in tariff.period:
        for night, start, end in hours.reach(one):
            price[night, start:end] = one.price_money_per_kwh
    return frozen(price)


def closed_spans(
    board: NightBoard, night: int, zone: str = ""
) -> tuple[ClosedSpan, ...]:
    """Minutes of a night that are not open.

    Parameters
    ----------
    board : NightBoard
        The nights.
    night : int
        Which.
    zone : str, optional
        Whose blocked hours count beside those of all zones.

    Returns
    -------
    tuple of ClosedSpan
        By start.

    References
    ----------
    Source: definition.
    """
    return closed_spans_of(board, [(night, zone)])[0]


def closed_spans_of(
    board: NightBoard, wanted: Sequence[tuple[int, str]]
) -> tuple[tuple[ClosedSpan, ...], ...]:
    """Minutes that are not open, of many nights and zones at once.

    Parameters
    ----------
    board : NightBoard
        The nights.
    wanted : sequence of (int, str)
        Nights, and whose blocked hours count beside those of all zones.

    Returns
    -------
    tuple of tuple of ClosedSpan
        For each of them, by start; zones that are blocked alike share theirs.

    References
    ----------
    Source: definition.
    """
    blocked = [
        (one, {name.casefold() for name in one.zones})
        for one in board.site.blocked_hours
        if one.zones
    ]
    no_blocks = board.site.model_copy(update={"blocked_hours": ()})
    window = night_hours(no_blocks, board.hours.dates).is_open
    is_open: dict[tuple[int, ...], BoolArray] = {}
    found: dict[tuple[int, tuple[int, ...]], tuple[ClosedSpan, ...]] = {}
    keys = []
    for night, zone in wanted:
        name = zone.casefold()
        own = tuple(i for i, (_, names) in enumerate(blocked) if name in names)
        keys.append((night, own))
        if own not in is_open:
            is_open[own] = board.hours.without([blocked[i][0] for i in own])
        if keys[-1] not in found:
            found[keys[-1]] = _closed(window[night], is_open[own][night])
    return tuple(found[key] for key in keys)


def _closed(window: BoolArray, is_open: BoolArray) -> tuple[ClosedSpan, ...]:
    inside = window[: is_open.size]
    spans = [
        *(ClosedSpan(a, b, True) for a, b in _spans(inside & ~is_open)),
        *(ClosedSpan(a, b, False) for a, b in _spans(~inside)),
    ]
    return tuple(sorted(spans, key=lambda one: one.start_min))


def windier_spans(board: NightBoard) -> tuple[tuple[int, int], ...]:
    """Minutes of the night that are usually windier than its mean.

    Parameters
    ----------
    board : NightBoard
        The nights.

    Returns
    -------
    tuple of (int, int)
        First minute and the one after the last; empty where the wind is not known.

    References
    ----------
    Source: definition.
    """
    speed = board.wind.by_minute_m_per_s
    return () if speed is None else _spans(speed > speed.mean())


def _spans(mask: BoolArray) -> tuple[tuple[int, int], ...]:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], mask.astype(np.int8), [0]])))
    return tuple((int(a), int(b)) for a, b in edges.reshape(-1, 2))
