"""Sites, dials and logs made by hand for the tests of proof."""

import datetime as dt
from typing import Any

from scheduler.log import Entry, Log, MeterReading
from scheduler.record import History
from scheduler.site import AsFound, Package, Place, Site, Zone

PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    time_zone="America/New_York",
)  # fmt: skip
# 10 heads of 10 L/min: 100 L/min, so that 10 min are 1 m3
ROTOR = Package(id="rotor", nozzle_flow_l_per_min=10.0)
MONDAY = dt.date(2026, 6, 1)


def day(number: int) -> dt.date:
    """A day of June 2026, which begins on a Monday; from 31 on of July."""
    return MONDAY + dt.timedelta(days=number - 1)


def at(number: int, **given: Any) -> dict[str, Any]:
    return {"where": f"log.csv:{number}", "typed": "", "date": day(number), **given}


def dial(number: int, reading: float, **given: Any) -> MeterReading:
    base: dict[str, Any] = {"meter": "pump", "unit": "m3", "time": dt.time(7)}
    return MeterReading(reading=reading, **at(number, **(base | given)))


def zone(name: str = "Z1", minutes: float | None = 10.0, **given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": name,
        "name": "yard",
        "area_m2": 900.0,
        "heads": 10,
        "package": "rotor",
        "grown_in": "pots",
        "watered": "off",
        "as_found": None if minutes is None else AsFound(minutes=minutes),
    }
    return Zone(**(base | given))


def site(*zones: Zone, **given: Any) -> Site:
    base: dict[str, Any] = {
        "name": "Tern Hollow",
        "units": "metric",
        "place": PLACE,
        "packages": (ROTOR,),
        "zones": zones or (zone(),),
    }
    return Site(**(base | given))


def history(*entries: Entry, **given: Any) -> History:
    return History(log=Log(entries), **given)
