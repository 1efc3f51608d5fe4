"""A folder name in; a commented site folder that reads without a stop out."""

import json
import os
import shutil
import tempfile
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from string import Template

from scheduler.errors import SaveError
from scheduler.files.save import sync_folder, trouble
from scheduler.units import System

# The lines that differ between the two unit systems. Invented, round numbers of the
# size that is common in practice; the user replaces them.
_LINES: dict[System, dict[str, str]] = {
    "us": {
        "elevation": "elevation_ft = 300",
        "wind_height": "wind_height_ft = 6.6",
        "supply_flow": "flow_gpm = 120",
        "water_price": "water_price_money_per_kgal = 2.50",
        "field_area": "area_ft2 = 21600",
        "root_depth": "root_depth_ft = 1.5",
        "pot_area": "area_ft2 = 9600",
        "pot_diameter": "top_diameter_in = 11",
        "pot_spacing": "spacing_in = 18               # middle to middle",
        "rotor_flow": "nozzle_flow_gpm = 4.6",
        "rotor_pressure": "pressure_psi = 50",
        "rotor_spacing": "spacing_ft = 40",
        "impact_flow": "nozzle_flow_gpm = 4.0",
        "impact_pressure": "pressure_psi = 45",
        "impact_spacing": "spacing_ft = 25",
        "impact_rows": "row_spacing_ft = 30",
        "rain_example": "0.35",
        "rain_unit": "in",
        "weather_header": (
            "date,tmax (°F),tmin (°F),RH max (%),RH min (%),"
            "solar radiation (MJ/m2/day),wind (mph),rain (in)"
        ),
        "distance": "distance_mi = 9           # from the site",
        "mouth": "mouth_in = 4.25",
        "wind": "wind_mph = 3",
        "can_spacing": "can_spacing_ft = 5",
        "can_rows": "row_spacing_ft = 6",
        "pressure": "pressure_psi = 45",
        "rise": "rise_ft = 4 ",
        "bucket": "volume_gal = 2.5",
        "new_flow": "new_flow_gpm = 4.0",
        "dial": "gal",
    },
    "metric": {
        "elevation": "elevation_m = 90",
        "wind_height": "wind_height_m = 2.0",
        "supply_flow": "flow_m3_per_h = 27",
        "water_price": "water_price_money_per_m3 = 0.65",
        "field_area": "area_m2 = 2000",
        "root_depth": "root_depth_m = 0.45",
        "pot_area": "area_m2 = 900",
        "pot_diameter": "top_diameter_cm = 28",
        "pot_spacing": "spacing_cm = 45               # middle to middle",
        "rotor_flow": "nozzle_flow_l_per_min = 17",
        "rotor_pressure": "pressure_bar = 3.5",
        "rotor_spacing": "spacing_m = 12",
        "impact_flow": "nozzle_flow_l_per_min = 16",
        "impact_pressure": "pressure_bar = 3.1",
        "impact_spacing": "spacing_m = 8",
        "impact_rows": "row_spacing_m = 9",
        "rain_example": "9",
        "rain_unit": "mm",
        "weather_header": (
            "date,tmax (°C),tmin (°C),RH max (%),RH min (%),"
            "solar radiation (MJ/m2/day),wind (m/s),rain (mm)"
        ),
        "distance": "distance_km = 15          # from the site",
        "mouth": "mouth_mm = 108",
        "wind": "wind_m_per_s = 1.3",
        "can_spacing": "can_spacing_m = 1.5",
        "can_rows": "row_spacing_m = 2",
        "pressure": "pressure_bar = 3.1",
        "rise": "rise_m = 1.2",
        "bucket": "volume_l = 9",
        "new_flow": "new_flow_l_per_min = 16",
        "dial": "L",
    },
}


@dataclass(frozen=True, slots=True)
class SiteWords:
    """What is known of a site before its files are written.

    Attributes
    ----------
    name : str
        Its name.
    latitude_deg, longitude_deg : float
        Its place; south and west are below 0. [deg]
    time_zone : str
        As the files hold it.
    elevation : str
        The line of the elevation, such as `elevation_m = 90`; empty keeps the example.
    """

    name: str = "My nursery"
    latitude_deg: float = 40.0
    longitude_deg: float = -75.0
    time_zone: str = "America/New_York"
    elevation: str = ""


def new_site(folder: Path, units: System = "us", said: SiteWords | None = None) -> None:
    """Write a commented site folder to fill in; it appears as a whole or not at all.

    Parameters
    ----------
    folder : Path
        The folder to make; it may be there if it is empty.
    units : {'us', 'metric'}
        Units of the numbers in it.
    said : SiteWords, optional
        What stands in the place of the examples.

    Raises
    ------
    SaveError
        If something is there already, it is the folder we are in, or it cannot be
        written.
    """
    part: Path | None = None
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            what = "something is there already"
            raise SaveError(what, "name another folder, or empty it", str(folder))
        target = folder.resolve()
        if target == Path.cwd():  # it would be replaced below whoever stands in it
            what = "is the folder you are in; a new site takes the place of a whole one"
            raise SaveError(what, "name one inside it, such as my_site", str(folder))
        target.parent.mkdir(parents=True, exist_ok=True)
        part = Path(
            tempfile.mkdtemp(
                prefix=f".{target.name}.", suffix=".part", dir=target.parent
            )
        )
        _write(
            files("scheduler.files") / "template",
            part,
            _words(units, said or SiteWords()),
        )
        part.chmod(0o777 & ~_umask())
        if target.is_dir():
            target.rmdir()
        part.rename(target)
        part = None
        sync_folder(target.parent)
    except OSError as problem:
        what, fix = trouble(problem)
        raise SaveError(what, fix, str(folder)) from problem
    finally:
        if part is not None:
            shutil.rmtree(part, ignore_errors=True)


def _words(units: System, said: SiteWords) -> dict[str, str]:
    words = {
        **_LINES[units],
        "units": units,
        # a string of JSON is one of TOML too
        "name": json.dumps(said.name, ensure_ascii=False),
        "latitude": f"{said.latitude_deg!r}",
        "longitude": f"{said.longitude_deg!r}",
        "time_zone": json.dumps(said.time_zone),
    }
    return {**words, "elevation": said.elevation or words["elevation"]}


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _write(source: Traversable, folder: Path, words: dict[str, str]) -> None:
    for one in source.iterdir():
        if one.is_dir():
            (folder / one.name).mkdir()
            _write(one, folder / one.name, words)
        else:
            text = Template(one.read_text(encoding="utf-8")).substitute(words)
            with (folder / one.name).open("w", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
    sync_folder(folder)
