"""A site of eight zones and its week, as several tests of the night plan share it."""

import datetime as dt
from dataclasses import dataclass, replace
from typing import Any

from scheduler.field.guess import ZoneCatch, assumed
from scheduler.field.package_wind import PackageWind
from scheduler.field.uniformity import low_half_uniformity
from scheduler.site import Package, Place, Site, Supply, Window, Zone
from scheduler.unit_table import L_PER_US_GALLON
from tests.scheduler.watering.timetable.made import FLOWS_GPM, MINUTES

MONDAY = dt.date(2026, 6, 8)
DATES = tuple(MONDAY + dt.timedelta(days=d) for d in range(7))
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    time_zone="America/New_York",
)  # fmt: skip
NIGHT = Window(start=dt.time(22), end=dt.time(4, 30))


@dataclass(frozen=True)
class Watered:
    """One zone's week, as the plan would give it."""

    zone: Zone
    status: str = "fixed"
    days: tuple[dt.date, ...] = (MONDAY,)
    dates: tuple[dt.date, ...] = DATES
    cycles: int | None = 1
    cycle_minutes: int | None = 20
    soak_minutes: int | None = 0
    evidence: ZoneCatch | None = None
    rule: str | None = None


def caught(du_lq: float = 0.7, wind_m_per_s: float | None = 1.0) -> ZoneCatch:
    """A measured catch of that DU, 12 mm/h."""
    one = zone("1", assumed_net_rate_mm_per_h=12.0, assumed_du_lq=du_lq)
    found, _ = assumed(one, None)
    assert found is not None
    half = float(low_half_uniformity(found.share))
    return replace(found, basis="measured", du_lh=half, wind_m_per_s=wind_m_per_s)


def line(
    du: float = -0.1, rate: float = 0.0, *, low: float = 0.0, high: float = 9.0
) -> PackageWind:
    """What wind does to package p1: DU 0.9 in calm."""
    return PackageWind("p1", du, rate, low, high, 6, 3, 0.9)


def zone(zone_id: str, **given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": zone_id, "name": f"block {zone_id}", "area_m2": 900.0, "heads": 10.0,
        "package": f"p{zone_id}", "grown_in": "soil", "watered": "fixed minutes",
        "fixed_minutes": 20.0,
    }  # fmt: skip
    return Zone(**(base | given))


def package(zone_id: str, gpm: float) -> Package:
    """Nozzles of which ten give that flow."""
    return Package(id=f"p{zone_id}", nozzle_flow_l_per_min=gpm / 10 * L_PER_US_GALLON)


def site(*zones: Zone, pump_gpm: float | None = 200.0, **given: Any) -> Site:
    flows = {f"{i}": gpm for i, gpm in enumerate(FLOWS_GPM, 1)}
    supply = Supply(
        source="well",
        flow_l_per_min=pump_gpm * L_PER_US_GALLON if pump_gpm else None,
    )
    base: dict[str, Any] = {
        "name": "Tern Hollow", "units": "us", "place": PLACE, "zones": zones,
        "packages": tuple(package(name, gpm) for name, gpm in flows.items()),
        "windows": (NIGHT,), "supply": supply,
    }  # fmt: skip
    return Site(**(base | given))


def eight_zones(days: tuple[dt.date, ...] = (MONDAY,)) -> tuple[Watered, ...]:
    """The worked night: zones 1 to 8 with their minutes."""
    return tuple(
        Watered(zone(f"{i}"), days=days, cycle_minutes=minutes)
        for i, minutes in enumerate(MINUTES, 1)
    )
