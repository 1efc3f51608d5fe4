"""The nights in one line in, where each of its numbers comes from out."""

from scheduler.trace import Trace, entered
from scheduler.watering.night_plan.result import NightSummary


def summary_traces(
    summary: NightSummary, wind_from: str, price_from: str = "water alone"
) -> tuple[Trace, ...]:
    """Traces of the numbers that sum up the nights.

    Parameters
    ----------
    summary : NightSummary
        The numbers.
    wind_from : str
        Where the wind of the minutes comes from.
    price_from : str
        What minutes are compared by.

    Returns
    -------
    tuple of Trace
        `peak_flow_l_per_min`, `minutes_short` and `gap_to_bound`.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> empty = NightSummary(True, 0, 0.01, "fill", 90.0, 100.0, 1, ())
    >>> [one.name for one in summary_traces(empty, "no wind log")]
    ['peak_flow_l_per_min', 'minutes_short', 'gap_to_bound']
    """
    pump = entered("pump_l_per_min", summary.pump_l_per_min, "site.toml: supply")
    peak = Trace(
        "peak_flow_l_per_min",
        summary.peak_flow_l_per_min,
        "highest sum, over the minutes of the week, of the flows of zones that run",
        "definition",
        (pump,),
        "zones of unknown flow count as 0",
    )
    short = Trace(
        "minutes_short",
        summary.minutes_short,
        "of the worst night: fewest minutes found with free starts, less its window",
        "definition",
        (pump,),
    )
    gap = Trace(
        "gap_to_bound",
        summary.gap_to_bound,
        f"{summary.scale} of the timetable, wind of its minutes counted, over the "
        f"least that any timetable can need ({summary.bound_kind or 'no'} bound), "
        "less 1",
        "Fisher 1981, Management Science 27(1):1-18 (Lagrangian bound), from memory",
        (pump,),
        f"wind by minute: {wind_from}; compared by {price_from}",
    )
    return peak, short, gap
