"""Tests, trials and statements in; what is known of DU now and then, drawn, out."""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import QuantityError
from scheduler.field.evaluation import evaluated_site
from scheduler.field.evidence import is_of_other_package
from scheduler.field.feeding import feeding_tests
from scheduler.field.guess import ZoneCatch
from scheduler.field.nights import night_ranges
from scheduler.field.package_trial import Pair, package_trial
from scheduler.field.ranges import STATED, cell_ranges
from scheduler.field.student import student_factor
from scheduler.option import Option
from scheduler.record import CanTest, History
from scheduler.site import Site, Zone

# fewer days say nothing of how days differ (t on two days is no range at all)
LEAST_DAYS = 3
RESAMPLES = 2_000
TRIAL_LEVEL = 0.95
# drawn uniformities are kept where factors are finite
LEAST_DU, MOST_DU = 0.05, 0.999


@dataclass(frozen=True, slots=True)
class KnownDu:
    """What is known of a uniformity.

    Attributes
    ----------
    du_lq : float
        Best single number. [-]
    low, high : float or None
        Its range; None where nobody knows. [-]
    level : float
        How often such a range holds the truth.
    n_days : int
        Days that it was tested on; 0 where it was assumed.
    source : str
        From where, in words.
    caution : str
        Why it cannot be trusted for a verdict; empty where it can.
    is_difference : bool
        Whether `low` and `high` are those of the difference to now, tested in the same
        wind: then the number is that of now plus the difference.
    """

    du_lq: float
    low: float | None
    high: float | None
    level: float
    n_days: int
    source: str
    caution: str = ""
    is_difference: bool = False


def known_now(
    zone: Zone,
    catch: ZoneCatch,
    tests: Sequence[CanTest],
    today: dt.date,
    stated: Option | None = None,
) -> KnownDu:
    """What is known of a zone's uniformity as it is.

    Parameters
    ----------
    zone : Zone
        The zone.
    catch : ZoneCatch
        What feeds its season.
    tests : sequence of CanTest
        All tests of the site.
    today : date
        Tests of later days are left out.
    stated : Option, optional
        The option to do nothing, where it states a uniformity: it is taken.

    Returns
    -------
    KnownDu
        Two runs or more: on as many other nights; one run: that cell in that run.

    References
    ----------
    Source: definition; ranges as `night_ranges` and `cell_ranges`.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.58)
    >>> now = known_now(zone, assumed(zone, None)[0], (), dt.date(2026, 6, 8))
    >>> now.du_lq, now.low, now.n_days
    (0.58, None, 0)
    """
    if stated is not None and stated.du_lq is not None:
        return _stated(stated, stated.du_lq)
    if catch.basis != "measured":
        return KnownDu(catch.du_lq, None, None, STATED, 0, catch.basis)
    shares = catch.run_share
    if catch.n_runs >= 2:
        nights = night_ranges(shares, resamples=RESAMPLES).as_many_nights
        assert nights is not None, "there are two runs"
        found, words = nights, "this zone on as many other nights"
    else:
        found, words = cell_ranges(catch.share).du_lq, "this cell in this run"
    days = min(_days_tested(zone, tests, today), catch.n_runs)
    # the range is made about the runs' own number; it moves with that of the season
    return KnownDu(
        catch.du_lq,
        min(found.low, catch.du_lq),
        max(found.high, catch.du_lq),
        found.level,
        days,
        f"{catch.test or 'cans'}: {words}",
    )


def _stated(option: Option, du_lq: float) -> KnownDu:
    source = option.du_from or f"stated in option {option.id}"
    days = option.tested_days or 0
    return KnownDu(du_lq, option.du_lq_low, option.du_lq_high, STATED, days, source)


def _days_tested(zone: Zone, tests: Sequence[CanTest], today: dt.date) -> int:
    own = [
        one
        for one in tests
        if one.zone.casefold() == zone.id.casefold()
        and one.date <= today
        and not is_of_other_package(one, zone)
    ]
    if not own:
        return 0
    feeding = feeding_tests(own)
    return len(
        {
            run.start.date() if run.start else test.date
            for test in (*feeding.earlier, *feeding.newest)
            for run in test.runs
        }
    )


@dataclass(frozen=True, slots=True, eq=False)
class Trials:
    """What tests say of packages, worked up once for a site.

    Attributes
    ----------
    at_wind : dict
        By package: DU at the wind of the irrigation hours.
    pairs : tuple of Pair
        Packages held against each other at that wind.
    wind : str
        Where the wind comes from; empty where it is not known.
    """

    at_wind: dict[str, KnownDu]
    pairs: tuple[Pair, ...]
    wind: str

    def difference(self, new: str, old: str) -> tuple[Pair, float] | None:
        """The pair of two packages, and the sign that makes it new less old."""
        for one in self.pairs:
            if one.found is not None and {one.a, one.b} == {new, old}:
                return one, 1.0 if one.a == new else -1.0
        return None


