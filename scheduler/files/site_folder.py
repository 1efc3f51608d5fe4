"""A site folder in; the site, what happened there, and everything wrong with it, out.

Nothing that can stand in a folder raises: what cannot be read is left out with a
finding that names its place, and the rest is read.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from scheduler.errors import Finding, SiteFolderError
from scheduler.files.can_tests import read_tests
from scheduler.files.folder_reading import FolderReading
from scheduler.files.issued_weeks import read_issued, week_files
from scheduler.files.log_csv import read_log
from scheduler.files.package_profiles import PackageProfile, read_package_profiles
from scheduler.files.site_clocks import check_clocks
from scheduler.files.site_tables import (
    SiteToml,
    check_packages,
    read_options,
    read_packages,
    read_site_toml,
    read_zones,
)
from scheduler.files.text_file import TextFile, is_there
from scheduler.files.weather_csv import read_rain, read_station
from scheduler.files.wind_csv import WindFileOptions, read_wind_log
from scheduler.record import DailySeries, History, RainSeries, WindLog
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
        Tests, weather, rain, wind, issued weeks and log that could be read.
    findings : tuple of Finding
        Everything wrong with the folder, in reading order.
    digests : dict
        Fingerprint of each file read, by its place in the folder, for saving.
    profiles : dict
        One sprinkler's radial profile, by the id of the package that names one.
    week_files : tuple of str
        Names in weeks/, also of files that cannot be read.
    zone_ids : tuple of str or None
        Ids in zones.toml, of zones that cannot be read too; None when one may be lost.
    """

    folder: Path
    site: Site | None
    history: History
    findings: tuple[Finding, ...]
    digests: dict[str, str]
    profiles: dict[str, PackageProfile] = field(default_factory=dict)
    week_files: tuple[str, ...] = ()
    zone_ids: tuple[str, ...] | None = ()


def read_site_folder(
    folder: Path, texts: Mapping[str, str] | None = None
) -> SiteFolder:
    """Read a site folder of format 1.

    Parameters
    ----------
    folder : Path
        The folder.
    texts : mapping, optional
        What stands in a file in place of what is on disk, for edits not saved yet.

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
    reading = FolderReading(folder, texts=texts or {})
    top = read_site_toml(reading)
    zones = read_zones(reading)
    packages = read_packages(reading)
    check_packages(reading, zones, packages)
    check_clocks(reading, top, zones)
    options = read_options(reading, zones, packages)
    tests = read_tests(reading, zones.ids, packages.ids)
    weather = _weather(reading, top)
    wind = _wind(reading, top)
    rain = _rain(reading)
    names = week_files(reading)  # before they are read: who comes later is noticed
    issued = read_issued(reading)
    log = read_log(reading, zones.ids, packages.ids)
    profiles = read_package_profiles(reading, packages, units=top.units)
    return SiteFolder(
        folder=folder,
        site=top.site(
            tuple(zones.nouns.values()),
            tuple(packages.nouns.values()),
            tuple(options.nouns.values()),
        ),
        history=History(tests, weather, rain, issued, wind, log),
        findings=tuple(dict.fromkeys(reading.findings)),
        digests=reading.digests,
        profiles=profiles,
        week_files=names,
        zone_ids=zones.ids,
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
    series = []
    named = {i: one.file for i, one in top.stations.items()}
    for i, file in _tables(reading, top, "station", named):
        one, said = read_station(file, top.stations[i], top.place or _NOWHERE)
        reading.findings += said
        if one is not None and top.place is not None:
            series.append(one)
    _note_unnamed(reading, top, ("weather", "station"), named)
    return tuple(series)


def _wind(reading: FolderReading, top: SiteToml) -> tuple[WindLog, ...]:
    logs = []
    named = {i: one.file for i, one in top.wind_logs.items()}
    for i, file in _tables(reading, top, "wind_log", named):
        noun = top.wind_logs[i]
        options = WindFileOptions(
            clock=noun.clock,
            mark=noun.stamp,
            interval_min=noun.interval_min,
            height_m=noun.height_m,
            date_order=noun.date_order,
            clock_is_confirmed=noun.clock_is_confirmed,
        )
        zone = (top.place or _NOWHERE).time_zone
        one, said = read_wind_log(file, options, time_zone=zone, name=noun.name)
        reading.findings += said
        if one is not None and top.place is not None:
            logs.append(one)
    _note_unnamed(reading, top, ("wind", "wind_log"), named)
    return tuple(logs)


def _tables(
    reading: FolderReading, top: SiteToml, noun: str, named: dict[int, str]
) -> Iterator[tuple[int, TextFile]]:
    """Files that a list of site.toml names, by place in the list; one lost is said."""
    for i, name in named.items():
        if not is_there(reading.folder / name):
            what = f'is "{name}", and there is no such file'
            fix = "correct the name, or put the file there"
            place = top.toml.place((noun, i, "file")) if top.toml else "site.toml"
            reading.say("stop", place, what, fix)
            continue
        file = reading.file(name)
        if file is not None:
            yield i, file


def _note_unnamed(
    reading: FolderReading,
    top: SiteToml,
    of: tuple[str, str],
    named: dict[int, str],
) -> None:
    folder, noun = of
    if top.toml is None or len(named) != len(top.toml.data.get(noun, [])):
        return  # a table that could not be read may name the file
    try:
        found = sorted(one.name for one in (reading.folder / folder).glob("*.csv"))
    except OSError:
        return
    known = {Path(one).name for one in named.values()}
    for name in found:
        if name not in known and name[0] not in "._":
            what = f"is not named by a [[{noun}]], so it is not used"
            fix = f'add [[{noun}]] with file = "{folder}/{name}" to site.toml'
            reading.say("note", f"{folder}/{name}", what, fix)


def _rain(reading: FolderReading) -> RainSeries | None:
    if not is_there(reading.folder / "rain.csv"):
        return None
    file = reading.file("rain.csv")
    if file is None:
        return None
    rain, said = read_rain(file)
    reading.findings += said
    return rain
