"""Planned weeks that the tests of the handed-over papers share."""

import dataclasses
import datetime as dt
from functools import cache

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.plan import WeekPlan, ZonePlan, build_week
from scheduler.site import Site

MONDAY = dt.date(2026, 6, 8)
# what nobody should type, and somebody does
HOSTILE = '<script>alert("1")</script> & "Söhne"\nBEGIN:VEVENT;,\\'
FORMULA = '=HYPERLINK("x")'


@cache
def folder(name: str = "tern_hollow") -> SiteFolder:
    return read_site_folder(demo_source() / name)


def demo_site(name: str = "tern_hollow") -> Site:
    site = folder(name).site
    assert site is not None
    return site


@cache
def week(name: str = "tern_hollow") -> WeekPlan:
    site = demo_site(name)
    return build_week(site, folder(name).history, site.pinned_today or MONDAY)


@cache
def hostile_week() -> WeekPlan:
    """The demo with names, valves and a clock that mean harm."""
    site = demo_site()
    zones = tuple(
        one.model_copy(update={"name": HOSTILE, "valve": FORMULA}) for one in site.zones
    )
    clock = site.controller.model_copy(update={"name": HOSTILE, "percent_adjust": 130})
    bad = site.model_copy(update={"name": HOSTILE, "zones": zones, "controller": clock})
    return build_week(bad, folder().history, MONDAY)


def zone(plan: WeekPlan, zone_id: str) -> ZonePlan:
    return next(one for one in plan.zones if one.zone.id == zone_id)


def with_zones(plan: WeekPlan, **changed: ZonePlan) -> WeekPlan:
    """The week with some zones replaced, by id."""
    zones = tuple(changed.get(one.zone.id, one) for one in plan.zones)
    return dataclasses.replace(plan, zones=zones)
