"""A small site folder to edit: two zones, one of them out of use; plans in no time."""

from pathlib import Path

SITE = """\
format = 1
# by hand
name = "Small Yard"
units = "us"
pinned_today = 2026-06-08   # the day is held

[place]
latitude_deg = 36.1
longitude_deg = -79.95
elevation_ft = 300
time_zone = "America/New_York"

[supply]                # a well
source = "well"
flow_gpm = 120          # nameplate

[[window]]
start = "22:00"
end = "04:30"
"""
ZONES = """\
format = 1

# the first valve
[[zone]]
id = "Z1"
name = "Bench, fertigated"
valve = "1"
area_ft2 = 2400         # paced
grown_in = "pots"
watered = "fixed minutes"
fixed_minutes = 6
fixed_reason = "the feed sets the minutes"

[[zone]]
id = "Z2"
name = "Old beds"
valve = "2"
area_ft2 = 9000
grown_in = "soil"
watered = "off"
"""


def small_site(folder: Path) -> Path:
    folder.mkdir()
    (folder / "site.toml").write_text(SITE, "utf-8")
    (folder / "zones.toml").write_text(ZONES, "utf-8")
    return folder
