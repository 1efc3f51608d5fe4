"""Typed texts in; a new site, the copy of a demo, folders opened lately, out.

Everything is checked while it is typed. Besides the site folders only a list of those
opened lately is kept, as plain text in the user's state folder.
"""

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from scheduler.errors import QuantityError, SchedulerError
from scheduler.units import System, number, spelled_unit

if TYPE_CHECKING:
    from scheduler.files.new_site import SiteWords

Wrong = dict[str, str]
MOST_RECENT = 9
_DEGREES = {"latitude": 90.0, "longitude": 180.0}


# --- folders ------------------------------------------------------------------


def is_site(folder: Path) -> bool:
    """Whether a folder holds a site; one that may not be looked at holds none."""
    try:
        return (folder / "site.toml").is_file()
    except OSError:
        return False


def folder_of(text: str) -> Path:
    """A folder as typed; `~` is the user's own.

    Raises
    ------
    QuantityError
        If nothing is typed, or a user behind `~` who is not known here.
    """
    if not text.strip():
        raise QuantityError("the folder is missing", "type a path, such as my_site")
    folder = Path(text.strip().strip("'\""))
    try:
        return folder.expanduser()
    except RuntimeError:
        what = f"{folder.parts[0]} is no user's folder here"
        raise QuantityError(what, "type the path without ~") from None


def free_folder(text: str) -> Path:
    """A folder as typed, in which nothing stands yet.

    Raises
    ------
    QuantityError
        If something stands there, nothing is typed, or it is the folder we are in: a
        new one takes its place as a whole, and nobody can stand in it meanwhile.
    """
    folder = folder_of(text)
    try:
        is_taken = folder.exists() and (not folder.is_dir() or any(folder.iterdir()))
        is_here = folder.resolve() == Path.cwd()
    except OSError as problem:
        why = problem.strerror or "it cannot be looked at"
        raise QuantityError(f"{folder}: {why}", "name another folder") from problem
    if is_taken:
        raise QuantityError(f"something stands in {folder} already", "name another")
    if is_here:
        what = f"{folder} is the folder you are in"
        raise QuantityError(what, "name one inside it, such as my_site")
    return folder


def recent_file() -> Path:
    """The list of folders opened lately."""
    named = "LOCALAPPDATA" if sys.platform == "win32" else "XDG_STATE_HOME"
    state = os.environ.get(named, "")
    return Path(state or Path.home() / ".local" / "state") / "lowquarter" / "recent.txt"


def recent_sites() -> tuple[Path, ...]:
    """Site folders opened lately that are still there, the last one first."""
    try:
        lines = recent_file().read_text("utf-8").splitlines()
    except (OSError, ValueError):
        return ()
    return tuple(Path(one) for one in lines if one.strip() and is_site(Path(one)))


def remember(folder: Path) -> None:
    """Put a site folder on top of the list; a disk that refuses is no trouble."""
    here = folder.resolve()
    others = [one for one in recent_sites() if one != here]
    text = "\n".join(map(str, [here, *others][:MOST_RECENT])) + "\n"
    try:
        recent_file().parent.mkdir(parents=True, exist_ok=True)
        part = recent_file().with_name(f".recent.{os.getpid()}")
        part.write_text(text, encoding="utf-8")
        part.replace(recent_file())
    except OSError:
        return


# --- a new site ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class NewSite:
    """A site that can be made as it was typed."""

    folder: Path
    units: System
    words: "SiteWords"


def read_site(texts: Mapping[str, str]) -> tuple[NewSite | None, Wrong]:
    """A new site from the texts of its form, or what is wrong with them."""
    from scheduler.files.new_site import SiteWords

    wrong: Wrong = {}
    said: dict[str, object] = {}
    for name, read in _READERS.items():
        try:
            said[name] = read(texts.get(name, "").strip())
        except QuantityError as problem:
            wrong[name] = f"{problem.what}; {problem.fix}"
    units: System = "metric" if said.get("units") == "metric" else "us"
    try:
        elevation = _elevation(texts.get("elevation", "").strip(), units)
    except QuantityError as problem:
        elevation, wrong["elevation"] = "", f"{problem.what}; {problem.fix}"
    if wrong:
        return None, wrong
    words = SiteWords(
        name=str(said["name"]),
        latitude_deg=_float(said["latitude"]),
        longitude_deg=_float(said["longitude"]),
        time_zone=str(said["time zone"]),
        elevation=elevation,
    )
    return NewSite(Path(str(said["folder"])), units, words), {}


def make_site(new: NewSite) -> Path:
    """Write a new site.

    Raises
    ------
    SaveError
        If the folder cannot be written.
    """
    from scheduler.files.new_site import new_site

    new_site(new.folder, new.units, new.words)
    return new.folder


def _float(value: object) -> float:
    assert isinstance(value, float), "the reader gave a number"
    return value


def _name(text: str) -> str:
    if not text:
        raise QuantityError("the name is missing", "type what the site is called")
    return text


def _units(text: str) -> System:
    plain = text.casefold()
    if plain not in ("us", "metric"):
        raise QuantityError(f"{text!r} is no system of units", "type us or metric")
    return "us" if plain == "us" else "metric"


def _degrees(text: str, name: str) -> float:
    most = _DEGREES[name]
    fix = f"type degrees from -{most:g} to {most:g}, such as 40.25"
    try:
        size = float(text.replace(",", ".").rstrip("°"))
    except ValueError:
        raise QuantityError(f"{text!r} is no {name}", fix) from None
    if not -most <= size <= most:
        raise QuantityError(f"{text} is no {name}", fix)
    return size


def _time_zone(text: str) -> str:
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        return ZoneInfo(text).key if text else ZoneInfo("missing/zone").key
    except (ZoneInfoNotFoundError, ValueError, OSError):
        fix = "type continent and city, such as America/New_York"
        raise QuantityError(f"{text!r} is no time zone", fix) from None


def _elevation(text: str, units: System) -> str:
    if not text:
        return ""
    size, unit = number(text)
    own = "ft" if units == "us" else "m"
    suffix = spelled_unit(unit) if unit else own
    if suffix not in ("ft", "m"):
        raise QuantityError(f"{text!r} is no elevation", "such as 300 ft or 90 m")
    return f"elevation_{suffix} = {size:g}"


_READERS = {
    "name": _name,
    "units": _units,
    "latitude": lambda text: _degrees(text, "latitude"),
    "longitude": lambda text: _degrees(text, "longitude"),
    "time zone": _time_zone,
    "folder": free_folder,
}


# --- demos --------------------------------------------------------------------


def demo_sites() -> dict[str, str]:
    """Demo sites with what each is for."""
    from scheduler.files.demo import DEMOS

    return dict(DEMOS)


def copied_demo(name: str, folder: Path) -> Path:
    """Copy a demo; a copy from before is kept as it is.

    Raises
    ------
    SaveError
        If something else stands there, or the disk refuses.
    """
    from scheduler.files.demo import copy_demo

    copy_demo(folder, name)
    return folder


def trouble(problem: SchedulerError) -> str:
    """What is wrong and what to do, in a line."""
    return f"{problem.what}; {problem.fix}"
