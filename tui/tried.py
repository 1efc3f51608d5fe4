"""A session in; what is tried and what it does on a page, before and after, out.

One form for every page: `name before → after`, the unit behind the second number.
"""

import datetime as dt
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from scheduler.errors import Finding
from scheduler.reports.cost_words import money
from scheduler.units import shown
from tui.lookup import kept_for
from tui.session import Session, own_zone_plan, zone_plan
from tui.what_if import Edit, dial, value_text

if TYPE_CHECKING:
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.season import ZoneSeason
    from scheduler.site import Site
    from scheduler.units import System
    from scheduler.watering.night_plan import NightPlan
    from tui.cost_state import CostNow

ARROW = " → "
NOTHING = "nothing changes here"
NOT_YET = "not worked out yet"
_NUMBER = re.compile(r"\d[\d.,:]*")
FIT = ("fits", "waterings", "min short")  # of the nights


@dataclass(frozen=True, slots=True)
class Effect:
    """One number of a page, before and after."""

    name: str
    was: str
    now: str

    @property
    def is_change(self) -> bool:
        """Whether the two differ as they are shown."""
        return self.was != self.now

    def __str__(self) -> str:
        return f"{self.name} {arrow(self.was, self.now)}"


def arrow(was: str, now: str) -> str:
    """Before and after; a unit that both carry is written once."""
    a, _, unit = was.partition(" ")
    b, _, other = now.partition(" ")
    # weekdays are no number with a unit
    is_one = unit and unit == other and a != b and a[-1:].isdigit() and b[-1:].isdigit()
    return f"{a}{ARROW}{now}" if is_one else was + ARROW + now


def told(effects: Iterable[Effect] | None) -> tuple[str, ...]:
    """Those that change, as texts; where none does, that; None is not known yet."""
    if effects is None:
        return (NOT_YET,)
    return tuple(str(one) for one in effects if one.is_change) or (NOTHING,)


# --- what is tried --------------------------------------------------------------


def named(session: Session) -> tuple[str, ...]:
    """What is tried, each with what it takes the place of, the newest first."""
    return tuple(edit_text(session, one) for one in reversed(session.what_ifs))


def edit_text(session: Session, edit: Edit) -> str:
    """One what-if: `Z4 DU 0.72 → 0.80`."""
    was = value_text(edit.what, value_before(session, edit), session.units)
    now = value_text(edit.what, edit.value, session.units)
    return f"{edit.name} {arrow(was, now)}"


def value_before(session: Session, edit: Edit) -> object:
    """What stands where something is tried; None where nothing does."""
    site = session.site_folder.site if session.site_folder is not None else None
    if site is None:
        return None
    if edit.what in ("du", "kc factor", "allowed"):
        return dial(own_zone_plan(session, edit.zone), (), edit.zone, edit.what)
    if edit.what == "move":
        return _stood(session, edit)
    if edit.zone and edit.what != "then":
        return _of_zone(session, site, edit)
    return _of_site(site, edit)


def _of_zone(session: Session, site: "Site", edit: Edit) -> object:
    zone, plan = site.zone(edit.zone), own_zone_plan(session, edit.zone)
    if edit.what == "kc":
        return plan.kc if plan is not None else None
    if zone is None:
        return None
    return zone.chosen_rule if edit.what == "rule" else tuple(zone.days)


def _of_site(site: "Site", edit: Edit) -> object:
    tariff = site.tariff
    if edit.what == "move worth":
        return site.controller.move_worth
    if edit.what == "pump":
        return site.supply.flow_l_per_min if site.supply is not None else None
    if edit.what == "then":
        mine = next((one for one in site.options if one.id == edit.typed), None)
        return mine.package if mine is not None else None
    if edit.what == "life":
        return _lives(site)
    if tariff is None:
        return None
    if edit.what == "energy price" and tariff.period:
        return "by the hour"
    if edit.what == "interest" and any(o.interest is not None for o in site.options):
        return "as entered"  # options have their own
    return {
        "water price": tariff.water_price_money_per_m3,
        "energy price": tariff.energy_price_money_per_kwh,
        "interest": tariff.interest,
    }.get(edit.what)


def _lives(site: "Site") -> object:
    """Life of the hardware, from the shortest to the longest of the options."""
    found = [option.life_years for option in site.options]
    found += [item.life_years for option in site.options for item in option.items]
    lives = {years for years in found if years is not None}
    if len(lives) > 1:
        return f"{min(lives):g}–{max(lives):g}"
    return lives.pop() if lives else None


def _stood(session: Session, edit: Edit) -> object:
    """Where a watering stood before it was moved."""
    night = session.own_plan.night if session.own_plan is not None else None
    when = getattr(edit.value, "night", None)
    for run in night.runs if night is not None else ():
        if (run.zone, run.night) == (edit.zone, when):
            return f"{when:%a} at {run.start:%H:%M}"
    return None


