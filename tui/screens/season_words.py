"""A zone's season in; the table, the lines and the sentences of its page out."""

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from scheduler.units import shown, unit_label
from tui.widgets.season_lines import YearLines

if TYPE_CHECKING:
    from scheduler.season import SeasonPlan, ZoneSeason
    from scheduler.units import System
    from scheduler.watering.season_run.saved import AtAnotherDU

QUARTERS = ("driest", "second", "third", "wettest")


def depth(value_mm: float, units: "System", *, with_unit: bool = False) -> str:
    """A depth of a season: whole millimetres, tenths of an inch."""
    digits = 1 if units == "us" else 0
    return shown(value_mm, "mm", units, with_unit=with_unit, digits=digits)


def quarter_lines(
    one: "ZoneSeason", before: "ZoneSeason | None", units: "System"
) -> list[str]:
    """Rows of the quarters; with a what-if the water before it stands beside."""
    unit = unit_label("mm", units)
    was = f"{'was':>7}" if before else ""
    lines = [
        f"{'quarter':<8}{'share':>6}{f'on {unit}':>8}{was}{'used':>7}{'drained':>9}"
        f"{'stress':>8}"
    ]
    for i, (name, quarter) in enumerate(zip(QUARTERS, one.quarters, strict=True)):
        was = f"{depth(before.quarters[i].applied_mm, units):>7}" if before else ""
        lines.append(
            f"{name:<8}{quarter.share:>6.2f}{depth(quarter.applied_mm, units):>8}{was}"
            f"{depth(quarter.used_mm, units):>7}"
            f"{depth(quarter.deep_percolation_mm, units):>9}"
            f"{quarter.stress_days:>7.0f}d"
        )
    return lines


def totals(
    one: "ZoneSeason", before: "ZoneSeason | None", units: "System"
) -> list[str]:
    """Water of the zone and the season, with what a what-if changed."""

    def pair(name: str, now: str, was: str | None) -> str:
        return f"{name:<16}{now}" + (f"   was {was}" if was is not None else "")

    was = before
    return [
        pair(
            "water put on",
            f"{depth(one.applied_mm, units, with_unit=True)}, "
            f"{shown(one.volume_m3, 'm3', units)}",
            depth(was.applied_mm, units, with_unit=True) if was else None,
        ),
        pair(
            "waterings",
            f"{one.waterings}, {one.minutes} min",
            f"{was.waterings}" if was else None,
        ),
        pair("rain", depth(one.rain_mm, units, with_unit=True), None),
        pair("use asked for", depth(one.etc_mm, units, with_unit=True), None),
        pair(
            "drained",
            depth(one.deep_percolation_mm, units, with_unit=True),
            depth(was.deep_percolation_mm, units, with_unit=True) if was else None,
        ),
    ]


def sentence(other: "AtAnotherDU", units: "System") -> str:
    """What another uniformity would save."""
    word = "less" if other.saved_mm >= 0 else "more"
    saved = depth(abs(other.saved_mm), units, with_unit=True)
    return (
        f"At DU {other.du_lq:.2f}, with the driest quarter no drier: {saved} {word} "
        "water than now."
    )


def change(now: "ZoneSeason", was: "ZoneSeason", units: "System") -> str:
    """What a what-if changed, before and after in one line."""
    pairs = [
        (
            "water put on",
            depth(was.applied_mm, units),
            depth(now.applied_mm, units, with_unit=True),
        ),
        ("waterings", f"{was.waterings}", f"{now.waterings}"),
        (
            "driest stressed",
            f"{was.quarters[0].stress_days:.0f}",
            f"{now.quarters[0].stress_days:.0f} d",
        ),
    ]
    return "   ".join(f"{name} {a} → {b}" for name, a, b in pairs)


def bound(one: "ZoneSeason") -> str:
    """How many runs stand behind it, in one sentence."""
    if one.is_upper_bound:
        return "One tested run stands for every night: real seasons are more even."
    runs = one.catch.n_runs if one.catch is not None else 0
    return f"Each watering draws one of {runs} tested runs."


def year_lines(
    one: "ZoneSeason", plan: "SeasonPlan", units: "System"
) -> YearLines | None:
    """Depletion of the driest and the wettest quarter through the year."""
    if one.depletion_mm is None or plan.days is None or one.watering_mm is None:
        return None
    # the picture's axis carries the face's unit, so values are turned by the formatter
    driest = _faced(one.depletion_mm[:, 0].tolist(), units)
    wettest = _faced(one.depletion_mm[:, 3].tolist(), units)
    allowed = _faced([one.allowed_mm], units)[0]
    days: list[dt.date] = plan.days.date.tolist()
    labels = tuple((i, f"{day:%b}") for i, day in enumerate(days) if day.day == 1)
    marks = tuple(i for i, depth_mm in enumerate(one.watering_mm) if depth_mm > 0)
    unit = unit_label("mm", units)
    peak = max(range(len(driest)), key=driest.__getitem__)
    return YearLines(
        driest,
        wettest,
        allowed,
        marks if len(marks) <= len(days) // 3 else (),
        labels,
        f"{unit} used at the roots: driest quarter; grey: wettest; dotted: allowed",
        (
            f"The driest quarter is at its driest on {days[peak]:%d %b}: "
            f"{driest[peak]:.1f} {unit} of {allowed:.1f} {unit} allowed.",
            f"{one.quarters[0].stress_days:.0f} days of stress there, "
            f"{one.quarters[3].stress_days:.0f} in the wettest quarter.",
            f"{one.waterings} nights water.",
        ),
    )


def _faced(values_mm: Sequence[float], units: "System") -> tuple[float, ...]:
    from scheduler.units import converted, face_suffix

    face = face_suffix("mm", units)
    return tuple(converted(one, "mm", to=face) for one in values_mm)
