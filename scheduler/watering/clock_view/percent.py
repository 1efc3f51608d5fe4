"""Minutes keyed in and minutes wanted in; what percent adjust would give, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.watering.clock_view.nouns import PercentWay

# what common clocks go up to (common practice, no source)
MOST_PERCENT = 200


@dataclass(frozen=True, slots=True)
class Keyed:
    """Minutes of one cycle as keyed in before, and as wanted now. [min]."""

    zone: str
    was_minutes: float
    now_minutes: int


def adjusted_min(minutes: float, percent: int) -> int:
    """Whole minutes that a clock makes of those keyed in.

    Parameters
    ----------
    minutes : float
        As keyed in. [min]
    percent : int
        What percent adjust reads. [percent]

    Returns
    -------
    int
        To the nearest, half up; clocks that cut off run a minute less. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> adjusted_min(24.0, 92)
    22
    """
    return int(minutes * percent / 100.0 + 0.5)


def percent_way(keyed: Keyed, *, step: int = 1) -> PercentWay | None:
    """Percent adjust that comes nearest to the new minutes of one zone.

    Parameters
    ----------
    keyed : Keyed
        The zone.
    step : int
        Percent adjust goes in such steps. [percent]

    Returns
    -------
    PercentWay or None
        None where nothing changes, or nothing was keyed in.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> percent_way(Keyed("Z4", 24.0, 22)).percent
    92
    """
    was, now = keyed.was_minutes, keyed.now_minutes
    if not was or not now or was == now:
        return None
    wanted = 100.0 * now / was
    percent = max(step, round(wanted / step) * step)
    if percent > MOST_PERCENT:
        return None
    gives = adjusted_min(was, percent)
    return PercentWay(keyed.zone, was, now, percent, gives)


def percent_for_all(zones: Sequence[Keyed], *, step: int = 1) -> int | None:
    """One percent that gives every zone its new minutes.

    Parameters
    ----------
    zones : sequence of Keyed
        All zones of the clock.
    step : int
        Percent adjust goes in such steps. [percent]

    Returns
    -------
    int or None
        The one with the least rounding; None where there is none, or nothing changes.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> percent_for_all([Keyed("Z1", 20.0, 22), Keyed("Z2", 40.0, 44)])
    110
    """
    if not zones or all(one.was_minutes == one.now_minutes for one in zones):
        return None
    good = [
        percent
        for percent in range(step, MOST_PERCENT + 1, step)
        if all(
            adjusted_min(one.was_minutes, percent) == one.now_minutes for one in zones
        )
    ]

    def off(percent: int) -> tuple[float, int]:
        error = (one.was_minutes * percent / 100.0 - one.now_minutes for one in zones)
        return sum(map(abs, error)), abs(percent - 100)

    return min(good, key=off, default=None)
