"""A site folder in; the site, what happened there, and everything wrong with it, out.

Nothing that can stand in a folder raises: what cannot be read is left out with a
finding that names its place, and the rest is read.
"""

from dataclasses import dataclass
from pathlib import Path

from scheduler.errors import Finding, SiteFolderError
from scheduler.files.can_tests import read_tests
from scheduler.files.folder_reading import FolderReading
from scheduler.files.issued_weeks import read_issued
from scheduler.files.site_tables import (
    SiteToml,
    check_packages,
    read_packages,
    read_site_toml,
    read_zones,
)
from scheduler.files.text_file import is_there
from scheduler.files.weather_csv import read_rain, read_station
from scheduler.record import DailySeries, History, RainSeries
from scheduler.site import Place, Site

# For reading a table of weather whose site has no place: the days are not used.
_NOWHERE = Place(latitude_deg=0.0, longitude_deg=0.0, elevation_m=0.0, time_zone="UTC")


@dataclass(frozen=True, slots=True, eq=False)
class SiteFolder:
    """Everything that one reading of a site folder gave.

    Attributes
    ----------
    folder : Path
        The folder.
    site : Site or None
        The site with the zones that could be read; None when site.toml could not.
    history : History
        Tests, weather, rain and issued weeks that could be read.
    findings : tuple of Finding
        Everything wrong with the folder, in reading order.
    digests : dict
        Fingerprint of each file read, by its place in the folder, for saving.
    """

    folder: Path
    site: Site | None
    history: History
    findings: tuple[Finding, ...]
    digests: dict[str, str]


def read_site_folder(folder: Path) -> SiteFolder:
    """Read a site folder of format 1.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    SiteFolder
        What could be read, and a finding for everything that could not.

    Raises
    ------
    SiteFolderError
        If there is no such folder.
    """
    _refuse_missing(folder)
    reading = FolderReading(folder)
    top = read_site_toml(reading)
    zones = read_zones(reading)
    packages = read_packages(reading)
    check_packages(reading, zones, packages)
    tests = read_tests(reading, zones.ids)
    weather = _weather(reading, top)
    rain = _rain(reading)
    issued = read_issued(reading)
    return SiteFolder(
        folder=folder,
        site=top.site(tuple(zones.nouns.values()), tuple(packages.nouns.values())),
        history=History(tests, weather, rain, issued),
        findings=tuple(dict.fromkeys(reading.findings)),
        digests=reading.digests,
    )


def _refuse_missing(folder: Path) -> None:
    fix = "name a site folder, or make one: lowquarter new FOLDER"
    try:
        is_folder = folder.is_dir()
        if is_folder:
            next(iter(folder.iterdir()), None)  # may it be read at all?
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or problem
        what = f"cannot be read ({why})"
        raise SiteFolderError(what, fix, str(folder)) from problem
    if not is_folder:
        what = "is not a folder" if is_there(folder) else "there is no such folder"
        raise SiteFolderError(what, fix, str(folder))


def _weather(reading: FolderReading, top: SiteToml) -> tuple[DailySeries, ...]:
    if top.toml is None:
        return ()
    series = []
    for i, station in top.stations.items():
        if not is_there(reading.folder / station.file):
            what = f'is "{station.file}", and there is no such file'
            fix = "correct the name, or put the file there"
            place = top.toml.place(("station", i, "file"))
            reading.say("stop", place, what, fix)
            continue
        file = reading.file(station.file)
        if file is not None:
            one, said = read_station(file, station, top.place or _NOWHERE)
            reading.findings += said
            if one is not None and top.place is not None:
                series.append(one)
    named = {Path(one.file).name for one in top.stations.values()}
    if len(top.stations) == len(top.toml.data.get("station", [])):
        _note_unnamed(reading, named)
    return tuple(series)


def _note_unnamed(reading: FolderReading, named: set[str]) -> None:
    try:
        found = sorted(one.name for one in (reading.folder / "weather").glob("*.csv"))
    except OSError:
        return
    for name in found:
        if name not in named and name[0] not in "._":
            what = "is not named by a [[station]], so it is not used"
            fix = f'add [[station]] with file = "weather/{name}" to site.toml'
            reading.say("note", f"weather/{name}", what, fix)


def _rain(reading: FolderReading) -> RainSeries | None:
    if not is_there(reading.folder / "rain.csv"):
        return None
    file = reading.file("rain.csv")
    if file is None:
        return None
    rain, said = read_rain(file)
    reading.findings += said
    return rain
