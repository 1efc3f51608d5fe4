"""What a meter says beside what was expected in; likely causes with arithmetic out.

A cause foretells a difference. It is named when most of the difference is what it
foretells; one with a free number (a leak of any size) always fits, so it stands behind
those that have none.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from scheduler.units import System, shown

# Common practice, no source: past 10 % somebody looks for the reason.
OFF = 0.10
# Part of the difference that a named cause may leave unexplained (common practice, no
# source).
LEFT_OVER = 0.25
# Common practice, no source: worn nozzles give 5 to 15 % more.
WORN = (0.05, 0.15)
# How far behind a cause with a free number stands, in parts of the difference
FREE, HALF_FREE = 0.5, 0.15
STANDS = 0.005  # below this part of what was expected, a dial stands still
L_PER_M3, MIN_PER_DAY = 1000.0, 1440.0
LEAK_NEEDS = 3  # intervals that tell a constant extra from a proportional one


@dataclass(frozen=True, slots=True)
class Cause:
    """One likely cause: what it foretells, how it is reckoned, and what to look at.

    Attributes
    ----------
    predicted_m3 : float
        The difference that it would make. [m3]
    left_m3 : float
        What it leaves unexplained. [m3]
    score : float
        Lower is likelier: part left unexplained, and how free the cause is. [-]
    """

    name: str
    predicted_m3: float
    left_m3: float
    score: float
    arithmetic: str
    check: str


@dataclass(frozen=True, slots=True)
class Gap:
    """Meter and expectation of one interval, frost and hand water taken off.

    Attributes
    ----------
    meter_m3, expected_m3 : float
        Water of the dial, and of the minutes that ran. [m3]
    low_m3, high_m3 : float
        The expectation with flows at their lowest and highest. [m3]
    days : float
        Length.
    nights : int
        Nights on which something was to run.
    zone_m3 : mapping of str to float
        Expected water by zone. [m3]
    zone_flow_l_per_min : mapping of str to float
        Flow by zone. [L/min]
    percent_adjust : int
        Of the clock. [percent]
    is_shared : bool
        Other water runs through the meter.
    beside : sequence of (days, difference, expected)
        Every interval of the same meter, this one too. [day, m3, m3]
    apart_m3 : float
        Frost and hand water that was taken off, not all of it measured. [m3]
    """

    meter_m3: float
    expected_m3: float
    low_m3: float
    high_m3: float
    days: float
    nights: int
    zone_m3: Mapping[str, float] = field(default_factory=dict)
    zone_flow_l_per_min: Mapping[str, float] = field(default_factory=dict)
    percent_adjust: int = 100
    is_shared: bool = False
    beside: Sequence[tuple[float, float, float]] = ()
    apart_m3: float = 0.0

    @property
    def difference_m3(self) -> float:
        """Meter less expectation. [m3]."""
        return self.meter_m3 - self.expected_m3

    @property
    def ratio(self) -> float:
        """Meter over expectation."""
        return self.meter_m3 / self.expected_m3

    @property
    def is_off(self) -> bool:
        """More than 10 % apart, of the plan or of what was taken off before."""
        least = OFF * max(self.expected_m3, self.apart_m3)
        return abs(self.difference_m3) > least


def likely_causes(gap: Gap, units: System) -> tuple[Cause, ...]:
    """Causes that explain most of a difference, the likeliest first.

    Parameters
    ----------
    gap : Gap
        One interval of one meter.
    units : {'us', 'metric'}
        Units of the arithmetic.

    Returns
    -------
    tuple of Cause
        Empty where meter and expectation are within 10 %.

    References
    ----------
    Source: common practice, no source.

    Examples
    --------
    >>> gap = Gap(80.0, 100.0, 90.0, 110.0, 7.0, 7, {"Z1": 20.0, "Z2": 80.0})
    >>> likely_causes(gap, "metric")[0].name
    'a valve that stays shut'
    """
    if not gap.is_off:
        return ()
    found = [cause for way in _WAYS for cause in way(gap, units)]
    most = LEFT_OVER * abs(gap.difference_m3)
    kept = [one for one in found if abs(one.left_m3) <= most]
    return tuple(sorted(kept, key=lambda one: (one.score, one.name, one.arithmetic)))


def _cause(
    gap: Gap,
    name: str,
    predicted_m3: float,
    words: tuple[str, str],
    free: float = 0.0,
) -> Cause:
    left = gap.difference_m3 - predicted_m3
    score = abs(left) / abs(gap.difference_m3) + free
    return Cause(name, predicted_m3, left, score, *words)


def _volume(value_m3: float, units: System) -> str:
    return shown(value_m3, "m3", units)


def _apart(gap: Gap, units: System) -> str:
    word = "missing" if gap.difference_m3 < 0 else "too much"
    return f"{_volume(abs(gap.difference_m3), units)} {word}"


def _valves(gap: Gap, units: System) -> Iterator[Cause]:
    """One zone did not run, or ran twice."""
    shut = gap.difference_m3 < 0
    for zone, volume in gap.zone_m3.items():
        if volume <= 0 or len(gap.zone_m3) == 1:
            continue
        text = f"{_apart(gap, units)}, {zone} was to get {_volume(volume, units)}"
        if shut:
            name, check = "a valve that stays shut", f"run {zone} and walk it"
        else:
            name = "a zone that runs twice"
            check = f"look for a second start time or program of {zone}"
        predicted = -volume if shut else volume
        # one of several zones is a choice among as many
        yield _cause(gap, name, predicted, (text, check), HALF_FREE / 3)


def _stuck_open(gap: Gap, units: System) -> Iterator[Cause]:
    """One valve does not close: it draws its flow for longer."""
    if gap.difference_m3 <= 0:
        return
    for zone, flow in gap.zone_flow_l_per_min.items():
        minutes = gap.difference_m3 * L_PER_M3 / flow if flow > 0 else np.inf
        if minutes > gap.days * MIN_PER_DAY:
            continue
        text = (
            f"{_apart(gap, units)} is {minutes / 60:.1f} h more of {zone} at "
            f"{shown(flow, 'l_per_min', units)}"
        )
        check = f"see whether {zone} closes after its minutes"
        words = (text, check)
        yield _cause(gap, "a valve that stays open", gap.difference_m3, words, 2 * FREE)


def _whole_program(gap: Gap, units: System) -> Iterator[Cause]:
    """The whole program ran twice, not at all, or on fewer nights."""
    if gap.expected_m3 <= 0:
        return
    pair = f"{_volume(gap.meter_m3, units)} over {_volume(gap.expected_m3, units)}"
    if gap.difference_m3 > 0:
        text = f"{pair} is {gap.ratio:.2f} times; a second start time gives 2"
        check = "look for a second start time, or another program that is alive"
        yield _cause(gap, "the program runs twice", gap.expected_m3, (text, check))
        return
    if gap.ratio < STANDS:
        text = f"the dial hardly moved, {_volume(gap.expected_m3, units)} was expected"
        check = "see whether the meter turns, is bypassed, or the main is shut"
        yield _cause(gap, "nothing passed the meter", -gap.expected_m3, (text, check))
        return
    if gap.nights < 2:
        return
    missed = min(max(round((1 - gap.ratio) * gap.nights), 1), gap.nights - 1)
    each = gap.expected_m3 / gap.nights
    text = (
        f"{_apart(gap, units)}; {missed} of {gap.nights} nights at "
        f"{_volume(each, units)} make {_volume(missed * each, units)}"
    )
    check = "look for nights that were skipped (rain, power) and are not in the log"
    yield _cause(
        gap, "nights that did not run", -missed * each, (text, check), HALF_FREE
    )


def _percent(gap: Gap, units: System) -> Iterator[Cause]:
    """The clock scales every minute."""
    if gap.expected_m3 <= 0:
        return
    tens = 10 * round(10 * gap.ratio)
    for percent in {tens, gap.percent_adjust} - {100}:
        if not 0 < percent <= 300:
            continue
        known = percent == gap.percent_adjust
        text = (
            f"{_volume(gap.meter_m3, units)} over {_volume(gap.expected_m3, units)} is "
            f"{gap.ratio:.0%}; percent adjust {percent} gives {percent} %"
        )
        if known:
            text += ", and site.toml says that the clock stands there"
        check = "read percent adjust on the clock"
        predicted = gap.expected_m3 * (percent / 100 - 1)
        words, free = (text, check), 0.0 if known else HALF_FREE
        yield _cause(gap, "percent adjust", predicted, words, free)


def _worn(gap: Gap, units: System) -> Iterator[Cause]:
    """Worn nozzles give more in the same minutes."""
    if gap.expected_m3 <= 0 or not WORN[0] <= gap.ratio - 1 <= WORN[1] + 0.01:
        return
    text = (
        f"{_apart(gap, units)} is {gap.ratio - 1:.0%} of what new nozzles give; worn "
        f"ones give {WORN[0]:.0%} to {WORN[1]:.0%} more"
    )
    check = "catch single heads in a bucket, or try a drill shank in the nozzle"
    yield _cause(gap, "worn nozzles", gap.difference_m3, (text, check), HALF_FREE)


def _leak(gap: Gap, units: System) -> Iterator[Cause]:
    """A constant extra, day and night."""
    if gap.difference_m3 <= 0 or gap.days <= 0:
        return
    flow = gap.difference_m3 * L_PER_M3 / (gap.days * MIN_PER_DAY)
    text = (
        f"{_apart(gap, units)} in {gap.days:.0f} days is "
        f"{shown(flow, 'l_per_min', units)} all the time"
    )
    fits, words = _is_constant(gap.beside)
    if words:
        text += f"; {words}"
    check = "read the meter twice while nothing runs"
    free = 0.0 if fits else FREE
    yield _cause(gap, "a leak", gap.difference_m3, (text, check), free)


def _is_constant(beside: Sequence[tuple[float, float, float]]) -> tuple[bool, str]:
    """Whether the extra goes with the days rather than with the watering."""
    if len(beside) < LEAK_NEEDS:
        return False, ""
    days, extra, expected = np.array(beside, dtype=float).T

    def left(given: np.ndarray) -> float:
        slope = float(given @ extra / (given @ given)) if given.any() else 0.0
        return float(((extra - slope * given) ** 2).sum())

    by_days, by_water = left(days), left(expected)
    if by_days < 0.5 * by_water:
        return True, f"over {len(beside)} intervals it goes with the days"
    if by_water < 0.5 * by_days:
        return False, f"over {len(beside)} intervals it goes with the watering instead"
    return False, ""


def _multiplier(gap: Gap, units: System) -> Iterator[Cause]:
    """The dial counts in other units than was written down."""
    if gap.expected_m3 <= 0 or gap.meter_m3 <= 0:
        return
    for times in (10.0, 100.0, 0.1, 0.01):
        text = (
            f"{_volume(gap.meter_m3, units)} over {_volume(gap.expected_m3, units)} is "
            f"{gap.ratio:.3g} times, a multiplier that is wrong gives {times:g}"
        )
        check = "read the multiplier and the unit on the face of the meter"
        predicted = gap.expected_m3 * (times - 1)
        near = 0.6 <= gap.ratio / times <= 1.6
        if near:
            yield _cause(gap, "the meter's multiplier", predicted, (text, check))


def _others(gap: Gap, units: System) -> Iterator[Cause]:
    """Other water on the same meter."""
    if gap.is_shared and gap.difference_m3 > 0:
        text = f"{_apart(gap, units)}, and the meter is shared"
        check = "read the meter before and after a night without watering"
        yield _cause(gap, "other water", gap.difference_m3, (text, check), HALF_FREE)


_WAYS: tuple[Callable[[Gap, System], Iterator[Cause]], ...] = (
    _valves, _whole_program, _percent, _worn, _leak, _multiplier, _others, _stuck_open,
)  # fmt: skip
