"""Tests of a site in; uniformity before and after a day, with ranges, out."""

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from scheduler.field.evaluation import RunEvaluation, TestEvaluation
from scheduler.field.range_words import THESE_RUNS, THIS_CELL
from scheduler.site import Site, Zone
from scheduler.watering.run_time import rule_factor

Verdict = Literal["better", "worse", "not proven"]


@dataclass(frozen=True, slots=True)
class TestedSide:
    """One test, before or after.

    Attributes
    ----------
    du_lq, du_lh : float
        Uniformity of the driest quarter and half. [-]
    low, high : float or None
        Range of `du_lq`; None where a result was only stated. [-]
    range_of : str
        What the range holds.
    bands : tuple of str
        Wind bands of the runs that count.
    n_cans, n_runs : int
        How much it rests on.
    """

    test: str
    date: dt.date
    condition: str
    du_lq: float
    du_lh: float | None
    low: float | None
    high: float | None
    range_of: str
    bands: tuple[str, ...]
    n_cans: int
    n_runs: int


@dataclass(frozen=True, slots=True)
class UniformityChange:
    """Uniformity of one zone before and after.

    Attributes
    ----------
    is_same_band : bool or None
        Both in one wind band; None where a wind is not known.
    verdict : str
        Better or worse only where the ranges lie apart, in no two wind bands.
    factor_before, factor_after : float
        Mean depth over need that the zone's rule asks for. [-]
    potential : float
        Part of the water that the rule then needs no more; below 0 it needs more. [-]
    potential_low, potential_high : float or None
        With the ranges of both tests. [-]
    """

    zone: str
    before: TestedSide
    after: TestedSide
    is_same_band: bool | None
    verdict: Verdict
    rule: str
    factor_before: float
    factor_after: float
    potential: float
    potential_low: float | None
    potential_high: float | None


def uniformity_changes(
    site: Site, tests: Sequence[TestEvaluation], change: dt.date, until: dt.date
) -> tuple[UniformityChange, ...]:
    """The last test before a day beside the last one after it, zone by zone.

    Parameters
    ----------
    site : Site
        Zones and their rules.
    tests : sequence of TestEvaluation
        Worked up, with wind and ranges.
    change : date
        Tests of that day and later are after.
    until : date
        Tests after it do not count.

    Returns
    -------
    tuple of UniformityChange
        Zones with a test on either side.

    Notes
    -----
    Of two tests only runs in a wind band that both have count, where there is one.

    References
    ----------
    Source: definition; the potential is the change of the run-time factor.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> uniformity_changes(site, (), dt.date(2026, 5, 18), dt.date(2026, 6, 8))
    ()
    """
    found = []
    for zone in site.zones:
        own = [
            one
            for one in tests
            if one.zone.casefold() == zone.id.casefold()
            and one.du_lq is not None
            and (None in (one.package, zone.package) or one.package == zone.package)
            and one.date <= until
        ]
        old = [one for one in own if one.date < change]
        new = [one for one in own if one.date >= change]
        if old and new:
            pair = (max(old, key=lambda t: t.date), max(new, key=lambda t: t.date))
            found.append(_change(zone, *pair))
    return tuple(found)


def _change(zone: Zone, old: TestEvaluation, new: TestEvaluation) -> UniformityChange:
    bands = [{r.wind.band for r in t.runs if r.wind} - {"unknown"} for t in (old, new)]
    shared = bands[0] & bands[1]
    before, after = _side(old, shared), _side(new, shared)
    is_same = None if not all(bands) else bool(shared)
    rule = zone.chosen_rule
    factors = [_factor(zone, one.du_lq, one.du_lh) for one in (before, after)]
    low, high = None, None
    if None not in (before.low, before.high, after.low, after.high):
        low = 1 - _factor(zone, after.low or 0.0) / _factor(zone, before.high or 0.0)
        high = 1 - _factor(zone, after.high or 0.0) / _factor(zone, before.low or 0.0)
    return UniformityChange(
        zone.id,
        before,
        after,
        is_same,
        _verdict(before, after, is_same),
        rule,
        factors[0],
        factors[1],
        1 - factors[1] / factors[0],
        low,
        high,
    )


def _factor(zone: Zone, du_lq: float, du_lh: float | None = None) -> float:
    """Factor of the zone's rule; low quarter where the rule needs more than DU."""
    rule = zone.chosen_rule
    if rule not in ("average", "low half"):
        rule = "low quarter"
    # nothing may divide by a catch that left a quarter dry
    return rule_factor(rule, du_lq=max(du_lq, 0.05), du_lh=du_lh)


def _verdict(before: TestedSide, after: TestedSide, is_same: bool | None) -> Verdict:
    if is_same is False or None in (before.low, before.high, after.low, after.high):
        return "not proven"
    if (after.low or 0.0) > (before.high or 0.0):
        return "better"
    return "worse" if (after.high or 0.0) < (before.low or 0.0) else "not proven"


def _side(test: TestEvaluation, shared: Collection[str]) -> TestedSide:
    runs = [one for one in test.runs if one.wind and one.wind.band in shared]
    if not shared or len(runs) == len(test.runs):
        return _whole_side(test)
    return _run_side(test, runs[-1])


def _whole_side(test: TestEvaluation) -> TestedSide:
    """All runs of a test, taken together where they were."""
    summed = test.together
    if summed is not None and summed.n_runs > 1:
        nights = summed.nights.as_many_nights if summed.nights else None
        found = nights or summed.du_lq
        return TestedSide(
            test.test, test.date, test.condition,
            summed.measured.du_lq, summed.measured.du_lh,
            found.low if found else None, found.high if found else None,
            "other nights" if nights else THESE_RUNS,
            _bands(test.runs), summed.measured.n_cans, summed.n_runs,
        )  # fmt: skip
    if test.runs:
        return _run_side(test, test.runs[-1])
    assert test.stated is not None, "a test with a DU has runs or states it"
    return TestedSide(
        test.test, test.date, test.condition, test.stated.du_lq, None, None, None,
        f"stated: {test.stated.source}", (), 0, 0,
    )  # fmt: skip


def _run_side(test: TestEvaluation, run: RunEvaluation) -> TestedSide:
    found = run.ranges.du_lq if run.ranges else None
    return TestedSide(
        test.test, test.date, test.condition,
        run.uniformity.du_lq, run.uniformity.du_lh,
        found.low if found else None, found.high if found else None,
        THIS_CELL, _bands((run,)), run.uniformity.n_cans, 1,
    )  # fmt: skip


def _bands(runs: Sequence[RunEvaluation]) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(one.wind.band if one.wind else "unknown" for one in runs)
    )
