"""What a zone's log taught, its meters, what is due in; one zone's proof out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.log import MeterReading
from scheduler.need.zone_leaching import BAND
from scheduler.proof.causes import Cause, conflict_finding, ranked_causes
from scheduler.proof.due import Due
from scheduler.proof.floor import FRESH_DAYS
from scheduler.proof.leaching_check import CheckedPots
from scheduler.proof.learning import Learned, drift
from scheduler.proof.meter import MeterInterval, PlanAgainstMeter
from scheduler.proof.zone_learning import DRIFT_WEEKS, WEEK, ZoneLearned
from scheduler.site import Zone

# weeks before the first look, so that a drift shows what was believed without it
WEEKS_BEFORE = 4


@dataclass(frozen=True, slots=True, eq=False)
class ZoneProof:
    """What is known of whether a zone's schedule is true.

    Attributes
    ----------
    zone : Zone
        The zone.
    learnt : ZoneLearned or None
        What its log taught.
    checks : tuple of CheckedPots
        Its leaching checks by date, those that no longer count among them.
    counting : tuple of bool
        Whether each is one that the correction rests on.
    band : tuple of float and float
        Leaching that is usually aimed at. [-]
    kc, rate : tuple of Learned
        Both corrections week by week, seen from today; empty without a look.
    intervals : tuple of MeterInterval
        Plan and meter, of the meters that the zone runs through.
    due : tuple of Due
        What is due of the zone and of its meters.
    conflict : Finding or None
        A fresh check against ET.
    causes : tuple of Cause
        Of that conflict, the likeliest first.
    """

    zone: Zone
    learnt: ZoneLearned | None
    checks: tuple[CheckedPots, ...]
    counting: tuple[bool, ...]
    band: tuple[float, float]
    kc: tuple[Learned, ...]
    rate: tuple[Learned, ...]
    intervals: tuple[MeterInterval, ...]
    due: tuple[Due, ...]
    conflict: Finding | None
    causes: tuple[Cause, ...]

    @property
    def last_reading(self) -> MeterReading | None:
        """The newest reading of a meter that the zone runs through."""
        return self.intervals[-1].dial.stop if self.intervals else None

    @property
    def is_watched_alone(self) -> bool:
        """Whether a meter serves this zone and no other."""
        return any(len(one.zones) == 1 for one in self.intervals)


def zone_proof(
    zone: Zone,
    learnt: ZoneLearned | None,
    metered: PlanAgainstMeter,
    due: Sequence[Due],
    *,
    planned: tuple[int | None, int],
    today: dt.date,
) -> ZoneProof:
    """Everything that proves or doubts the schedule of one zone.

    Parameters
    ----------
    zone : Zone
        The zone.
    learnt : ZoneLearned or None
        What its log taught.
    metered : PlanAgainstMeter
        Of the site.
    due : sequence of Due
        Of the site.
    planned : tuple of int or None, and int
        Minutes a night, and nights of the planned week.
    today : date
        The day to look back from.

    Returns
    -------
    ZoneProof
        Only what is about this zone or its meters.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", watered="off")
    >>> nothing = PlanAgainstMeter((), ())
    >>> zone_proof(bay, None, nothing, (), planned=(None, 0),
    ...            today=dt.date(2026, 6, 8)).checks
    ()
    """
    own = tuple(
        one
        for one in metered.intervals
        if zone.id in (water.zone for water in one.zones)
    )
    conflict, causes = _conflict(learnt, planned, today)
    used = {one.where for one in learnt.minutes.used} if learnt else set()
    checks = learnt.checks if learnt else ()
    return ZoneProof(
        zone=zone,
        learnt=learnt,
        checks=checks,
        counting=tuple(one.check.where in used for one in checks),
        band=BAND,
        kc=_weekly(learnt.kc, today) if learnt else (),
        rate=_weekly(learnt.rate, today) if learnt else (),
        intervals=own,
        due=tuple(one for one in due if _is_of(one, zone, own)),
        conflict=conflict,
        causes=causes,
    )


def _weekly(learnt: Learned, today: dt.date) -> tuple[Learned, ...]:
    """The correction by week, from some weeks before its first look."""
    if not learnt.used:
        return ()
    since = learnt.used[0].date - WEEKS_BEFORE * WEEK
    weeks = [today - i * WEEK for i in range(DRIFT_WEEKS)]
    return drift(learnt, [one for one in reversed(weeks) if one >= since])


def _is_of(due: Due, zone: Zone, intervals: Sequence[MeterInterval]) -> bool:
    if due.kind != "meter reading":
        return due.of == zone.id
    return not due.of or due.of in {one.dial.meter for one in intervals}


def _conflict(
    learnt: ZoneLearned | None, planned: tuple[int | None, int], today: dt.date
) -> tuple[Finding | None, tuple[Cause, ...]]:
    newest = learnt.newest if learnt else None
    if learnt is None or newest is None:
        return None, ()
    if (today - newest.pots.check.date).days > FRESH_DAYS:
        return None, ()
    minutes, nights = planned
    found = conflict_finding(newest, learnt.about, plan_minutes=minutes, nights=nights)
    return found, ranked_causes(newest, learnt.about) if found else ()
