"""A made-up week of Tern Hollow for faces: plain namespaces shaped like the results.

The faces only read fields, so namespaces serve; every number here is invented and
nothing computed rests on it.
"""

import datetime as dt
from pathlib import Path
from types import SimpleNamespace as Made
from typing import Any

import numpy as np

from scheduler.errors import Finding
from scheduler.trace import Trace
from tui.session import Session

MONDAY = dt.date(2026, 6, 8)
DATES = tuple(MONDAY + dt.timedelta(i) for i in range(7))
READINGS = (
    (41.0, 52.0, 60.0, 48.0, 66.0, 71.0, 58.0, 39.0),
    (55.0, 63.0, 74.0, 69.0, 47.0, 36.0, 59.0, 68.0),
    (50.0, 44.0, 62.0, 57.0, 33.0, 53.0, 65.0, 70.0),
)
DRIEST = ((0, 0), (0, 7), (1, 5), (2, 1), (2, 4), (1, 4))


def kc_year() -> Any:
    """A coefficient that grows through the year, and today's mark."""
    return Made(
        date=np.datetime64("2026-01-01") + np.arange(365),
        kc=np.interp(np.arange(365), (0, 90, 180, 300, 364), (0.4, 0.4, 1.0, 0.7, 0.4)),
        basal=None,
        today=158,
        kind="a curve of four stages from 1 Apr, anew each year",
        area="bed",
        source="made up",
        note="",
    )


def run(**changes: Any) -> Any:
    rows = range(len(READINGS))
    can_run = Made(
        reading=READINGS,
        code=tuple(("",) * 8 for _ in rows),
        label=tuple(tuple(f"{c}{i + 1}" for c in "ABCDEFGH") for i in rows),
        unit="ml",
        excluded=(),
    )
    vars(can_run).update(changes)
    return Made(
        run="run 1",
        catch=Made(
            run=can_run,
            n_cans=24,
            mean_ml=55.8,
            mean_depth_mm=6.1,
            net_rate_mm_per_h=12.17,
            gross_rate_mm_per_h=12.5,
            net_over_gross=0.98,
        ),
        uniformity=Made(du_lq=0.72, du_lh=0.83, cu=0.83),
        driest=DRIEST,
        as_kept=None,
        ranges=Made(du_lq=Made(low=0.67, high=0.79, level=0.91)),
    )


def evaluation(zone: str = "Z4", **changes: Any) -> Any:
    made = Made(
        zone=zone,
        test=f"2026-05-12-{zone.lower()}",
        date=dt.date(2026, 5, 12),
        condition="as found",
        runs=(run(),),
        pooled=None,
        together=None,
        findings=(),
    )
    vars(made).update(changes)
    return made


def _outcome(rule: str, factor: float, quarters: tuple[float, ...], over: float) -> Any:
    return Made(
        rule=rule,
        factor=factor,
        minutes_per_day=19.2 * factor,
        quarters=quarters,
        above_need=over,
        short_share=0.3,
    )


def rules() -> Any:
    return (
        _outcome("average", 1.0, (0.72, 0.94, 1.10, 1.24), 0.09),
        _outcome("low half", 1.2, (0.86, 1.13, 1.31, 1.50), 0.20),
        _outcome("low quarter", 1.39, (1.00, 1.32, 1.53, 1.75), 0.29),
        _outcome("share served", 1.45, (1.04, 1.36, 1.6, 1.8), 0.32),
    )


def chain() -> Trace:
    mouth = Trace("mouth_area_cm2", 91.5, "as entered", "entered", (), "test.toml")
    rate = Trace(
        "net_rate_mm_per_h", 12.17, "mean depth / time", "definition", (mouth,)
    )
    start = Trace("start_depletion_mm", 4.0, "half of the allowed", "assumed")
    return Trace(
        "minutes_per_day", 27.0, "need x factor / rate", "definition", (rate, start)
    )


def zone_plan(zone_id: str = "Z4", name: str = "Potted maples", **changes: Any) -> Any:
    made = Made(
        zone=Made(
            id=zone_id,
            name=name,
            valve="4",
            package="rotor",
            grown_in="pots",
            plant=Made(name="maples, #3"),
        ),
        status="planned",
        findings=(),
        trace=chain(),
        dates=DATES,
        evidence=Made(
            basis="measured",
            test=f"2026-05-12-{zone_id.lower()}",
            n_runs=1,
            du_lq=0.72,
            net_rate_mm_per_h=12.17,
        ),
        eto_mm=32.0,
        kc=0.85,
        etc_mm=27.2,
        effective_rain_mm=3.8,
        need_mm=23.4,
        rule="low quarter",
        factor=1.39,
        rules=rules(),
        gross_depth_mm=32.5,
        minutes_exact=160.8,
        minutes_week=168,
        days=DATES[:6],
        minutes_per_day=28,
        cycles=2,
        cycle_minutes=14,
        soak_minutes=30,
        was_minutes=24.0,
        was_from="clock as found",
        realised_depth_mm=33.0,
        realised_error=0.014,
        quarters=(1.0, 1.32, 1.53, 1.75),
        served_depletion_mm=(3.9, 4.0, 4.2, 3.1, 3.9, 4.4, 7.7),
        allowed_mm=6.0,
        course=course(),
        ahead=Made(low_mm=18.2, high_mm=29.0, minutes_cool=22, minutes_hot=34,
                   nights_cool=6, nights_hot=6, n_years=9),
        skips=(skip(0, 6.0), skip(1, 9.0)),
        groups=(),
        changed=None,
        pot_water=Made(mean_ml=153.0, driest_ml=110.0, ml_per_min=5.5,
                       gaps_of_bed=0.41),
    )  # fmt: skip
    vars(made).update(changes)
    return made