# --- what it does ---------------------------------------------------------------


def zone_effects(session: Session, zone_id: str) -> tuple[Effect, ...]:
    """The week of one zone."""
    was, now = own_zone_plan(session, zone_id), zone_plan(session, zone_id)
    if was is None or now is None:
        return ()
    # most zones of a site are as they were: then one text does for both
    b = _week_of(now, session.units)
    a = b if _week_in(was) == _week_in(now) else _week_of(was, session.units)
    return tuple(Effect(name, a[name], b[name]) for name in b)


def _week_in(plan: "ZonePlan") -> tuple[object, ...]:
    """What the texts of a week are made from."""
    du = plan.evidence.du_lq if plan.evidence else None
    return (plan.need_mm, plan.minutes_per_day, plan.days, plan.cycles, plan.factor,
            plan.allowed_mm, du)  # fmt: skip


def _is_same_week(session: Session, zone_id: str) -> bool:
    was, now = own_zone_plan(session, zone_id), zone_plan(session, zone_id)
    return was is None or now is None or _week_in(was) == _week_in(now)


def _week_of(plan: "ZonePlan", units: "System") -> dict[str, str]:
    return {
        "need": shown(plan.need_mm, "mm", units),
        "min a night": f"{plan.minutes_per_day or 0}",
        "nights": f"{len(plan.days)}",
        "on": " ".join(f"{day:%a}" for day in plan.days) or "–",
        "cycles": f"{plan.cycles or 0}",
        "×": shown(plan.factor, "", units),
        "allowed": shown(plan.allowed_mm, "mm", units),
        "DU": shown(plan.evidence.du_lq if plan.evidence else None, "", units),
    }


def plan_before(session: Session, zone_id: str) -> "ZonePlan | None":
    """A zone's week without what is tried; None where its week is the same."""
    if not session.week_edits:
        return None
    if any(one.zone == zone_id for one in session.week_edits):
        return own_zone_plan(session, zone_id)
    is_same = _is_same_week(session, zone_id)
    if is_same or not any(one.is_change for one in zone_effects(session, zone_id)):
        return None
    return own_zone_plan(session, zone_id)


def du_effects(session: Session, zone_id: str) -> tuple[Effect, ...]:
    """Evenness of one zone; all that the pages of the field test rest on."""
    was, now = own_zone_plan(session, zone_id), zone_plan(session, zone_id)
    if was is None or now is None or was.evidence is None or now.evidence is None:
        return ()
    pairs = (
        ("DU", was.evidence.du_lq, now.evidence.du_lq),
        ("low half", was.evidence.du_lh, now.evidence.du_lh),
        ("CU", was.evidence.cu, now.evidence.cu),
    )
    return tuple(
        Effect(name, shown(a, "", "metric"), shown(b, "", "metric"))
        for name, a, b in pairs
    )


def du_tried_effects(session: Session, packages: Iterable[str]) -> tuple[Effect, ...]:
    """DU of every zone of these packages where one is tried."""
    names = set(packages)
    pairs = [(one, own_zone_plan(session, one)) for one in session.tried_du]
    return tuple(
        Effect(
            f"{zone} DU",
            shown(plan.evidence.du_lq, "", "metric"),
            shown(session.tried_du[zone], "", "metric"),
        )
        for zone, plan in pairs
        if plan is not None and plan.evidence is not None and plan.zone.package in names
    )


def site_effects(
    session: Session, before: "WeekPlan | None" = None
) -> tuple[Effect, ...]:
    """The week of the whole site, against its own or another one."""
    before = before or session.own_plan
    if before is None or session.plan is None:
        return ()
    was = week_totals(before, session.units)
    now = week_totals(session.plan, session.units)
    return tuple(
        Effect(name, a, b)
        for name, a, b in zip(("water a week", "minutes a week"), was, now, strict=True)
    )


def week_totals(plan: "WeekPlan", units: "System") -> tuple[str, str]:
    """Water and minutes of a week, all zones together."""
    from scheduler.watering.week_water import week_minutes, week_water

    def work() -> tuple[str, str]:
        water = week_water(plan.site, plan.zones)
        return shown(water.total_m3, "m3", units), f"{week_minutes(plan.zones):,}"

    return kept_for(plan, f"totals {units}", work)


def findings_effects(session: Session) -> tuple[Effect, ...]:
    """How much is wrong."""
    if session.own_plan is None or session.plan is None:
        return ()
    was, now = session.own_plan.all_findings, session.plan.all_findings
    fresh = new_among(was, now)  # as many as before may still be others
    return (
        Effect("findings of the week", f"{len(was)}", f"{len(now)}"),
        Effect("new among them", "0", f"{len(fresh)}"),
    )


