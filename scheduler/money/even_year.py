"""A zone's season and another evenness in; what that year puts on and lacks, out.

Asked again at every what-if of a price, which changes none of it; so each year is run
once for as long as there is the season.
"""

from dataclasses import dataclass
from weakref import WeakKeyDictionary

from scheduler.arrays import FloatArray, frozen
from scheduler.money.factors import Evenness, at_evenness
from scheduler.season import ZoneSeason
from scheduler.watering.season_run import season_run
from scheduler.watering.season_run.saved import driest_quarter_stress_days


@dataclass(frozen=True, slots=True, eq=False)
class EvenYear:
    """One zone's season with other shares and another factor.

    Attributes
    ----------
    watered_mm : float
        Mean depth put on. [mm]
    applied_mm : array of shape (n_positions,)
        Put on at each position. [mm]
    deep_percolation_mm : float
        Mean that drained below the roots, rain included. [mm]
    stress_days : float
        Days of stress in the driest quarter. [days]
    """

    watered_mm: float
    applied_mm: FloatArray
    deep_percolation_mm: float
    stress_days: float


def even_year(season: ZoneSeason, even: Evenness, factor: float) -> EvenYear:
    """The year of a zone with other shares and another factor.

    Parameters
    ----------
    season : ZoneSeason
        A zone whose season was run.
    even : Evenness
        The other shares.
    factor : float
        Mean depth over need. [-]

    Returns
    -------
    EvenYear
        Run once for each evenness and factor of a season.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, at every catch position.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> from scheduler.watering.season_run import SeasonInput
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> catch = assumed(yard, None)[0]
    >>> ones, days = np.ones(1), np.ones((60, 1))
    >>> made = SeasonInput(
    ...     catch.share[None, :, None], 0.6 * ones, 5 * days, 0 * days, days > 0,
    ...     ones > 1, ones * np.nan, 40 * ones, 16 * ones, 0 * ones, ones, 999 * ones)
    >>> season = ZoneSeason(yard, (), input=made, catch=catch)
    >>> even = Evenness(np.ones(catch.share.size), 1.0, 1.0, None)
    >>> even_year(season, even, 1.0).watered_mm
    285.0
    """
    known = _YEARS.setdefault(season, {})
    # shares are drawn to or from the mean by `pull`, or are those of a bell
    shares = even.share.tobytes() if even.pull is None else even.pull
    if (shares, factor) not in known:
        known[shares, factor] = _run(season, even, factor)
    return known[shares, factor]


_YEARS: WeakKeyDictionary[ZoneSeason, dict[tuple[bytes | float, float], EvenYear]]
_YEARS = WeakKeyDictionary()


def _run(season: ZoneSeason, even: Evenness, factor: float) -> EvenYear:
    assert season.input is not None, "the caller has looked"
    made = at_evenness(season.input, even, factor)
    result = season_run(made)
    return EvenYear(
        float(result.watering_mm.sum()),
        frozen(result.applied_mm[:, 0].copy()),  # alone: the run is not kept for it
        float(result.percolation_mm.mean()),
        driest_quarter_stress_days(made, result),
    )
