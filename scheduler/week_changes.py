"""A zone's plan and what the clock was told before in; what changes, and why, out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from scheduler.issued import IssuedWeek, IssuedZone, KeptOverride, KeyNumbers
from scheduler.log import Log, Override, Respacing
from scheduler.record import History
from scheduler.said import date_text, day_text
from scheduler.watering.allotment import ShortWater
from scheduler.watering.clock import newest_issued
from scheduler.watering.reason import (
    CauseShare,
    ZoneChange,
    cause_shares,
    change_trace,
    reason_words,
)
from scheduler.week_plan import ZonePlan

_OTHERWISE = {"off": "off", "blocked": "blocked: leave the clock as it is"}


def key_numbers(plan: ZonePlan, short: ShortWater | None) -> KeyNumbers | None:
    """The numbers that a zone's minutes are made of.

    Parameters
    ----------
    plan : ZonePlan
        The zone's week.
    short : ShortWater or None
        What a shortage of water takes.

    Returns
    -------
    KeyNumbers or None
        None where no need was computed: fixed minutes, off, blocked.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Zone
    >>> from scheduler.trace import entered
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off")
    >>> trace = entered("minutes_per_day", None)
    >>> key_numbers(ZonePlan(bay, "off", (), trace, ()), None)
    """
    caught, exact = plan.evidence, plan.minutes_exact
    numbers = (plan.eto_mm, plan.kc, plan.etc_mm, plan.effective_rain_mm, plan.need_mm)
    if caught is None or exact is None or plan.factor is None or None in numbers:
        return None
    eto, kc, etc, rain, need = (one or 0.0 for one in numbers)
    nights, minutes = len(plan.days), plan.minutes_per_day or 0
    kept = _kept(plan.zone.id, short)
    learned = plan.learned.factor if plan.learned else 1.0
    return KeyNumbers(
        eto_mm=eto,
        kc=kc,
        bed_factor=etc / (eto * kc * learned) if eto * kc else 1.0,
        rain_mm=rain,
        carried_mm=need - (etc - rain),
        rule=plan.rule or "",
        factor=plan.factor,
        factors=tuple((one.rule, one.factor) for one in plan.rules),
        net_rate_mm_per_h=caught.net_rate_mm_per_h,
        du_lq=caught.du_lq,
        nights=nights,
        kept=kept,
        exact_min=exact / nights * kept if nights else 0.0,
        minutes=minutes,
        test=f"{caught.basis} {caught.test}".strip(),
        learned=learned,
    )


def zone_change(
    plan: ZonePlan, history: History, short: ShortWater | None, today: dt.date
) -> ZoneChange:
    """What has to be keyed in for a zone, and why.

    Parameters
    ----------
    plan : ZonePlan
        The zone's week; `was_minutes` as issued or as found.
    history : History
        Issued weeks, and the log with what people chose since.
    short : ShortWater or None
        What a shortage of water takes.
    today : date
        Overrides after this day are left out.

    Returns
    -------
    ZoneChange
        With the reason in at most eight words.

    Notes
    -----
    Since an issued week: on its first day or later, and not among the overrides that
    it kept. The last one is what the clock holds now.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Zone
    >>> from scheduler.trace import entered
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off")
    >>> off = ZonePlan(bay, "off", (), entered("minutes_per_day", None), ())
    >>> zone_change(off, History(), None, dt.date(2026, 6, 8)).reason
    'off'
    """
    newest = newest_issued(plan.zone, history.issued)
    chosen = overrides_since(history.log, plan.zone.id, newest, today)
    was, was_from = plan.was_minutes, plan.was_from
    if chosen:
        last = chosen[-1]
        was = last.minutes
        was_from = f"override of {date_text(last.date)}: {last.reason}"
    now = _now(plan)
    told = newest[1] if newest else None
    shares = () if chosen else _shares(plan, told, short)
    if newest and _is_respaced(history.log, plan.zone.id, newest[0], today):
        shares = tuple(map(_respaced, shares))
    reason = _reason(plan, (was, now), told, chosen, shares)
    return ZoneChange(
        was_minutes=was,
        was_from=was_from,
        now_minutes=now,
        change=now / was - 1.0 if was and now is not None else None,
        reason=reason,
        shares=shares,
        overrides=chosen,
        is_changed=now is not None and (was != now or not is_as_told(plan, told)),
        trace=change_trace(was, was_from, now, shares),
    )


def overrides_since(
    log: Log,
    zone: str,
    newest: tuple[IssuedWeek, IssuedZone] | None,
    today: dt.date,
) -> tuple[KeptOverride, ...]:
    """What people chose for a zone since the clock was told last.

    Parameters
    ----------
    log : Log
        The log.
    zone : str
        Id of the zone.
    newest : tuple of IssuedWeek and IssuedZone, or None
        What the clock was told last.
    today : date
        Later ones are left out.

    Returns
    -------
    tuple of KeptOverride
        By date.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> overrides_since(Log(), "Z1", None, dt.date(2026, 6, 8))
    ()
    """
    known = newest[1].overrides if newest else ()
    wanted = zone.casefold()
    found = (
        KeptOverride(one.date, one.minutes, one.reason)
        for one in log.of(Override)
        if one.zone.casefold() == wanted
        and one.date <= today
        and (newest is None or one.date >= newest[0].start)
    )
    return tuple(one for one in found if one not in known)


def _kept(zone: str, short: ShortWater | None) -> float:
    """Part of a zone's minutes that a shortage leaves."""
    for one in short.cuts if short else ():
        if one.zone == zone and one.minutes_before:
            return one.minutes / one.minutes_before
    return 1.0