def package_trials(site: Site, history: History) -> Trials:
    """What the tests say of every package, at the wind of the irrigation hours.

    Parameters
    ----------
    site : Site
        Packages, zones and windows.
    history : History
        Tests and wind logs.

    Returns
    -------
    Trials
        Without known wind, the mean of the runs, with the t on days.

    References
    ----------
    Source: definition; `package_trial` names its own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> package_trials(Site(name="a", units="us", place=here), History()).at_wind
    {}
    """
    plain = _plain_means(site, history)
    try:
        trial = package_trial(site, history)
    except QuantityError:
        return Trials(plain, (), "")
    known = dict(plain)
    for tests, one in zip(trial.packages, trial.expected, strict=True):
        du = one.at_wind
        if du is None:
            continue
        caution = ""
        if du.is_extrapolated:
            caution = "extrapolated to a wind that it was never tested in"
        known[one.package] = KnownDu(
            du.du_lq, du.low, du.high, TRIAL_LEVEL, tests.n_days,
            "its runs, on their line against wind", caution,
        )  # fmt: skip
    return Trials(known, trial.pairs, trial.wind_from)


def _plain_means(site: Site, history: History) -> dict[str, KnownDu]:
    """DU of each package, by days, whatever the wind."""
    by_day: dict[str, dict[dt.date, list[float]]] = {}
    for test in evaluated_site(site, history, with_ranges=False):
        if test.package:
            days = by_day.setdefault(test.package, {})
            days.setdefault(test.date, []).extend(
                run.uniformity.du_lq for run in test.runs
            )
    return {
        name: _mean_of_days(np.array([np.mean(one) for one in days.values() if one]))
        for name, days in by_day.items()
        if any(days.values())
    }


def _mean_of_days(by_day: FloatArray) -> KnownDu:
    mean, low, high = float(by_day.mean()), None, None
    if by_day.size >= LEAST_DAYS:
        error = float(by_day.std(ddof=1)) / math.sqrt(by_day.size)
        half = student_factor(by_day.size - 1, STATED) * error
        low, high = max(mean - half, LEAST_DU), min(mean + half, MOST_DU)
    words = "mean of its days of tests, whatever the wind"
    return KnownDu(mean, low, high, STATED, int(by_day.size), words)


def known_then(
    option: Option, zone: Zone, now: KnownDu, trials: Trials
) -> KnownDu | None:
    """What is known of a zone's uniformity once an option is done.

    Parameters
    ----------
    option : Option
        The option.
    zone : Zone
        The zone.
    now : KnownDu
        As it is.
    trials : Trials
        What tests say of packages.

    Returns
    -------
    KnownDu or None
        The difference of both packages in one wind where they were tested so, else
        the package's own tests, else what the option states; None where nothing is.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> stated = Option(id="B", name="b", deed="re-space", zones=("a",), du_lq=0.78)
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> now = KnownDu(0.58, None, None, 0.9, 0, "assumed")
    >>> known_then(stated, zone, now, Trials({}, (), "")).du_lq
    0.78
    """
    if option.package is not None and option.package != zone.package:
        pair = trials.difference(option.package, zone.package or "")
        if pair is not None and not pair[0].is_apart:
            return _by_difference(now, *pair)
        tested = trials.at_wind.get(option.package)
        if tested is not None:
            return tested
    if option.du_lq is None:
        return None
    return _stated(option, option.du_lq)


def _by_difference(now: KnownDu, pair: Pair, sign: float) -> KnownDu:
    found = pair.found
    assert found is not None, "the caller has looked"
    ends = sorted((sign * found.low, sign * found.high))
    is_known = all(map(math.isfinite, ends))
    cautions = [
        words
        for is_so, words in (
            (found.is_extrapolated, "extrapolated to a wind not tested by both"),
            (found.is_too_short, f"tested on {found.n_days} days"),
        )
        if is_so
    ]
    du = min(max(now.du_lq + sign * found.difference, LEAST_DU), MOST_DU)
    return KnownDu(
        du,
        ends[0] if is_known else None,
        ends[1] if is_known else None,
        TRIAL_LEVEL,
        found.n_days,
        "now, plus the tested difference of both packages in one wind",
        "; ".join(cautions),
        is_difference=True,
    )


def drawn_du(
    known: KnownDu, rng: np.random.Generator, size: int, now: FloatArray | None = None
) -> FloatArray:
    """Uniformities as they may truly be.

    Parameters
    ----------
    known : KnownDu
        Number and range.
    rng : Generator
        Source of chance.
    size : int
        How many.
    now : array of shape (size,), optional
        Drawn uniformities of now, which a difference is added to. [-]

    Returns
    -------
    array of shape (size,)
        Drawn on log(1 - DU), where ranges are made, from Student's t on the days; all
        the same where no range is known. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> drawn_du(KnownDu(0.6, None, None, 0.9, 0, ""), np.random.default_rng(1), 2)
    array([0.6, 0.6])
    """
    if known.low is None or known.high is None:
        return np.full(size, known.du_lq)
    degrees = max(known.n_days - 1, 1)
    t = rng.standard_t(degrees, size) / student_factor(degrees, known.level)
    if known.is_difference:
        assert now is not None, "a difference is to something"
        middle = 0.5 * (known.low + known.high)
        du = now + middle + t * 0.5 * (known.high - known.low)
        return np.clip(du, LEAST_DU, MOST_DU)
    centre, low, high = (
        math.log(1.0 - min(one, MOST_DU))
        for one in (known.du_lq, known.low, known.high)
    )
    # a low DU is a large log(1 - DU)
    width = np.where(t > 0, low - centre, centre - high)
    return np.clip(1.0 - np.exp(np.minimum(centre + t * width, 0.0)), LEAST_DU, MOST_DU)
