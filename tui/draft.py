"""What somebody types about one run of a test, frozen; knows no terminal and no disk.

A draft keeps texts as they were typed. Every change gives another draft with the one
before it to go back to.
"""

import datetime as dt
from dataclasses import dataclass, replace
from string import ascii_uppercase
from typing import TYPE_CHECKING

from scheduler.errors import Finding, QuantityError

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.record import CanRun, CanTest
    from tui.session import Session

Quantity = tuple[float, str]
Place = tuple[int, int]
Labels = tuple[tuple[str, ...], ...]
MOST_ROWS, MOST_COLUMNS = 40, len(ascii_uppercase)


def can_labels(rows: int, columns: int) -> Labels:
    """Names of the cans of a grid: A1 is the first of the first row."""
    return tuple(
        tuple(f"{ascii_uppercase[j]}{i + 1}" for j in range(columns))
        for i in range(rows)
    )


@dataclass(frozen=True, slots=True)
class Setup:
    """What is said once about a run; a mouth may be a width or an area.

    Numbers with a unit are a number and the suffix it was typed in.
    """

    date: dt.date
    condition: str
    unit: str
    labels: Labels
    mouth: Quantity | None = None
    minutes: float | None = None
    start: dt.datetime | None = None
    wind: Quantity | None = None
    capacity: Quantity | None = None
    package: str | None = None
    note: str = ""

    @property
    def shape(self) -> Place:
        """Rows and columns."""
        return len(self.labels), len(self.labels[0])