def _now(plan: ZonePlan) -> int | None:
    if plan.status in _OTHERWISE:
        return None
    return plan.minutes_per_day or 0


def _shares(
    plan: ZonePlan, told: IssuedZone | None, short: ShortWater | None
) -> tuple[CauseShare, ...]:
    """Causes of the change, where both weeks water and their numbers are known."""
    now = key_numbers(plan, short)
    was = told.numbers if told else None
    if was is None or now is None or not (was.nights and now.nights):
        return ()
    return cause_shares(was, now)


def _is_respaced(log: Log, zone: str, since: IssuedWeek, today: dt.date) -> bool:
    wanted = zone.casefold()
    return any(
        one.zone.casefold() == wanted and since.start <= one.date <= today
        for one in log.of(Respacing)
    )


def _respaced(share: CauseShare) -> CauseShare:
    """A coefficient that moved after the block was set anew moved because of that."""
    if share.cause != "crop":
        return share
    return replace(share, words=f"respaced: {share.words}")


def _reason(
    plan: ZonePlan,
    minutes: tuple[float | None, int | None],
    told: IssuedZone | None,
    chosen: Sequence[KeptOverride],
    shares: Sequence[CauseShare],
) -> str:
    was, now = minutes
    if now is None:
        return _OTHERWISE[plan.status]
    if chosen:
        word = "kept" if was == now else "plan again"
        return f"{word}, after override of {day_text(chosen[-1].date)}"
    if told is None:
        return "first plan" if was is None else "first plan; was as found"
    if was == now:
        return "unchanged" if is_as_told(plan, told) else _other_change(plan, told)
    if plan.status == "fixed":
        return "fixed minutes were changed"
    if not now:
        return "not due: enough water in store"
    return reason_words(shares) if shares else _without_numbers(told)


def _without_numbers(told: IssuedZone) -> str:
    if not told.minutes_per_day:
        return "due again"
    return "numbers of the week before are unknown"


def is_as_told(plan: ZonePlan, told: IssuedZone | None) -> bool:
    """Whether cycles, soak and nights, by the day of the week, are as they were told.

    Parameters
    ----------
    plan : ZonePlan
        The zone's week.
    told : IssuedZone or None
        What the clock was told.

    Returns
    -------
    bool
        False where it was told nothing.

    References
    ----------
    Source: definition.
    """
    return told is not None and _setting(plan) == (
        told.cycles,
        told.soak_minutes if told.cycles > 1 else None,
        frozenset(day.weekday() for day in told.days),
    )


def _setting(plan: ZonePlan) -> tuple[int, int | None, frozenset[int]]:
    cycles = plan.cycles or 1
    return (
        cycles,
        plan.soak_minutes if cycles > 1 else None,
        frozenset(day.weekday() for day in plan.days),
    )


def _other_change(plan: ZonePlan, told: IssuedZone) -> str:
    """What changes where the minutes do not."""
    cycles = plan.cycles or 1
    if cycles != told.cycles:
        return f"same minutes, cycles {cycles} (were {told.cycles})"
    if len(plan.days) != len(told.days):
        return f"{len(plan.days)} nights (were {len(told.days)})"
    days = {day.weekday() for day in plan.days}
    if days != {day.weekday() for day in told.days}:
        return "same minutes, other nights"
    return "soak changed"


def with_changes(
    zones: Sequence[ZonePlan],
    history: History,
    short: ShortWater | None,
    today: dt.date,
) -> tuple[ZonePlan, ...]:
    """Zones with what has to be keyed in; `was` as a person left it, where one did.

    Parameters
    ----------
    zones : sequence of ZonePlan
        The week.
    history : History
        Issued weeks and log.
    short : ShortWater or None
        What a shortage of water takes.
    today : date
        Later entries of the log are left out.

    Returns
    -------
    tuple of ZonePlan
        In their order.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> with_changes((), History(), None, dt.date(2026, 6, 8))
    ()
    """
    found = []
    for one in zones:
        change = zone_change(one, history, short, today)
        found.append(
            replace(
                one,
                changed=change,
                was_minutes=change.was_minutes,
                was_from=change.was_from,
            )
        )
    return tuple(found)
