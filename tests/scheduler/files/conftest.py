"""A small site on disk to break, and what is said about it."""

from collections.abc import Callable
from pathlib import Path

import pytest

SITE = """\
format = 1
name = "Tern Hollow Nursery"
units = "us"

[place]
latitude_deg = 38.4
longitude_deg = -75.6
elevation_ft = 40
time_zone = "America/New_York"

[[station]]
name = "Quellan County"
file = "weather/quellan.csv"
wind_height_m = 2

[[window]]
start = "22:00"
end = 04:30:00
days = ["mon", "wed"]
"""
ZONES = """\
format = 1

[[zone]]
id = "Z1"
name = "North field"
valve = "1"
area_ft2 = 12000
package = "rotor"
grown_in = "soil"

[zone.plant]
name = "hollies"
kc = 0.7
kc_area = "bed"

[zone.soil]
texture = "sandy loam"
root_depth_in = 18

[[zone]]
id = "Z2"
name = "Potted maples"
valve = "2"
area_m2 = 900
grown_in = "pots"
watered = "every allowed day"

[zone.plant]
name = "maples"
kc = 0.8
kc_area = "bed"

[zone.pots]
top_diameter_in = 11
"""
PACKAGES = """\
format = 1

[[package]]
id = "rotor"
nozzle_flow_gpm = 4.6
spacing_ft = 40
"""
TEST = """\
format = 1
zone = "Z2"
date = 2026-05-12
condition = "as found"

[can]
mouth_in = 4.25
unit = "mL"

[[run]]
file = "run1.csv"
start = 2026-05-12T05:40:00
minutes = 30
wind_mph = 3

[[run.exclude]]
can = "b2"
reason = "a leaf lay over the mouth"
"""
RUN = "41,52,60,48\n55,63,k,69\n50,-,62,57\n"
WEATHER = """\
date,tmax (°F),tmin (°F),rain (in)
2026-05-01,77,50,0.0
2026-05-02,80,52,0.5
"""
FILES = {
    "site.toml": SITE,
    "zones.toml": ZONES,
    "packages.toml": PACKAGES,
    "tests/2026-05-12-Z2/test.toml": TEST,
    "tests/2026-05-12-Z2/run1.csv": RUN,
    "weather/quellan.csv": WEATHER,
    "rain.csv": "date,rain (in)\n2026-05-01,0.2\n",
    "weeks/2026-W20.json": (
        '{"format": 1, "start": "2026-05-11", "zones": [{"zone": "Z1", '
        '"minutes_per_day": 12, "cycles": 2, "days": ["2026-05-12"]}]}'
    ),
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A site folder that reads without any finding."""
    folder = tmp_path / "tern_hollow"
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def change(site: Path) -> Callable[[str, str, str], Path]:
    """Replace a text in one file of the site, which must be in it."""

    def changed(name: str, old: str, new: str) -> Path:
        path = site / name
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return site

    return changed
