"""What one zone's report is made from; every number in it comes from a room."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.field.next_steps import Step
    from scheduler.field.package_tests import PackageTests
    from scheduler.field.wind_line import WindLine
    from scheduler.money.water_cost import ZoneCost
    from scheduler.plan import ZonePlan
    from scheduler.record import CanTest
    from scheduler.units import System
    from scheduler.watering.run_time import RuleOutcome


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """One zone, its newest test, and the week that rests on it.

    Attributes
    ----------
    site : str
        Name of the site.
    units : {'us', 'metric'}
        What is shown.
    today : date
        The day of the report.
    test, read : TestEvaluation and CanTest
        The test worked up, and as it was read.
    plan : ZonePlan
        The zone's week.
    steps : tuple of Step
        What to do, cheapest first.
    package : PackageTests or None
        All runs of the package that stands there.
    line : WindLine or None
        Its DU against wind; None where no line can be drawn.
    usual_wind_m_per_s : float or None
        Wind of the irrigation hours. [m/s]
    next_test : date
        When to test again.
    cost : ZoneCost or None
        What uneven water costs in a year; None where no season could be run.
    year, currency : str
        The season, and the money of its prices; empty where there is none.
    others : tuple of TestEvaluation
        Earlier tests of the zone, newest first.
    """

    site: str
    units: System
    today: dt.date
    test: TestEvaluation
    read: CanTest
    plan: ZonePlan
    steps: tuple[Step, ...]
    package: PackageTests | None
    line: WindLine | None
    usual_wind_m_per_s: float | None
    next_test: dt.date
    cost: ZoneCost | None = None
    year: str = ""
    currency: str = ""
    others: tuple[TestEvaluation, ...] = ()

    @property
    def runs(self) -> tuple[RunEvaluation, ...]:
        """Runs that could be worked up."""
        return self.test.runs

    @property
    def stops(self) -> tuple[str, ...]:
        """Why the test cannot be used for run times; empty where it can."""
        return tuple(one.what for one in self.test.findings if one.level == "stop")

    @property
    def chosen(self) -> RuleOutcome | None:
        """The rule that the week's minutes follow."""
        return next((o for o in self.plan.rules if o.rule == self.plan.rule), None)


def counted(count: int, noun: str) -> str:
    """A count with its noun.

    Examples
    --------
    >>> counted(1, "run"), counted(24, "can")
    ('1 run', '24 cans')
    """
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def how_sure(told: Told) -> str:
    """How many runs, on how many days, in which wind: what the result rests on."""
    return rests_on(told.test)


def rests_on(test: TestEvaluation) -> str:
    """Runs of a test, their days and wind bands, in words."""
    runs = test.runs
    if not runs:
        return "no readings"
    bands = list(
        dict.fromkeys(one.wind.band if one.wind else "unknown" for one in runs)
    )
    days = test.together.n_days if test.together else 1
    wind = ", ".join(bands)
    return f"{counted(len(runs), 'run')} on {counted(days, 'day')}, wind {wind}"
