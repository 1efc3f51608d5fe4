"""Leaching checks and weighed days of a zone in; looks at its Kc and floors out."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.need.capture import capture_of
from scheduler.need.pot_layout import ML_PER_MM_CM2, pot_top_area_cm2
from scheduler.need.zone_use import ZoneUse
from scheduler.proof.leaching_check import ALL_OF_IT, CheckedPots
from scheduler.proof.learning import LEVEL_FACTOR, Observation
from scheduler.proof.nights import Nights, night_of
from scheduler.proof.past_days import COUNTED_RAIN_MM, PastDays, PastUse
from scheduler.proof.weights import WeighedDay
from scheduler.site import Zone

MIN_PER_H = 60.0
# error of a capture factor that was not measured, where a coefficient on the bed is
# compared with what a pot lost (common practice, no source)
CAPTURE_SD = 0.20


@dataclass(frozen=True, slots=True)
class SeenCheck:
    """A leaching check held against the modelled use of its days.

    Attributes
    ----------
    pots : CheckedPots
        What it says by itself.
    use_mm, modelled_mm : float
        What the plants used of the water that ran, and what the plan's coefficient
        makes of those days, as depth on the bed. [mm]
    past : PastUse
        ETo and rain of those days.
    seen : Observation
        The quotient.
    driest_ratio : float
        The same quotient for the driest pot alone. [-]
    """

    pots: CheckedPots
    use_mm: float
    modelled_mm: float
    past: PastUse
    seen: Observation
    driest_ratio: float


def seen_check(
    pots: CheckedPots,
    use: ZoneUse,
    catch: ZoneCatch,
    *,
    nights: Nights,
    days: PastDays,
) -> tuple[SeenCheck | None, tuple[Finding, ...]]:
    """What a leaching check says of the coefficient.

    Parameters
    ----------
    pots : CheckedPots
        The check.
    use : ZoneUse
        The zone's use as entered.
    catch : ZoneCatch
        The rate that the plan rests on.
    nights : Nights
        Which nights watered.
    days : PastDays
        ETo and rain.

    Returns
    -------
    seen : SeenCheck or None
        None where the check tells no use.
    findings : tuple of Finding
        Why it tells none.

    Notes
    -----
    What stays in pots that drained is what they lost since the watering before. In
    minutes, minutes x (1 - fraction), no capture factor is needed; with the plan's own
    rate it is a depth on the bed. A wrong rate and a wrong Kc look alike in it.

    References
    ----------
    Source: balance of water.

    Examples
    --------
    >>> seen_check.__name__
    'seen_check'
    """
    check = pots.check
    where = f"{check.where}: zone {check.zone}: leaching"
    if pots.minutes is None:
        what = "how long the water ran was not noted: it says nothing of the minutes"
        fix = "add 'ran 24 min' to the details, or a watering line for that night"
        return None, (Finding("note", where, what, fix),)
    if pots.leaching.fraction >= ALL_OF_IT or pots.minutes <= 0:
        return None, ()
    night = night_of(check.date, check.time)
    past = days.use_of(nights.days_before(night))
    if past is None:
        what = "ETo of the days before it is not known: it teaches nothing"
        return None, (Finding("note", where, what, "add those days to the weather"),)
    if past.rain_mm >= COUNTED_RAIN_MM:
        what = "rain fell on the days before it: the pots were not as dry as the sun "
        what += "made them, and it teaches nothing of Kc"
        fix = "check again after two dry days"
        return None, (Finding("note", where, what, fix),)
    applied = catch.net_rate_mm_per_h * pots.minutes / MIN_PER_H
    modelled = float(use.etc_mm_per_day(past.eto_mm_per_day, past.date).sum())
    leaching = pots.leaching
    # the few pots' t, as a standard deviation that gives the same 90 % range
    wide = leaching.student / LEVEL_FACTOR
    used = applied * pots.use_part
    seen = Observation(
        date=night,
        log_ratio=math.log(used / modelled),
        sd=math.hypot(wide * leaching.log_sd, past.sd),
        kind="leaching check",
        where=check.where,
        is_at_least=pots.is_use_at_least,
    )
    driest = applied * (1.0 - pots.driest) / modelled
    return SeenCheck(pots, used, modelled, past, seen, driest), ()


@dataclass(frozen=True, slots=True)
class SeenWeights:
    """A weighed day held against the modelled use of that day.

    Attributes
    ----------
    day : WeighedDay
        The weighings.
    kc_on_pot_top : float
        Loss as depth on the pot top, over ETo. [-]
    past : PastUse
        ETo of the day.
    seen : Observation
        Measured over modelled.
    """

    day: WeighedDay
    kc_on_pot_top: float
    past: PastUse
    seen: Observation


def seen_weights(
    weighed: Sequence[WeighedDay], zone: Zone, use: ZoneUse, days: PastDays
) -> tuple[SeenWeights, ...]:
    """What weighed days say of the coefficient.

    Parameters
    ----------
    weighed : sequence of WeighedDay
        Of the zone.
    zone : Zone
        For its pots as they stand.
    use : ZoneUse
        The zone's use as entered.
    days : PastDays
        ETo.

    Returns
    -------
    tuple of SeenWeights
        Those whose ETo is known, with rain or without: a pot under rain gains weight
        and was left out before.

    Notes
    -----
    A coefficient on the pot top is compared as it is. One on the bed is brought to the
    pot by the capture factor, whose guess counts as an error.

    References
    ----------
    Source: balance of water.

    Examples
    --------
    >>> yard = Zone(id="Z5", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> seen_weights((), yard, None, None)
    ()
    """
    if zone.pots is None:
        return ()
    capture, found = capture_of(zone.pots).factor, []
    is_guessed = use is not None and use.plant.kc_area != "pot top"
    guess = CAPTURE_SD if is_guessed and zone.pots.capture_factor is None else 0.0
    top_cm2 = pot_top_area_cm2(zone.pots)
    for one in weighed:
        past = days.use_of([one.date])
        if past is None:
            continue
        lost_mm = one.mean_loss_ml / (top_cm2 * ML_PER_MM_CM2)
        on_bed = float(use.etc_mm_per_day(past.eto_mm_per_day, past.date).sum())
        seen = Observation(
            date=one.date,
            log_ratio=math.log(lost_mm / (on_bed * capture)),
            sd=math.hypot(one.log_sd, past.sd, guess),
            kind="pot weights",
            where=one.where,
        )
        kc = one.kc_on_pot_top(zone.pots, past.eto_mm)
        found.append(SeenWeights(one, kc, past, seen))
    return tuple(found)
