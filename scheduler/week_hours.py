"""Zones planned by their need and waterings moved by hand in; zones and nights out."""

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from scheduler.errors import Finding
from scheduler.field.package_wind import SitePackageWind, site_package_wind
from scheduler.record import History
from scheduler.site import Site
from scheduler.units import shown
from scheduler.watering.allotment import ShortWater
from scheduler.watering.night_plan import (
    AtHours,
    NightPlan,
    Pin,
    at_planned_hours,
    night_plan,
)
from scheduler.week_plan import ZonePlan, said_of_hours, same_clock

# every zone's plan, the same within the water there is, what is short
Planned = tuple[tuple[ZonePlan, ...], tuple[ZonePlan, ...], ShortWater | None]
# nights of the week that somebody chose, by zone
Chosen = Mapping[str, tuple[int, ...]]


# plans before, zones at their hours and chosen nights in
Planning = Callable[[Sequence[ZonePlan], Mapping[str, AtHours], Chosen], Planned]


@dataclass(frozen=True, slots=True, eq=False)
class _Week:
    """What every laying out of the nights goes by."""

    site: Site
    history: History
    winds: SitePackageWind
    pins: Sequence[Pin]

    def night(
        self,
        zones: Sequence[ZonePlan],
        chosen: Chosen,
        begun: NightPlan | None = None,
    ) -> NightPlan | None:
        """The nights; zones planned for the nights they were moved to stand there."""
        there = {
            replace(pin, night=pin.to_night): pin
            for pin in self.pins
            if pin.zone in chosen
        }
        asked = [*there, *(pin for pin in self.pins if pin.zone not in chosen)]
        made = night_plan(
            self.site, self.history, zones, winds=self.winds, pins=asked, begun=begun
        )
        if made is None or made.board is None:
            return made
        pins = tuple(there.get(pin, pin) for pin in made.board.pins)
        return replace(made, board=replace(made.board, pins=pins))


def with_hours(
    planned: Planning,
    site: Site,
    history: History,
    today: dt.date,
    pins: Sequence[Pin] = (),
) -> tuple[tuple[ZonePlan, ...], ShortWater | None, NightPlan | None]:
    """Zones and their nights; moved nights and planned hours change the minutes, once.

    Parameters
    ----------
    planned : callable
        Plans before, zones at their hours and chosen nights in; every zone's plan, the
        same within the water there is, and what is short, out.
    site, history : Site and History
        For the nights.
    today : date
        Later tests do not count.
    pins : sequence of Pin
        Waterings that somebody moved.

    Returns
    -------
    tuple of zones, short water and nights
        The nights are laid out anew only where the clock is asked for something else,
        and then begin with the places of before.

    Notes
    -----
    A zone that waters when due, and was moved to another night, is planned for the
    nights on which it stands: each fills what was used by then, and the clock holds one
    setting for all of them. Where its cycles then no longer fit where they were put,
    the minutes of before stay, and that is said.

    References
    ----------
    Source: definition.
    """
    week = _Week(site, history, site_package_wind(site, history, today), pins)
    first, zones, short = planned((), {}, {})
    night, said = week.night(zones, {}), {}
    chosen: Chosen = chosen_nights(zones, night)
    if chosen:
        made = planned(first, {}, chosen)
        moved = week.night(made[1], chosen, night)
        if _stands(night, moved):
            said = _notes(zones, made[1], chosen, site)
            (first, zones, short), night = made, moved
        else:
            chosen = {}
    fed = at_planned_hours(night, zones, week.winds.lines)
    if fed:
        before = zones
        _, zones, short = planned(first, fed, chosen)
        zones = tuple(
            said_of_hours(a, b, site) for a, b in zip(before, zones, strict=True)
        )
        if not same_clock(before, zones):
            night = week.night(zones, chosen, night)
    return _with_notes(zones, said), short, night


def chosen_nights(
    zones: Sequence[ZonePlan], night: NightPlan | None
) -> dict[str, tuple[int, ...]]:
    """Nights of the zones that somebody moved to another night.

    Parameters
    ----------
    zones : sequence of ZonePlan
        Before the move.
    night : NightPlan or None
        The nights with what was moved.

    Returns
    -------
    dict of str to tuple of int
        By zone that waters when due, counted from 0.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> chosen_nights((), None)
    {}
    """
    if night is None or night.board is None:
        return {}
    found = {}
    for one in zones:
        to = {
            pin.night: pin.to_night
            for pin in night.board.pins
            if pin.zone == one.zone.id and pin.night != pin.to_night
        }
        if to and one.input is not None and one.zone.watered == "when due":
            days = {to.get(day, day) for day in one.days}
            found[one.zone.id] = tuple(sorted(one.dates.index(day) for day in days))
    return found


def _stands(before: NightPlan | None, now: NightPlan | None) -> bool:
    """Whether everything that was moved still stands where it was put."""
    if before is None or before.board is None or now is None or now.board is None:
        return False
    return set(before.board.pins) == set(now.board.pins)


def _notes(
    before: Sequence[ZonePlan], now: Sequence[ZonePlan], chosen: Chosen, site: Site
) -> dict[str, Finding]:
    """What the move to other nights did to the minutes, by zone."""
    return {
        b.zone.id: _note(a, b, site)
        for a, b in zip(before, now, strict=True)
        if b.zone.id in chosen
    }


def _note(before: ZonePlan, now: ZonePlan, site: Site) -> Finding:
    nights = ", ".join(f"{day:%a}" for day in now.days)
    need, was = (shown(one.need_mm, "mm", site.units) for one in (now, before))
    what = (
        f"planned for {nights}, where it was moved to: {now.minutes_per_day} min a "
        f"night, {before.minutes_per_day} before the move; need {need} in the week, "
        f"{was} before"
    )
    fix = "undo the move to have the nights and minutes of before"
    return Finding("note", f"zone {now.zone.id}: moved watering", what, fix)


def _with_notes(
    zones: Sequence[ZonePlan], said: Mapping[str, Finding]
) -> tuple[ZonePlan, ...]:
    return tuple(
        replace(one, findings=(*one.findings, said[one.zone.id]))
        if one.zone.id in said
        else one
        for one in zones
    )
