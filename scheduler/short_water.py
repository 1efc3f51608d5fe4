"""A planned week and less water than it needs in; who gives up what, and its loss, out.

The minutes come from `watering.allotment`; `plan` plans the zones that give up anew.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding
from scheduler.site import Shortage, Site, open_nights
from scheduler.trace import Trace
from scheduler.units import System, shown
from scheduler.watering.allotment import (
    Draw,
    ShortWater,
    ZoneCut,
    allotted_minutes,
)
from scheduler.watering.zone_flow import zone_flow
from scheduler.week_plan import ZonePlan

DAYS_A_WEEK = 7
# more than this part over the volume is said; whole minutes cannot meet it exactly
TOLERATED = 0.005


@dataclass(frozen=True, slots=True)
class Allotment:
    """What the week may draw, and what each zone may of it.

    Attributes
    ----------
    shortage : Shortage
        As entered.
    most_m3, planned_m3 : float
        What there is, and what the whole plan would draw. [m3]
    draws : tuple of Draw
        The zones whose flow is known.
    minutes : dict
        By zone, of one watering. [min]
    unknown : tuple of str
        Zones whose flow is not known; they are not cut.
    """

    shortage: Shortage
    most_m3: float
    planned_m3: float
    draws: tuple[Draw, ...]
    minutes: dict[str, int]
    unknown: tuple[str, ...] = ()

    def cut_of(self, zone_id: str) -> int | None:
        """Minutes of a zone that must give up some; None for the others. [min]."""
        for one in self.draws:
            if one.zone == zone_id and self.minutes[zone_id] < one.minutes:
                return self.minutes[zone_id]
        return None


def week_allotment(
    site: Site, start: dt.date, plans: Sequence[ZonePlan]
) -> Allotment | None:
    """Share out what there is, where a shortage with a volume or a cut is in force.

    Parameters
    ----------
    site : Site
        For its shortage, packages and priorities.
    start : date
        First night of the week.
    plans : sequence of ZonePlan
        The whole plan.

    Returns
    -------
    Allotment or None
        None where nothing is short, or no flow is known.

    References
    ----------
    Source: definition; the order as in `allotted_minutes`.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> wet = Site(name="Tern Hollow", units="us", place=here)
    >>> week_allotment(wet, dt.date(2026, 6, 8), ()) is None
    True
    """
    short = site.shortage
    days = (start + dt.timedelta(i) for i in range(DAYS_A_WEEK))
    if short is None or not any(short.is_on(day) for day in days):
        return None
    if short.volume_m3 is None and short.cut is None:
        return None  # fewer days only: the nights hold it
    watered = [one for one in plans if one.minutes_per_day and one.days]
    found = {one.zone.id: _draw(site, one) for one in watered}
    draws = tuple(one for one in found.values() if one is not None)
    if not draws:
        return None
    planned = sum(one.volume_m3(one.minutes) for one in draws)
    most = short.volume_m3
    if most is None:
        most = planned * (1.0 - (short.cut or 0.0))
    unknown = tuple(name for name, one in found.items() if one is None)
    minutes = allotted_minutes(draws, most)
    return Allotment(short, most, planned, draws, minutes, unknown)


def _draw(site: Site, plan: ZonePlan) -> Draw | None:
    rate = plan.evidence.net_rate_mm_per_h if plan.evidence else None
    flow = zone_flow(plan.zone, site.package_of(plan.zone), rate)
    if flow is None or not isinstance(flow.value, float):
        return None
    average = next((one for one in plan.rules if one.rule == "average"), None)
    per_day = (plan.etc_mm or 0.0) / DAYS_A_WEEK
    held = plan.allowed_mm / per_day if plan.allowed_mm and per_day > 0 else None
    minutes = plan.minutes_per_day or 0
    return Draw(
        zone=plan.zone.id,
        minutes=minutes,
        average_minutes=int(average.minutes_per_day) if average else minutes,
        nights=len(plan.days),
        flow_l_per_min=flow.value,
        days_held=held,
        is_pots=plan.zone.grown_in == "pots",
        is_fixed=plan.status == "fixed",
        priority=plan.zone.priority,
    )


def restricted_nights(site: Site, start: dt.date) -> tuple[Finding, ...]:
    """Zones that lose nights of the week to the days of a shortage.

    Parameters
    ----------
    site : Site
        For its shortage, windows and zones.
    start : date
        First night of the week.

    Returns
    -------
    tuple of Finding
        A warning with the zones and the nights that they keep; nothing where no zone
        loses a night.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> restricted_nights(Site(name="a", units="us", place=here), dt.date(2026, 6, 8))
    ()
    """
    short = site.shortage
    if short is None or short.days is None:
        return ()
    week = np.datetime64(start, "D") + np.arange(DAYS_A_WEEK)
    free = site.model_copy(update={"shortage": None})
    lost = []
    for one in site.zones:
        kept, whole = (int(open_nights(by, one, week).sum()) for by in (site, free))
        if kept < whole and one.watered != "off":
            lost.append(f"{one.id} {kept} of {whole}")
    if not lost:
        return ()
    why = f" ({short.reason})" if short.reason else ""
    days = ", ".join(dict.fromkeys(short.days))
    what = f"water only on {days}{why}; nights left: {', '.join(lost)}"
    fix = "see the depletion of each zone; small pots may need water by hand between"
    return (Finding("warning", "site.toml: shortage", what, fix),)


def short_water(
    made: Allotment,
    before: Sequence[ZonePlan],
    after: Sequence[ZonePlan],
    units: System,
) -> ShortWater:
    """What each zone gave up and lost.

    Parameters
    ----------
    made : Allotment
        Who may draw what.
    before, after : sequence of ZonePlan
        The whole plan, and the one within the volume.
    units : str
        How numbers are said.

    Returns
    -------
    ShortWater
        The cuts with their losses, and what must be said.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> none = Allotment(Shortage(cut=0.2, reason="drought order"), 8.0, 10.0, (), {})
    >>> short_water(none, (), (), "metric").findings[0].level
    'warning'
    """
    whole = {one.zone.id: one for one in before}
    now = {one.zone.id: one for one in after}
    cuts = tuple(
        _cut(one, whole[one.zone], now[one.zone])
        for one in made.draws
        if made.cut_of(one.zone) is not None
    )
    saved = sum(one.volume_before_m3 - one.volume_m3 for one in cuts)
    allotted = made.planned_m3 - saved
    return ShortWater(
        most_m3=made.most_m3,
        planned_m3=made.planned_m3,
        allotted_m3=allotted,
        reason=made.shortage.reason,
        cuts=cuts,
        trace=_trace(made),
        findings=tuple(_findings(made, cuts, allotted, units)),
    )


def _cut(draw: Draw, whole: ZonePlan, now: ZonePlan) -> ZoneCut:
    minutes = now.minutes_per_day or 0
    dry = None
    if now.allowed_mm is not None and now.served_depletion_mm:
        dry = sum(one > now.allowed_mm for one in now.served_depletion_mm)
    return ZoneCut(
        zone=draw.zone,
        minutes_before=draw.minutes,
        minutes=minutes,
        volume_before_m3=draw.volume_m3(draw.minutes),
        volume_m3=minutes * len(now.days) * draw.flow_l_per_min / 1000.0,
        driest_before=whole.quarters[0] if whole.quarters else None,
        driest=now.quarters[0] if now.quarters and minutes else 0.0,
        days_dry=dry,
    )


def _trace(made: Allotment) -> Trace:
    short = made.shortage
    whole = Trace(
        "planned_m3",
        made.planned_m3,
        "sum over the zones of minutes x nights x flow",
        "definition",
    )
    if short.volume_m3 is not None:
        return Trace("most_m3", made.most_m3, "volume of a week", "entered", (whole,))
    cut = Trace("cut", short.cut, "part of the plan", "entered")
    return Trace(
        "most_m3", made.most_m3, "planned_m3 x (1 - cut)", "definition", (whole, cut)
    )


def _findings(
    made: Allotment, cuts: tuple[ZoneCut, ...], allotted_m3: float, units: System
) -> list[Finding]:
    why = f" ({made.shortage.reason})" if made.shortage.reason else ""
    there, whole, now = (
        shown(one, "m3", units) for one in (made.most_m3, made.planned_m3, allotted_m3)
    )
    found = []
    if cuts or allotted_m3 > made.most_m3:
        names = ", ".join(one.zone for one in cuts) or "no zone"
        what = f"water is short{why}: {there} of {whole} for the week; cut: {names}"
        fix = "see what each loses; priority in zones.toml says who keeps its water"
        found.append(Finding("warning", "site.toml: shortage", what, fix))
    else:
        what = f"the week keeps within {there}{why}: {whole}"
        found.append(
            Finding("note", "site.toml: shortage", what, "nothing to do this week")
        )
    if allotted_m3 > made.most_m3 * (1.0 + TOLERATED):
        what = f"{now} is drawn, more than {there}: fixed minutes are never cut"
        fix = "shorten fixed minutes by hand, or switch such zones off"
        found.append(Finding("stop", "site.toml: shortage", what, fix))
    if made.unknown:
        what = f"flow not known, so not cut: {', '.join(made.unknown)}"
        fix = "enter heads and the package's nozzle flow"
        found.append(Finding("warning", "site.toml: shortage", what, fix))
    return found