def new_among(was: Iterable[Finding], now: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings that came; one that says the same with another number did not."""
    old, new = dict.fromkeys(was), dict.fromkeys(now)
    gone = {_kind(one) for one in old.keys() - new.keys()}
    return tuple(one for one in new if one not in old and _kind(one) not in gone)


def _kind(finding: Finding) -> tuple[str, str, str]:
    return finding.level, finding.where, _NUMBER.sub("", finding.what)


def whole_effects(session: Session) -> tuple[Effect, ...]:
    """The week of the whole site: its water, whether it fits, and what is wrong."""
    fit = [one for one in clock_effects(session) if one.name in FIT]
    return (*site_effects(session), *fit, *findings_effects(session))


def night_effects(session: Session) -> tuple[Effect, ...]:
    """The nights by the clock, and their water."""
    return (*clock_effects(session), *site_effects(session))


def clock_effects(
    session: Session, before: "WeekPlan | None" = None
) -> tuple[Effect, ...]:
    """The nights by the clock alone, against the own or another week."""
    before = before or session.own_plan
    was = before.night if before is not None else None
    now = session.plan.night if session.plan is not None else None
    units = session.units
    if was is None or now is None:
        return ()
    a, b = (
        kept_for(one, f"nights {units}", partial(_nights_of, one, units))
        for one in (was, now)
    )
    nights = tuple(Effect(name, a[name], b[name]) for name in b)
    return (*nights, *_moved(was, now))


def _moved(was: "NightPlan", now: "NightPlan") -> tuple[Effect, ...]:
    """Waterings that start at another time: the first of them, and how many."""
    old, new = (kept_for(one, "starts", partial(_starts_of, one)) for one in (was, now))
    moved = [one for one in new if one in old and old[one] != new[one]]
    if not moved:
        return ()
    zone, night = moved[0]
    first = Effect(
        f"{zone} {night:%a} at", f"{old[moved[0]]:%H:%M}", f"{new[moved[0]]:%H:%M}"
    )
    return (first, Effect("start at another time", "0", f"{len(moved)}"))


def _starts_of(night: "NightPlan") -> dict[tuple[str, dt.date], dt.datetime]:
    """First start of each watering."""
    starts: dict[tuple[str, dt.date], dt.datetime] = {}
    for run in sorted(night.runs, key=lambda one: one.start):
        starts.setdefault((run.zone, run.night), run.start)
    return starts


def _nights_of(night: "NightPlan", units: "System") -> dict[str, str]:
    one = night.summary
    starts = [(one.start - _midnight(one.night), one.start) for one in night.runs]
    ends = [(one.end - _midnight(one.night), one.end) for one in night.runs]
    return {
        "fits": "yes" if one.fits else "no",
        "peak": shown(one.peak_flow_l_per_min, "l_per_min", units),
        "most valves": f"{one.most_valves}",
        "waterings": f"{len({(run.zone, run.night) for run in night.runs})}",
        "min short": f"{one.minutes_short or 0}",
        "first start": f"{min(starts)[1]:%H:%M}" if starts else "–",
        "last end": f"{max(ends)[1]:%H:%M}" if ends else "–",
    }


def _midnight(night: dt.date) -> dt.datetime:
    return dt.datetime.combine(night, dt.time())


def season_effects(
    was: "ZoneSeason", now: "ZoneSeason", units: "System"
) -> tuple[Effect, ...]:
    """A year of one zone."""
    digits = 1 if units == "us" else 0  # whole millimetres, tenths of an inch

    def sized(one: "ZoneSeason") -> tuple[str, ...]:
        return (
            shown(one.applied_mm, "mm", units, digits=digits),
            f"{one.waterings}",
            shown(one.deep_percolation_mm, "mm", units, digits=digits),
            f"{one.quarters[0].stress_days:.0f} d",
        )

    names = ("water put on", "waterings", "drained", "driest stressed")
    pairs = zip(names, sized(was), sized(now), strict=True)
    return tuple(Effect(*one) for one in pairs)


def cost_effects(
    found: "CostNow", option_id: str, units: "System"
) -> tuple[Effect, ...]:
    """What uneven water costs, and what the picked option comes to."""
    if found.before is None:
        return ()
    was, now = found.before.total, found.now.total
    effects = [
        Effect("above need, a year", money(was.above_need_money),
               money(now.above_need_money)),
        Effect("water", shown(was.volume_m3, "m3", units),
               shown(now.volume_m3, "m3", units)),
    ]  # fmt: skip
    a, b = found.option_before(option_id), found.option(option_id)
    if b is not None and b.own is not None:
        net = a.own.net_money if a is not None and a.own is not None else None
        effects.append(
            Effect(f"net of {option_id}", money(net), money(b.own.net_money))
        )
        verdict = a.own.verdict if a is not None and a.own is not None else "–"
        effects.append(Effect("verdict", verdict, b.own.verdict))
    return tuple(effects)
