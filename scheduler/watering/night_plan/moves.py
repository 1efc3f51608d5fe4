"""A week and the last issued one in; what is gained by moving waterings out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from scheduler.field.package_wind import SitePackageWind
from scheduler.record import History
from scheduler.site import Site
from scheduler.trace import Trace
from scheduler.watering.night_plan.begin import begin_nights
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.result import WateredZone
from scheduler.watering.night_plan.said import no_plan_findings
from scheduler.watering.night_plan.week import last_week_places
from scheduler.watering.timetable import Placed
from scheduler.watering.timetable.stability import CURVE, Kept, repacked

# rounds of each search: nine searches a night wait to be drawn
ROUNDS = 30
L_PER_M3 = 1000.0


@dataclass(frozen=True, slots=True)
class MovePoint:
    """One week that moves so many waterings.

    Attributes
    ----------
    moved : int
        Waterings that leave their place of last week.
    share : float
        Share of a watering's cost that a move had to save. [-]
    gained : float
        Saved against the week that moves least, as a share of its cost. [-]
    gained_m3, gained_money : float or None
        The same in water or, where minutes are compared in money, in money. [m3]
    unplaced : int
        Waterings without room.
    """

    moved: int
    share: float
    gained: float
    gained_m3: float | None
    gained_money: float | None
    unplaced: int


@dataclass(frozen=True, slots=True)
class MoveCurve:
    """What more moves gain.

    Attributes
    ----------
    points : tuple of MovePoint
        From few moves to many, each gaining more than the one before; empty where
        nothing can be compared.
    known : int
        Waterings that had a place last week.
    why : str
        Why there are no points.
    scale : str
        What is compared: water, or money where energy has prices by the hour.
    """

    points: tuple[MovePoint, ...]
    known: int
    why: str = ""
    scale: Literal["water", "money"] = "water"

    @property
    def trace(self) -> Trace:
        """Where the gains come from."""
        most = self.points[-1].gained if self.points else None
        return Trace(
            "gained",
            most,
            f"1 - {self.scale} of the week with moves / of the week that moves least, "
            "wind of the minutes counted; each week searched with its cost of a move",
            "definition",
        )


def move_curve(
    site: Site,
    history: History,
    zones: Sequence[WateredZone],
    *,
    winds: SitePackageWind | None = None,
) -> MoveCurve:
    """What is gained by moving more of last week's waterings.

    Parameters
    ----------
    site : Site
        As of `night_plan`.
    history : History
        With the issued weeks; the newest before this one is what is kept.
    zones : sequence of WateredZone
        Each zone's nights, cycles and soaks.
    winds : SitePackageWind, optional
        What wind does to the packages.

    Returns
    -------
    MoveCurve
        One point for each cost of a move that leads to another week.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> move_curve(Site(name="a", units="us", place=place), History(), ()).why
    'no zone is watered'
    """
    running = [one for one in zones if one.cycles and one.cycle_minutes and one.days]
    if not running:
        return MoveCurve((), 0, "no zone is watered")
    missing = no_plan_findings(site)
    if missing:
        (one, *_) = missing
        why = f"no night plan is made ({one.where}): {one.fix.split(': ')[-1]}"
        return MoveCurve((), 0, why)
    start = begin_nights(site, history, running, winds or SitePackageWind({}))
    last = last_week_places(history, start.week, start.hours)
    if not last:
        return MoveCurve((), 0, "no earlier issued week tells its starts")
    found = weeks_of_moves(start.week, last)
    price = start.price.mean_money_per_m3
    return MoveCurve(
        tuple(_point(one, found[0].cost, price) for one in found),
        max(one.known for one in found),
        scale="water" if price is None else "money",
    )


@dataclass(frozen=True, slots=True)
class MovedWeek:
    """A week searched with one cost of a move; its cost is in litres as priced."""

    share: float
    unplaced: int
    moved: int
    known: int
    cost: float


def weeks_of_moves(
    week: WeekJobs, last: Mapping[int, Sequence[Placed]], *, rounds: int = ROUNDS
) -> tuple[MovedWeek, ...]:
    """The week searched with one cost of a move after the other.

    Parameters
    ----------
    week : WeekJobs
        Jobs and grids of the nights.
    last : mapping of int to sequence of Placed
        Where waterings stood, by night.
    rounds : int
        Rounds of each search.

    Returns
    -------
    tuple of MovedWeek
        From few moves to many, each cheaper than the one before; what is not placed
        comes first.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.watering.timetable import Grid, Job
    >>> falling = np.linspace(2.0, 1.0, 60)[None, None]
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), falling, 100.0)
    >>> week = WeekJobs(((Job("Z1", 1, 20, 0, 60.0, must=(0,)),),), (grid,), {}, ())
    >>> found = weeks_of_moves(week, {0: [Placed(0, (0,), "Z1")]})
    >>> [(one.moved, round(one.cost)) for one in found]
    [(0, 2207), (1, 1393)]
    """
    return _rising([_whole(week, last, share, rounds) for share in CURVE])


def _whole(
    week: WeekJobs, last: Mapping[int, Sequence[Placed]], share: float, rounds: int
) -> MovedWeek:
    """All nights at one cost of a move; nights alike are searched once."""
    done: dict[object, Kept] = {}
    nights = []
    for n, (jobs, grid) in enumerate(zip(week.jobs, week.grids, strict=True)):
        if not jobs:
            continue
        places = tuple(last.get(n, ()))
        key = (jobs, grid.is_open.tobytes(), grid.cost.tobytes(), places)
        if key not in done:
            water = [
                job.cycles * job.cycle_min * (job.flow_l_per_min or 1.0) for job in jobs
            ]
            per_move = share * sum(water) / len(water)
            found = repacked(jobs, grid, places, per_move=per_move, rounds=rounds)
            if found.timetable.unplaced:  # as in the plan: soaks may then be long
                far = [replace(job, most_soak_min=None) for job in jobs]
                found = repacked(far, grid, places, per_move=per_move, rounds=rounds)
            done[key] = found
        nights.append(done[key])
    return MovedWeek(
        share,
        sum(len(one.timetable.unplaced) for one in nights),
        sum(one.moved for one in nights),
        sum(one.known for one in nights),
        sum(one.timetable.cost for one in nights),
    )


def _rising(found: Sequence[MovedWeek]) -> tuple[MovedWeek, ...]:
    """Weeks that gain more for more moves; what is not placed comes first."""
    ordered = sorted(found, key=lambda one: (one.unplaced, one.moved, one.cost))
    kept: list[MovedWeek] = []
    for one in ordered:
        is_as_full = not kept or one.unplaced == kept[0].unplaced
        if is_as_full and (not kept or one.cost < kept[-1].cost):
            kept.append(one)
    return tuple(kept)


def _point(one: MovedWeek, least: float, money_per_m3: float | None) -> MovePoint:
    saved = (least - one.cost) / L_PER_M3
    return MovePoint(
        moved=one.moved,
        share=one.share,
        gained=1.0 - one.cost / least if least > 0 else 0.0,
        gained_m3=saved if money_per_m3 is None else None,
        gained_money=None if money_per_m3 is None else saved * money_per_m3,
        unplaced=one.unplaced,
    )
