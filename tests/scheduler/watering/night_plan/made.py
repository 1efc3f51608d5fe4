"""A site of eight zones and its week, as several tests of the night plan share it."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from scheduler.field.guess import ZoneCatch
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
