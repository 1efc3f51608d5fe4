"""A week's minutes and less water than they need in; who gives up how much out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.trace import Trace

# Pots whose allowed water lasts less than this are cut last: a missed night kills there
# first (common practice, no source).
SMALL_POT_DAYS = 3.0
# what somebody who wrote no priority stands for
USUAL_PRIORITY = 5
L_PER_M3 = 1000.0


@dataclass(frozen=True, slots=True)
class Draw:
    """What one zone draws in a week, and how well it can do with less.

    Attributes
    ----------
    zone : str
        Its id.
    minutes : int
        Of one watering. [min]
    average_minutes : int
        Of one watering with factor 1: the mean position gets its need. [min]
    nights : int
        Waterings of the week.
    flow_l_per_min : float
        While it runs. [L/min]
    days_held : float or None
        Days of use that its allowed depletion covers; None where it is not known.
        [days]
    is_pots : bool
        Whether it grows in pots, which share nothing with their neighbours.
    is_fixed : bool
        Fixed minutes: never cut.
    priority : int
        1 keeps its water longest, 9 gives it up first.
    """

    zone: str
    minutes: int
    average_minutes: int
    nights: int
    flow_l_per_min: float
    days_held: float | None
    is_pots: bool
    is_fixed: bool = False
    priority: int = USUAL_PRIORITY

    def volume_m3(self, minutes: int) -> float:
        """Water of the week with that many minutes a watering. [m3]."""
        return minutes * self.nights * self.flow_l_per_min / L_PER_M3

    @property
    def is_small_pots(self) -> bool:
        """Whether a missed night dries it past what is allowed, or may."""
        return self.is_pots and (self.days_held or 0.0) < SMALL_POT_DAYS


@dataclass(frozen=True, slots=True)
class ZoneCut:
    """What one zone gives up, and what it loses by it.

    Attributes
    ----------
    zone : str
        Its id.
    minutes_before, minutes : int
        Of one watering, before and after. [min]
    volume_before_m3, volume_m3 : float
        Of the week. [m3]
    driest_before, driest : float or None
        What its driest quarter gets over its need. [-]
    days_dry : int or None
        Days on which the position that its rule serves is past its allowed depletion.
    """

    zone: str
    minutes_before: int
    minutes: int
    volume_before_m3: float
    volume_m3: float
    driest_before: float | None
    driest: float | None
    days_dry: int | None


@dataclass(frozen=True, slots=True)
class ShortWater:
    """A week with less water than its plants ask for.

    Attributes
    ----------
    most_m3, planned_m3, allotted_m3 : float
        What there is, what the whole plan draws, what the week now draws. [m3]
    reason : str
        As entered.
    cuts : tuple of ZoneCut
        Zones that give up, in the order of the file.
    trace : Trace
        Of `most_m3`.
    findings : tuple of Finding
        What was cut; volumes that cannot be kept; zones whose flow is not known.
    """

    most_m3: float
    planned_m3: float
    allotted_m3: float
    reason: str
    cuts: tuple[ZoneCut, ...]
    trace: Trace
    findings: tuple[Finding, ...]


def allotted_minutes(draws: Sequence[Draw], most_m3: float) -> dict[str, int]:
    """Minutes of one watering of each zone, so that the week keeps within a volume.

    Parameters
    ----------
    draws : sequence of Draw
        What the zones would draw.
    most_m3 : float
        What there is for the week. [m3]

    Returns
    -------
    dict
        By zone: whole minutes, at most those it asked for. [min]

    Notes
    -----
    Zones of the largest priority number give up first, and all they have before the
    next number gives up anything. Within one number: all but small pots go down to the
    average rule, then to half of it; then small pots go to the average rule; then the
    others stop; then small pots go to half, and stop. In each step those that hold the
    most days of water give up first. Fixed minutes are never cut, so that the volume
    can still be passed; the caller sees that from the sum.

    References
    ----------
    Source: common practice, no source: small pots are the last to be cut.

    Examples
    --------
    >>> bay = Draw("F1", 60, 50, 2, 100.0, 9.0, False)
    >>> liners = Draw("P1", 20, 15, 7, 50.0, 0.8, True)
    >>> allotted_minutes([bay, liners], 15.0)
    {'F1': 40, 'P1': 20}
    """
    left = {one.zone: one.minutes for one in draws}
    over = sum(one.volume_m3(one.minutes) for one in draws) - most_m3
    able = [one for one in draws if not one.is_fixed and one.nights and one.minutes]
    for priority in sorted({one.priority for one in able}, reverse=True):
        group = [one for one in able if one.priority == priority]
        others = _in_order(one for one in group if not one.is_small_pots)
        small = _in_order(one for one in group if one.is_small_pots)
        steps = ((others, 1.0), (others, 0.5), (small, 1.0), (others, 0.0),
                 (small, 0.5), (small, 0.0))  # fmt: skip
        for zones, part in steps:
            for one in zones:
                over -= _give_up(one, left, int(one.average_minutes * part), over)
    return left


def _in_order(zones: Iterable[Draw]) -> list[Draw]:
    """Those that hold water longest first; soil of unknown depth before pots."""

    def held(one: Draw) -> float:
        unknown = 0.0 if one.is_pots else float("inf")
        return unknown if one.days_held is None else one.days_held

    return sorted(zones, key=lambda one: (-held(one), one.zone))


def _give_up(one: Draw, left: dict[str, int], least: int, over_m3: float) -> float:
    """Take what is still asked for from one zone, not below so many minutes. [m3]."""
    now = left[one.zone]
    if over_m3 <= 1e-9 or now <= least:
        return 0.0
    each_m3 = one.volume_m3(1)
    wanted = -int(-(over_m3 - 1e-9) // each_m3)  # whole minutes, rounded up
    taken = min(now - least, wanted)
    left[one.zone] = now - taken
    return taken * each_m3
