"""Packages that name a profile in; the profile of each, and what is wrong, out."""

from dataclasses import dataclass, replace

from scheduler.errors import Finding, SchedulerError
from scheduler.field.catch import mouth_area_cm2
from scheduler.field.legs import averaged_profile
from scheduler.field.profile import Profile
from scheduler.files.folder_reading import FolderReading
from scheduler.files.profile_csv import radial_leg, read_legs
from scheduler.files.site_tables import Listed
from scheduler.files.text_file import is_there
from scheduler.site import Package, ProfileFile
from scheduler.units import System

# What the command line is told by options stands here in packages.toml.
_KEYS = {
    "--mouth": "write mouth_in below [package.profile]",
    "--minutes": "write minutes below [package.profile]",
}


@dataclass(frozen=True, slots=True, eq=False)
class PackageProfile:
    """One sprinkler's profile, and the notes that belong beside what it makes."""

    profile: Profile
    notes: tuple[Finding, ...]


def read_package_profiles(
    reading: FolderReading, packages: Listed[Package], *, units: System = "us"
) -> dict[str, PackageProfile]:
    """Read the profile of every package that names one.

    Parameters
    ----------
    reading : FolderReading
        The site folder; it gathers what is wrong.
    packages : Listed of Package
        The packages.
    units : {'us', 'metric'}
        Units that findings speak in.

    Returns
    -------
    dict
        Profiles by the id of their package; one that cannot be used is left out.
    """
    found = {}
    for i, package in packages.nouns.items():
        if package.profile is None or packages.toml is None:
            continue
        place = packages.toml.place(("package", i, "profile", "file"))
        profile = _profile(reading, package.profile, place, units)
        if profile is not None:
            found[package.id] = profile
    return found


def _profile(
    reading: FolderReading, noun: ProfileFile, place: str, units: System
) -> PackageProfile | None:
    if not is_there(reading.folder / noun.file):
        what = f'is "{noun.file}", and there is no such file'
        reading.say("stop", place, what, "correct the name, or put the file there")
        return None
    file = reading.file(noun.file)
    if file is None:
        return None
    legs, said = read_legs(file)
    reading.findings += said
    if not legs or any(one.level == "stop" for one in said):
        return None
    area = None if noun.mouth_mm is None else mouth_area_cm2(noun.mouth_mm)
    try:
        radial = [
            radial_leg(one, mouth_area_cm2=area, minutes=noun.minutes) for one in legs
        ]
        profile, told = averaged_profile(radial, throw_m=noun.throw_m, units=units)
    except SchedulerError as wrong:
        reading.findings.append(_in_toml(wrong.finding(place), place))
        return None
    told = tuple(replace(one, where=noun.file) for one in told)
    # a note is of no matter to the week: it stands where the profile is used
    reading.findings += (one for one in told if one.level != "note")
    if profile is None:
        return None
    return PackageProfile(profile, tuple(one for one in told if one.level == "note"))


def _in_toml(one: Finding, place: str) -> Finding:
    """The remedy in keys of packages.toml, at the place that lacks them."""
    fix = next((said for key, said in _KEYS.items() if key in one.fix), one.fix)
    return Finding(one.level, place, one.what, fix)
