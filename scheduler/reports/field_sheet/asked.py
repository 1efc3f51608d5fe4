"""What the person wants printed on field sheets."""

import datetime as dt
from dataclasses import dataclass

from scheduler.units import System


@dataclass(frozen=True, slots=True)
class Asked:
    """The site's name, the units, how many runs, and the date if it is settled."""

    site: str
    units: System
    n_runs: int = 2
    date: dt.date | None = None