def skip(night: int, rain_mm: float) -> Any:
    return Made(date=DATES[night], at_gauge_mm=lambda _: rain_mm)


def course() -> Any:
    """Three weeks at the roots, a made-up saw of the driest quarter's teeth."""
    dates = tuple(MONDAY + dt.timedelta(i - 14) for i in range(21))
    served = np.array([2.0, 3.5, 5.0, 2.5, 4.0, 5.2, 3.0] * 3)
    return Made(
        dates=dates,
        n_behind=14,
        served_mm=served,
        quarter_mm=np.stack([served + add for add in (1.6, 0.0, 0.0, 0.0)], axis=1),
        watering_mm=np.array([0.0, 0.0, 4.0, 0.0, 0.0, 4.0, 0.0] * 3),
        allowed_mm=6.0,
        passed_on=lambda: (DATES[2], DATES[5]),
    )


def weather(first: dt.date, basis: str, eto: list[float], rain: list[float]) -> Any:
    """Days of weather that rest on one thing."""
    return Made(
        date=np.datetime64(first) + np.arange(len(eto)),
        eto_mm_per_day=np.array(eto),
        rain_mm=np.array(rain),
        rain_ahead_mm=None,
        eto_basis=(basis,) * len(eto),
        rain_basis=("gauge",) * len(eto),
        trace=Trace("eto_mm", float(sum(eto)), "sum", "made up"),
        rain_trace=Trace("rain_mm", float(sum(rain)), "sum", "made up"),
    )


LEAF = Finding("warning", "zone Z4, can D2", "a lone zero among wet cans", "look at it")
STOP = Finding("stop", "zone Z9", "the cans caught 196 % of the nozzles' flow", "check")
DUE = Finding("warning", "zone Z7", "never tested", "set out 24 cans")
NOTE = Finding("note", "zone Z4: allowed_depletion", "0.30 is assumed", "give your own")
NO_EVIDENCE: dict[str, Any] = {
    "evidence": None,
    "status": "blocked",
    "findings": (STOP,),
    "rules": (),
    "days": (),
    "minutes_per_day": None,
    "cycles": None,
    "served_depletion_mm": (),
    "allowed_mm": None,
    "course": None,
    "ahead": None,
    "skips": (),
    "pot_water": None,
    "need_mm": None,
    "rule": None,
    "factor": None,
    "realised_error": None,
}


def week(n_more: int = 0) -> Any:
    zones = [
        zone_plan("Z1", "Liners, shade house", was_minutes=None, minutes_per_day=9,
                  cycles=1, cycle_minutes=9, was_from=""),
        zone_plan(findings=(LEAF, NOTE)),
        zone_plan("Z9", "Field bay, east of the pond", **NO_EVIDENCE),
        *(zone_plan(f"Y{i}", f"Yard {i}") for i in range(n_more)),
    ]  # fmt: skip
    own = tuple(one for zone in zones for one in zone.findings)
    return Made(
        site=Made(name="Tern Hollow Nursery", pinned_today=MONDAY),
        today=MONDAY,
        start=MONDAY,
        weather=weather(MONDAY, "forecast", [4.5, 5.0, 5.5, 4.0, 4.5, 5.0, 3.5],
                        [0.0] * 7),
        behind=weather(MONDAY - dt.timedelta(14), "measured", [4.0, 5.0] * 7,
                       [0.0] * 9 + [12.0, 3.0] + [0.0] * 3),
        zones=tuple(zones),
        findings=(),
        tests_due=(DUE,),
        all_findings=own,
    )  # fmt: skip


def session(n_more: int = 0, **changes: Any) -> Session:
    plan = week(n_more)
    fields: dict[str, Any] = {
        "folder": Path("tern_hollow"),
        "site_folder": Made(site=plan.site, findings=()),
        "site": plan.site,
        "history": None,
        "findings": (STOP, LEAF, DUE, NOTE),
        "plan": plan,
        "evaluations": (evaluation(), evaluation("Z1")),
        "units": "us",
        "opened_units": "us",
        "own_plan": plan,
    }
    return Session(**{**fields, **changes})
