"""What is known of a zone in; the words that are printed of it out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scheduler.field.range_words import range_caveat
from scheduler.reports.paper import plain
from scheduler.said import date_text
from scheduler.site import WEEKDAYS
from scheduler.units import System, converted, shown, typed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from scheduler.field.evaluation import RunEvaluation
    from scheduler.field.visit import ZoneVisit
    from scheduler.record import StatedResult
    from scheduler.site import Package, Zone


def known_facts(visit: ZoneVisit, units: System) -> tuple[tuple[str, str], ...]:
    """Hardware and the last test, as names and texts."""
    zone, heads = visit.zone, visit.n_heads
    ground = shown(zone.area_m2, "m2", units)
    about = f"about {heads} heads" if heads else "number of heads not known"
    return (
        ("Package", _package(visit.package, units)),
        ("Ground", f"{ground}, {about}"),
        *_last_test(visit, units),
    )


def _package(package: Package | None, units: System) -> str:
    if package is None:
        return "not on file"
    parts = [plain(package.name or package.id), _spacing(package, units)]
    flow, pressure = package.nozzle_flow_l_per_min, package.pressure_kpa
    if flow is not None:
        parts.append(f"nozzle {shown(flow, 'l_per_min', units)}")
    if pressure is not None:
        parts.append(f"nominal pressure {shown(pressure, 'kpa', units)}")
    if package.regulator_kpa is not None:
        parts.append(f"regulator {shown(package.regulator_kpa, 'kpa', units)}")
    return "; ".join(part for part in parts if part)


def _spacing(package: Package, units: System) -> str:
    if package.spacing_m is None:
        return "spacing not on file"
    along = typed(package.spacing_m, "m", units)
    if package.row_spacing_m is not None:
        along += f" x {typed(package.row_spacing_m, 'm', units)}"
    return f"spacing {along}, {package.layout}"


def _last_test(visit: ZoneVisit, units: System) -> Iterator[tuple[str, str]]:
    last = visit.last
    if last is None:
        yield "Last test", "none yet"
        return
    head = f"{date_text(last.date)}, {plain(last.condition)}"
    if visit.doubts:
        why = "; ".join(plain(one.what) for one in visit.doubts)
        yield "Last test", f"{head}: cannot be used: {why}"
        return
    if last.stated is not None:
        yield "Last test", f"{head}: {_stated(last.stated, units)}"
    for run in last.runs:
        more = f", run {_number(run.run)}" if len(last.runs) > 1 else ""
        yield f"Last test{more}", f"{head}: {_run(run, units)}"
    if any(run.ranges for run in last.runs):
        yield "Range", range_caveat()


def _number(name: str) -> str:
    return plain(name).removeprefix("run").strip() or name


def _stated(stated: StatedResult, units: System) -> str:
    rate = shown(stated.net_rate_mm_per_h, "mm_per_h", units)
    return (
        f"as stated by {plain(stated.source)}: net rate {rate},"
        f" DU low quarter {shown(stated.du_lq, '', units)}"
    )


def _run(run: RunEvaluation, units: System) -> str:
    rate = shown(run.catch.net_rate_mm_per_h, "mm_per_h", units)
    if run.net_low is not None and run.net_high is not None:
        low = shown(run.net_low, "mm_per_h", units, with_unit=False)
        rate += f" ({low}–{shown(run.net_high, 'mm_per_h', units, with_unit=False)})"
    du = shown(run.uniformity.du_lq, "", units)
    if run.ranges is not None:
        found = run.ranges.du_lq
        du += f" ({shown(found.low, '', units)}–{shown(found.high, '', units)}"
        du += f", right {found.level:.0%} of the time)"
    wind = run.wind.mean_m_per_s if run.wind else None
    blew = f"wind {shown(wind, 'm_per_s', units)}" if wind is not None else "no wind"
    blew += "" if wind is not None else " on file"
    return f"net rate {rate}, DU low quarter {du}, {blew}, {run.catch.n_cans} cans"


def last_mouth(visit: ZoneVisit, units: System) -> str:
    """Mouth of the cans of the last test; empty when it is not known."""
    if visit.mouth_mm is None:
        return ""
    mouth = shown(visit.mouth_mm, "mm", units)
    return f"last {mouth}{', in doubt' if visit.doubts else ''}"


def clock_setting(zone: Zone, units: System) -> str:
    """What the clock was set to when it was looked at before anybody changed it."""
    found = zone.as_found
    if found is None:
        return "On file: nothing. Write down what stands there before changing it."
    days = (
        "every day"
        if set(found.days) == set(WEEKDAYS)
        else " ".join(day.capitalize() for day in WEEKDAYS if day in found.days)
    )
    cycles = "1 cycle" if found.cycles == 1 else f"{found.cycles} cycles"
    return f"On file: {shown(found.minutes, 'min', units)} in {cycles}, {days}."


def crop(zone: Zone, units: System) -> tuple[str, ...]:
    """Plants, pots or soil, spacing and canopy, as far as they are on file."""
    plant, pots = zone.plant, zone.pots
    canopy = plant.canopy_width_m if plant else None
    return (
        plain(plant.name) if plant else "",
        f"{_hand(pots.top_diameter_mm, 'mm', units)} top" if pots else "",
        _pot_spacing(zone, units),
        _hand(canopy, "m", units) if canopy else "",
    )


def _pot_spacing(zone: Zone, units: System) -> str:
    pots = zone.pots
    if pots is None or pots.spacing_m is None:
        return ""
    along = _hand(pots.spacing_m, "m", units)
    rows = f" x {_hand(pots.row_spacing_m, 'm', units)}" if pots.row_spacing_m else ""
    return f"{along}{rows}, {pots.pattern}"


def soil(zone: Zone, units: System) -> tuple[str, ...]:
    """Plants, texture, root depth and slope of a soil zone, as far as on file."""
    plant, ground = zone.plant, zone.soil
    root = ground.root_depth_m if ground else None
    slope = ground.slope if ground else None
    return (
        plain(plant.name) if plant else "",
        (ground.texture or "") if ground else "",
        _hand(root, "m", units) if root else "",
        "" if slope is None else f"{slope:.0%}",
        ground.cover if ground else "",
    )


def _hand(size: float, suffix: str, units: System) -> str:
    """A size as a hand measures it: inches or centimetres."""
    return typed(converted(size, suffix, to="cm"), "cm", units)
