"""Small site folders of an invented place, one for each journey."""

import datetime as dt
from pathlib import Path

MONDAY = dt.date(2026, 6, 8)
SITE = """\
format = 1
name = "Tern Hollow Nursery"
units = "us"
note = "All people, places and readings are invented."
pinned_today = 2026-06-08
demand_from = "last week"

[place]
latitude_deg = 36.1
longitude_deg = -79.95
elevation_ft = 900
time_zone = "America/New_York"

[[station]]
name = "yard"
file = "weather/yard.csv"

[[window]]
start = "22:00"
end = "04:30"
"""
PUMP = """
[supply]
source = "well"
flow_gpm = 200
"""
PACKAGE = """
[[package]]
id = "{id}"
name = "overhead rotor"
nozzle_flow_gpm = {gpm}
pressure_psi = 45
spacing_ft = {spacing}
layout = "square"
"""
DAYS = 'days = ["mon", "tue", "wed", "thu", "fri", "sat"]'
HOLLIES = f"""\
format = 1
[[zone]]
id = "Z4"
name = "Can yard, hollies"
valve = "4"
area_ft2 = 21600
package = "rotor"
grown_in = "pots"
watered = "every allowed day"
{DAYS}
rain_counted = 0.5
[zone.plant]
name = "hollies, #3"
kc = 0.85
kc_area = "bed"
[zone.pots]
top_diameter_in = 10.5
spacing_in = 14
capture_factor = 1.25
[zone.as_found]
minutes = 24
{DAYS}
"""
FIELD_BAY = """\
format = 1
[[zone]]
id = "Z7"
name = "Field bay"
valve = "7"
area_ft2 = 18000
package = "rotor"
grown_in = "soil"
watered = "every allowed day"
days = ["mon"]
rule = "average"
start_depletion_in = 0.3857     # and a seventh of 0.45 on the Monday
[zone.plant]
name = "oaks"
kc = 1.0
kc_area = "bed"
[zone.soil]
texture = "clay loam"
root_depth_in = 12
[zone.intake]
intake_in_per_h = 0.25
surface_storage_in = 0.10
"""
BLOCK = """
[[zone]]
id = "Z{i}"
name = "Block {i}"
valve = "{i}"
area_ft2 = 9000
heads = 10
package = "rotor{i}"
grown_in = "soil"
watered = "fixed minutes"
fixed_minutes = {minutes}
fixed_reason = "as the grower runs it"
days = ["mon"]
"""
TEST = """\
format = 1
zone = "{zone}"
date = {date}
condition = "as found"
[can]
mouth_in = 4.25
unit = "mL"
[[run]]
file = "run1.csv"
start = {date}T{start}:00
minutes = {minutes}
"""
# 24 cans of a first visit, mL
ROWS = (
    "41 52 60 48 66 71 58 39",
    "55 63 74 69 47 36 59 68",
    "50 44 62 57 33 53 65 70",
)


def written(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def weather(eto_in_a_week: float, rain_in_a_week: float = 0.0) -> str:
    """Sixty days before the Monday, of a station that reports its own reference ET."""
    days = (MONDAY - dt.timedelta(days=back) for back in range(60, 0, -1))
    eto, rain = eto_in_a_week / 7, rain_in_a_week / 7
    return "date,ETo (in),rain (in)\n" + "".join(
        f"{day},{eto:.5f},{rain:.5f}\n" for day in days
    )


def can_test(
    zone: str, date: str, start: str, minutes: int, rows: tuple[str, ...] = ROWS
) -> dict[str, str]:
    """Files of one test of one run."""
    folder = f"tests/{date}-{zone}"
    said = TEST.format(zone=zone, date=date, start=start, minutes=minutes)
    grid = "".join(",".join(row.split()) + "\n" for row in rows)
    return {f"{folder}/test.toml": said, f"{folder}/run1.csv": grid}


def packages(*flows_gpm: float, spacing_ft: int = 30) -> str:
    many = len(flows_gpm) > 1
    return "format = 1\n" + "".join(
        PACKAGE.format(id=f"rotor{i if many else ''}", gpm=gpm, spacing=spacing_ft)
        for i, gpm in enumerate(flows_gpm, 1)
    )


def can_yard(folder: Path, *more: dict[str, str], site: str = "") -> Path:
    """Hollies at 30 x 30 ft, 1.26 in of ETo and 0.30 in of rain; nobody tested it."""
    files = {
        "site.toml": SITE + site,
        "zones.toml": HOLLIES,
        "packages.toml": packages(4.6),
        "weather/yard.csv": weather(1.26, 0.30),
    }
    for one in more:
        files |= one
    return written(folder, files)


def field_bay(folder: Path) -> Path:
    """Soil that takes 0.25 in/h under cans that caught 0.62 in/h nearly alike."""
    alike = ("143.6 144.6 " * 4,) * 3
    files = {
        "site.toml": SITE + PUMP + "\n[controller]\nmax_starts_per_day = 4\n",
        "zones.toml": FIELD_BAY,
        "packages.toml": packages(6.2),
        "weather/yard.csv": weather(0.45),
    }
    return written(folder, files | can_test("Z7", "2026-05-21", "05:00", 60, alike))


def eight_blocks(folder: Path) -> Path:
    """Eight blocks on one pump, 620 minutes on Monday night, 2 min between valves."""
    minutes = (95, 60, 105, 70, 80, 55, 90, 65)
    flows_gpm = (95, 120, 80, 110, 70, 105, 60, 90)
    clock = "\n[controller]\nchange_over_minutes = 2\nmax_valves_at_once = 3\n"
    zones = (BLOCK.format(i=i, minutes=one) for i, one in enumerate(minutes, 1))
    files = {
        "site.toml": SITE + PUMP + clock,
        "zones.toml": "format = 1\n" + "".join(zones),
        "packages.toml": packages(*(gpm / 10 for gpm in flows_gpm)),
        "weather/yard.csv": weather(1.26),
    }
    return written(folder, files)
