"""What can be wrong: findings about a site (values) and errors (raised).

Finding                       something about the user's site worth saying
SchedulerError                the calculation cannot go on, or the caller is wrong
├── ReadingsError             readings that no depth can be computed from
│   └── TooFewCansError       fewer cans than a measure needs
├── WeatherError              a day's weather that no ET can be computed from
├── QuantityError             a text that is no number, or has no known unit
├── SiteFolderError           a folder that cannot be read as a site
└── SaveError                 a write that was refused; the disk is as before
"""

from dataclasses import dataclass
from typing import Literal

Level = Literal["note", "warning", "stop"]


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about the user's site that is worth saying.

    `where` is the place as the user knows it (`zones.toml:17: area_ft2`, `zone Z4`),
    `what` is wrong with the value as typed, `fix` says what to do about it.
    """

    level: Level
    where: str
    what: str
    fix: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}; {self.fix}"


class SchedulerError(Exception):
    """The calculation cannot go on; `fix` says what to do about it."""

    def __init__(self, what: str, fix: str, where: str = "") -> None:
        self.what = what
        self.fix = fix
        self.where = where
        super().__init__(f"{where}: {what}; {fix}" if where else f"{what}; {fix}")

    def finding(self, where: str = "", level: Level = "stop") -> Finding:
        """Say the same as a finding at a place the user knows."""
        return Finding(level, where or self.where, self.what, self.fix)


class ReadingsError(SchedulerError):
    """Readings that no depth can be computed from."""


class TooFewCansError(ReadingsError):
    """Fewer cans than a measure needs."""

    def __init__(self, n_cans: int, needed: int) -> None:
        self.n_cans = n_cans
        self.needed = needed
        super().__init__(
            f"only {n_cans} cans hold a reading, {needed} are needed",
            "set out more cans (24 on an even grid is the usual number)",
        )


class WeatherError(SchedulerError):
    """A day's weather that no reference ET can be computed from."""


class QuantityError(SchedulerError):
    """A text that is no number, or carries no known unit."""


class SiteFolderError(SchedulerError):
    """A folder that cannot be read as a site."""


class SaveError(SchedulerError):
    """A write that was refused; what is on disk is as before."""


class IssueError(SchedulerError):
    """A week that is not issued; nothing was written."""
