"""What was done and noted at a site: facts of the log, one a line, in SI-style units.

Entry                one line: where it stands, as typed, date, time, zone, note
├── Watering         a night's minutes of a zone, or a night it was skipped
├── MeterReading     a dial as read, its multiplier, digits, and what runs through it
├── LeachingPot      one pot of a leaching check (`Log.leaching_checks` groups them)
├── PotWeight        one pot on the scales
├── PourThrough      EC and pH of what was pushed out of one pot
├── DrySpot          a place that looked dry
├── Override         minutes that a person chose, with the reason
├── Repair           a repair, or a change of the hardware, of a zone or a package
├── Respacing        a block that was moved or set at another spacing
├── FrostNight       water run against frost, booked apart from irrigation
└── HandWater        water given by hand
"""

import datetime as dt
import re
from dataclasses import dataclass
from typing import TypeVar

from scheduler.units import converted

_CELL = re.compile(r"([a-z]{1,2})\s*(\d{1,3})$")
_ROW_COLUMN = re.compile(
    r"r(?:ow)?\s*(\d{1,3})\s*[,/]?\s*c(?:ol(?:umn)?)?\.?\s*(\d{1,3})$"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the log.

    Attributes
    ----------
    where : str
        Its place as the user knows it, such as `log.csv:12`.
    typed : str
        The line as it was typed.
    date : date
        The day; of waterings and frost the day on whose evening the night begins, as
        the week lists it.
    time : time or None
        Local time, where somebody noted it.
    zone : str
        Id of the zone; empty where the fact is not of one zone.
    note : str
        What somebody wrote beside it.
    """

    where: str
    typed: str
    date: dt.date
    time: dt.time | None = None
    zone: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Watering(Entry):
    """A zone's watering of one night: all cycles together, 0 when skipped. [min]."""

    minutes: float
    is_skipped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterReading(Entry):
    """One reading of a water meter.

    Attributes
    ----------
    meter : str
        Name of the meter.
    reading : float
        The dial as read, in `unit`, before `multiplier`.
    unit : str
        Suffix of a unit of volume.
    multiplier : float or None
        What the dial is multiplied by; None when no line said so far.
    digits : int or None
        Whole digits of the dial, for a roll-over.
    zones : tuple of str
        Zones that run through it; empty when nobody said.
    is_shared : bool
        Other water runs through it as well, such as a house or a wash bay.
    is_new : bool
        First reading of a new or reset dial: no difference to the reading before.
    """

    meter: str
    reading: float
    unit: str
    multiplier: float | None = None
    digits: int | None = None
    zones: tuple[str, ...] = ()
    is_shared: bool = False
    is_new: bool = False

    @property
    def dial_m3(self) -> float:
        """The dial as a volume, an unsaid multiplier taken as 1. [m3]."""
        return converted(self.reading * (self.multiplier or 1.0), self.unit, to="m3")

    @property
    def roll_over_m3(self) -> float | None:
        """The volume at which the dial starts again at 0; None if not known. [m3]."""
        if self.digits is None:
            return None
        whole = 10.0**self.digits * (self.multiplier or 1.0)
        return converted(whole, self.unit, to="m3")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedEntry(Entry):
    """A line about one place in a zone.

    Attributes
    ----------
    place : str
        As typed: `B3`, `row 3 col 2` or `N corner`.
    """

    place: str

    @property
    def position(self) -> tuple[int, int] | None:
        """Row and column from 0, as in a catch-can grid; None for words."""
        return position_of(self.place)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeachingPot(PlacedEntry):
    """One pot of a leaching check.

    Attributes
    ----------
    in_ml, out_ml : float or None
        Water into the pot and out of it; None where only the part was noted. [mL]
    stated_fraction : float or None
        The part as noted, where no volumes were. [-]
    before_g, after_g : float or None
        The pot before the watering and after it drained, where it was weighed; then
        `in_ml` is what drained and what stayed. [g]
    minutes : float or None
        How long the water of the check ran. [min]
    """

    in_ml: float | None = None
    out_ml: float | None = None
    stated_fraction: float | None = None
    before_g: float | None = None
    after_g: float | None = None
    minutes: float | None = None

    @property
    def fraction(self) -> float:
        """Part of the water that drained, 0 to 1. [-]."""
        if self.in_ml is None or self.out_ml is None:
            assert self.stated_fraction is not None, "the reader has looked"
            return self.stated_fraction
        return self.out_ml / self.in_ml


@dataclass(frozen=True, slots=True, kw_only=True)
class LeachingCheck:
    """The pots of one zone that were checked together.

    Attributes
    ----------
    where : str
        Place of the first pot.
    date, time, zone
        As of its pots.
    pots : tuple of LeachingPot
        In the order of the file; one at least.
    minutes : float or None
        How long the water ran, if any pot says so and none says otherwise. [min]
    """

    where: str
    date: dt.date
    time: dt.time | None
    zone: str
    pots: tuple[LeachingPot, ...]

    @property
    def minutes(self) -> float | None:
        """Minutes of the watering; None if not said, or said in two ways. [min]."""
        said = {one.minutes for one in self.pots if one.minutes is not None}
        return said.pop() if len(said) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class PotWeight(PlacedEntry):
    """One pot on the scales. [g]."""

    weight_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PourThrough(PlacedEntry):
    """What was pushed out of one pot; one of the two numbers at least."""

    ec_ds_per_m: float | None = None
    ph: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DrySpot(PlacedEntry):
    """A place that looked dry; `note` says how."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Override(Entry):
    """Minutes a night that a person chose against the plan. [min]."""

    minutes: float
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair(Entry):
    """Something mended or changed at a zone, or at all places of a package.

    Attributes
    ----------
    package : str
        Id of the package; empty where a zone is named.
    what : str
        What was done.
    is_change : bool
        The hardware is another one from now on, so that older tests stand for another
        condition.
    """

    what: str
    package: str = ""
    is_change: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Respacing(Entry):
    """A block that was moved or set anew, centre to centre.

    Attributes
    ----------
    spacing_m, row_spacing_m : float or None
        Along the row, and between rows where that differs; None when the block was
        moved and nobody measured. [m]
    """

    spacing_m: float | None = None
    row_spacing_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostNight(Entry):
    """Water run against frost: hours as minutes, or a volume of the meter, or both.

    Attributes
    ----------
    minutes : float or None
        How long it ran. [min]
    volume_m3 : float or None
        What went through the meter. [m3]
    zones : tuple of str
        Zones that ran; empty means all.
    """

    minutes: float | None = None
    volume_m3: float | None = None
    zones: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HandWater(Entry):
    """Water given by hand in one zone: a time [min], a volume [m3], or both."""

    minutes: float | None = None
    volume_m3: float | None = None


E = TypeVar("E", bound=Entry)


@dataclass(frozen=True, slots=True)
class Log:
    """Every line of the log that could be read, in the order of the file."""

    entries: tuple[Entry, ...] = ()

    def of(self, kind: type[E], zone: str | None = None) -> tuple[E, ...]:
        """Facts of one kind by date and time, of one zone if one is named.

        A fact without a time comes before those of its day that have one.
        """
        found = [
            one
            for one in self.entries
            if isinstance(one, kind) and (zone is None or one.zone == zone)
        ]
        return tuple(sorted(found, key=_moment))

    def leaching_checks(self, zone: str | None = None) -> tuple[LeachingCheck, ...]:
        """Leaching checks by date: pots of one zone, day and time belong together."""
        checks: dict[tuple[str, dt.date, dt.time | None], list[LeachingPot]] = {}
        for pot in self.of(LeachingPot, zone):
            checks.setdefault((pot.zone, pot.date, pot.time), []).append(pot)
        return tuple(
            LeachingCheck(
                where=pots[0].where, date=date, time=time, zone=name, pots=tuple(pots)
            )
            for (name, date, time), pots in checks.items()
        )


def _moment(entry: Entry) -> tuple[dt.date, dt.time]:
    return entry.date, entry.time or dt.time.min


def position_of(place: str) -> tuple[int, int] | None:
    """Row and column of a place in a grid, from 0; None for a place in words.

    Parameters
    ----------
    place : str
        `B3` (column letter and row, as cans are named) or `row 3 col 2`, from 1.

    Returns
    -------
    tuple of int and int, or None
        Row and column.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> position_of("B3"), position_of("row 3 col 2"), position_of("N corner")
    ((2, 1), (2, 1), None)
    """
    plain = place.strip().lower()
    if found := _ROW_COLUMN.match(plain):
        row, column = int(found[1]), int(found[2])
    elif found := _CELL.match(plain):
        row, column = int(found[2]), 0
        for letter in found[1]:
            column = column * 26 + ord(letter) - ord("a") + 1
    else:
        return None
    return (row - 1, column - 1) if row and column else None