@dataclass(frozen=True, slots=True)
class Entries:
    """What undo goes back to: the setup, the cells as typed, the cans left out."""

    setup: Setup
    cells: tuple[tuple[str, ...], ...]
    excluded: tuple[tuple[int, int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Draft:
    """One run while it is typed.

    Attributes
    ----------
    zone : str
        Id of the zone.
    now : Entries
        What is typed.
    at : tuple of int
        Row and column of the cursor.
    is_snake : bool
        Whether every other row is walked backwards.
    test, file : str
        Folder and table it belongs to; empty for what is not on disk yet.
    digests : tuple
        Fingerprints of those files as they were read.
    past, future : tuple of (Entries, place)
        For undo and redo.
    saved : Entries or None
        What is on disk, or what an untouched new run holds.
    """

    zone: str
    now: Entries
    at: Place = (0, 0)
    is_snake: bool = False
    test: str = ""
    file: str = ""
    digests: tuple[tuple[str, str], ...] = ()
    past: tuple[tuple[Entries, Place], ...] = ()
    future: tuple[tuple[Entries, Place], ...] = ()
    saved: Entries | None = None

    # --- what it says --------------------------------------------------------
    @property
    def setup(self) -> Setup:
        """What is said once about the run."""
        return self.now.setup

    @property
    def is_changed(self) -> bool:
        """Whether there is something to save."""
        return self.now != self.saved

    @property
    def text(self) -> str:
        """What is typed under the cursor."""
        return self.now.cells[self.at[0]][self.at[1]]

    @property
    def label(self) -> str:
        """Name of the can under the cursor."""
        return self.setup.labels[self.at[0]][self.at[1]]

    @property
    def n_blank(self) -> int:
        """Places nobody typed anything in."""
        names = self.setup.labels
        return sum(
            not text.strip()
            for row, cells in zip(names, self.now.cells, strict=True)
            for name, text in zip(row, cells, strict=True)
            if name
        )

    @property
    def reason(self) -> str:
        """Why the can under the cursor is left out; empty when it is not."""
        return next((why for *at, why in self.now.excluded if tuple(at) == self.at), "")

    # --- typing --------------------------------------------------------------
    def _changed(self, now: Entries) -> "Draft":
        if now == self.now:
            return self
        past = (*self.past, (self.now, self.at))
        return replace(self, now=now, past=past, future=())

    def entered(self, text: str) -> "Draft":
        """Write the cell under the cursor; an empty text leaves it blank."""
        i, j = self.at
        row = (*self.now.cells[i][:j], text.strip(), *self.now.cells[i][j + 1 :])
        cells = (*self.now.cells[:i], row, *self.now.cells[i + 1 :])
        return self._changed(replace(self.now, cells=cells))

    def left_out(self, reason: str) -> "Draft":
        """Leave the can under the cursor out for a reason; without one take it back."""
        kept = tuple(one for one in self.now.excluded if one[:2] != self.at)
        more = ((*self.at, reason.strip()),) if reason.strip() else ()
        return self._changed(replace(self.now, excluded=tuple(sorted(kept + more))))

    def set_up(self, setup: Setup) -> "Draft":
        """Say something else about the run; a grid of another size keeps its cells."""
        rows, columns = setup.shape
        old = self.now.cells
        cells = tuple(
            tuple(
                old[i][j] if i < len(old) and j < len(old[i]) else ""
                for j in range(columns)
            )
            for i in range(rows)
        )
        inside = tuple(
            one for one in self.now.excluded if one[0] < rows and one[1] < columns
        )
        at = min(self.at[0], rows - 1), min(self.at[1], columns - 1)
        return replace(self._changed(Entries(setup, cells, inside)), at=at)

    def undone(self) -> "Draft":
        """Go back by one change, and to where it was made."""
        if not self.past:
            return self
        (now, at), past = self.past[-1], self.past[:-1]
        future = (*self.future, (self.now, self.at))
        return replace(self, now=now, at=at, past=past, future=future)

    def redone(self) -> "Draft":
        """Take back the last undo."""
        if not self.future:
            return self
        (now, at), future = self.future[-1], self.future[:-1]
        past = (*self.past, (self.now, self.at))
        return replace(self, now=now, at=at, past=past, future=future)

    # --- moving --------------------------------------------------------------
    def placed(self, row: int, column: int) -> "Draft":
        """Put the cursor on a place; outside the grid it stops at the edge."""
        rows, columns = self.setup.shape
        at = min(max(row, 0), rows - 1), min(max(column, 0), columns - 1)
        return replace(self, at=at)

    def moved(self, down: int, right: int) -> "Draft":
        """Move the cursor."""
        return self.placed(self.at[0] + down, self.at[1] + right)

    def turned(self) -> "Draft":
        """Walk every other row backwards, or no longer."""
        return replace(self, is_snake=not self.is_snake)

    def stepped(self, by: int = 1) -> "Draft":
        """Move to the next can in the order people walk; stops at both ends."""
        order = self._order()
        place = order.index(self.at) + by if self.at in order else 0
        return replace(self, at=order[min(max(place, 0), len(order) - 1)])

    def _order(self) -> list[Place]:
        rows, columns = self.setup.shape
        order = []
        for i in range(rows):
            walk = range(columns)
            for j in reversed(walk) if self.is_snake and i % 2 else walk:
                if self.setup.labels[i][j]:
                    order.append((i, j))
        return order

    # --- saved ---------------------------------------------------------------
    def kept(self, test: str, file: str, digests: dict[str, str]) -> "Draft":
        """Draft of what is on disk now."""
        return replace(
            self,
            test=test,
            file=file,
            digests=tuple(sorted(digests.items())),
            saved=self.now,
        )


def new_draft(zone: str, setup: Setup, *, test: str = "") -> Draft:
    """Draft of a run with nothing typed yet."""
    rows, columns = setup.shape
    now = Entries(setup, (("",) * columns,) * rows)
    return Draft(zone, now, test=test, saved=now)


# --- worked up by the engine -------------------------------------------------


def refusals(draft: Draft) -> tuple[Finding, ...]:
    """What is typed and cannot stand: no number, no code, or below zero."""
    from scheduler.field.as_typed import typed_reading

    found = []
    for i, row in enumerate(draft.now.cells):
        for j, text in enumerate(row):
            can = f"can {draft.setup.labels[i][j]}"
            try:
                read = typed_reading(text)
            except QuantityError as error:
                found.append(error.finding(can))
                continue
            if not isinstance(read, str) and read < 0:
                what = f"{text} is not possible"
                found.append(Finding("stop", can, what, "read the can again"))
    return tuple(found)


def can_run(draft: Draft) -> "CanRun":
    """The run as the engine knows it; what is not understood holds no reading."""
    import numpy as np

    from scheduler.arrays import frozen
    from scheduler.field.as_typed import typed_reading
    from scheduler.record import CanRun, Exclusion
    from scheduler.units import converted

    setup = draft.setup
    reading = np.full(setup.shape, np.nan)
    code = [["-"] * setup.shape[1] for _ in range(setup.shape[0])]
    for i, row in enumerate(draft.now.cells):
        for j, text in enumerate(row):
            try:
                read = typed_reading(text)
            except QuantityError:
                continue
            if isinstance(read, str):
                code[i][j] = read
            else:
                reading[i, j], code[i][j] = read, ""
    wind = setup.wind
    return CanRun(
        name=draft.file.removesuffix(".csv") or "run",
        where=draft.file or "this run",
        reading=frozen(reading),
        code=tuple(tuple(row) for row in code),  # type: ignore[arg-type]
        label=setup.labels,
        unit=setup.unit,  # type: ignore[arg-type]
        minutes=setup.minutes,
        start=setup.start,
        wind_m_per_s=converted(wind[0], wind[1], to="m_per_s") if wind else None,
        excluded=tuple(Exclusion(*one) for one in draft.now.excluded),
    )


def can_test(draft: Draft) -> "CanTest":
    """The test as the engine knows it, with this run alone."""
    from scheduler.field.catch import mouth_area_cm2
    from scheduler.record import CanTest
    from scheduler.units import UNITS, converted

    setup, area_cm2 = draft.setup, None
    if setup.mouth is not None:
        size, unit = setup.mouth
        if UNITS[unit].dimension == "area":
            area_cm2 = converted(size, unit, to="cm2")
        else:
            area_cm2 = mouth_area_cm2(converted(size, unit, to="mm"))
    return CanTest(
        name=draft.test or "new test",
        where="this test",
        zone=draft.zone,
        date=setup.date,
        condition=setup.condition,
        mouth_area_cm2=area_cm2,
        runs=(can_run(draft),),
        capacity_ml=_capacity_ml(setup),
        note=setup.note,
        package=setup.package,
    )


def _capacity_ml(setup: Setup) -> float | None:
    from scheduler.units import converted

    if setup.capacity is None:
        return None
    return converted(setup.capacity[0], setup.capacity[1], to="ml")


def remark(draft: Draft) -> Finding | None:
    """What to ask at once about the can under the cursor."""
    from scheduler.field.as_typed import reading_remark, typed_reading

    try:
        typed_reading(draft.text)
    except QuantityError as error:
        return error.finding(f"can {draft.label}")
    capacity = _capacity_ml(draft.setup)
    return reading_remark(can_run(draft), *draft.at, capacity_ml=capacity)


def worked_up(
    draft: Draft, session: "Session", *, with_ranges: bool
) -> "TestEvaluation":
    """The run as the engine sees it; its wind comes with the ranges."""
    from scheduler.field.evaluation import evaluated_test
    from scheduler.field.wind_during import SiteWind

    site, history = session.site, session.history
    zone = site.zone(draft.zone) if site is not None else None
    package = None
    if site is not None:
        package = site.package(draft.setup.package or (zone.package if zone else None))
    wind = None
    if with_ranges and site is not None and history is not None:
        wind = SiteWind(history.wind, site.place.time_zone, site.units)
    return evaluated_test(
        can_test(draft), zone, package, site_wind=wind, with_ranges=with_ranges
    )
