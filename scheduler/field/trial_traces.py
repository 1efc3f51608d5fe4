"""A pair of packages, or a pattern of heads in; where its numbers come from out."""

import math

from scheduler.field.overlap import Pattern
from scheduler.field.profile import Profile
from scheduler.field.trial import Comparison
from scheduler.trace import Trace, entered


def pair_traces(found: Comparison, wind_from: str = "") -> tuple[Trace, ...]:
    """Traces of what a comparison of two packages says.

    Parameters
    ----------
    found : Comparison
        Package a against package b at one wind.
    wind_from : str
        Where that wind comes from.

    Returns
    -------
    tuple of Trace
        The difference, the DU of each line, and the wind of the tie.

    References
    ----------
    Source: definition; each trace names its own.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.field.trial import PackageRuns, comparison
    >>> wind, day = np.array([1.0, 2.0, 1.0, 2.0]), np.array([1, 1, 2, 2])
    >>> a = PackageRuns("a", wind, 0.9 - 0.1 * wind, day)
    >>> b = PackageRuns("b", wind, 0.8 - 0.1 * wind, day)
    >>> found = comparison(a, b, wind_m_per_s=1.0)
    >>> pair_traces(found)[0].name, round(pair_traces(found)[0].value, 2)
    ('du_difference', 0.1)
    """
    wind = entered("wind_m_per_s", found.wind_m_per_s, wind_from)
    lines = tuple(
        Trace(
            f"du_lq[{name}]",
            value,
            "DU of the line of this package's runs against wind, at wind_m_per_s",
            "least squares, days as what repeats: Bell and McCaffrey, 2002",
            (wind,),
            "outside the tested wind" if found.is_extrapolated else "",
        )
        for name, value in ((found.a, found.du_a), (found.b, found.du_b))
    )
    apart = Trace(
        "du_difference",
        found.difference,
        f"DU of {found.a} less DU of {found.b}, at wind_m_per_s",
        f"range: {found.method}",
        lines,
        f"{found.low:.2f} to {found.high:.2f}; {found.verdict}: {found.why}",
    )
    tie = Trace(
        "tie_wind_m_per_s",
        found.tie_wind_m_per_s,
        "wind at which both lines are equal: difference without wind over the "
        "difference of the slopes",
        "Fieller, 1954",
        lines,
    )
    return apart, *lines, tie


def pattern_traces(found: Pattern, profile: Profile) -> tuple[Trace, ...]:
    """Traces of what heads at one spacing make of a profile.

    Parameters
    ----------
    found : Pattern
        The pattern.
    profile : Profile
        What one head was seen to throw.

    Returns
    -------
    tuple of Trace
        Uniformity, low half, Christiansen's, the mean and the lowest rate, and the
        scheduling coefficient.

    References
    ----------
    Source: definition; each trace names its own.

    Examples
    --------
    >>> from scheduler.field.overlap import pattern
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [10.0, 0.0], minutes=60)
    >>> at = pattern(cone, spacing_m=10.0, row_spacing_m=14.0, layout="rectangular")
    >>> [trace.name for trace in pattern_traces(at, cone)][:2]
    ['du_lq', 'du_lh']
    """
    inputs = (
        entered("throw_m", profile.throw_m, "package.profile"),
        entered("flow_l_per_min", profile.flow_l_per_min, "package.profile"),
        entered("spacing_m", found.spacing_m, f"tried, {found.layout}"),
        entered("row_spacing_m", found.row_spacing_m, f"tried, {found.layout}"),
    )
    laid = "the cans of one head laid over each other at this spacing"
    sources = (
        ("du_lq", found.du_lq, "driest quarter over the mean of the ground between "
         "heads", "Univ. Florida; UC Davis"),
        ("du_lh", found.du_lh, "drier half over the mean of the ground between heads",
         "von Bernuth and Mecham, Defining the run time multiplier"),
        ("cu", found.cu, "1 less the mean distance from the mean over the mean",
         "Christiansen 1942, as in Zoldoske, Solomon and Norum, 1994"),
        ("mean_rate_mm_per_h", found.mean_rate_mm_per_h,
         "flow of one head over the ground of one head", "definition"),
        ("lowest_rate_mm_per_h", found.lowest_rate_mm_per_h,
         "rate of the driest cell of the ground between heads", "definition"),
        ("scheduling_coefficient", found.scheduling_coefficient,
         f"mean rate over that of the driest window of {found.window_share:.0%} of "
         "the ground of a head", "common practice, no source"),
    )  # fmt: skip
    return tuple(
        # a window that stays dry has no coefficient
        Trace(
            name,
            value if math.isfinite(value) else None,
            f"{formula}; {laid}",
            source,
            inputs,
        )
        for name, value, formula, source in sources
    )
