"""The nights by the clock in; whether they fit, and the worst overlap, out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scheduler.errors import Finding
from scheduler.money.power import PowerWeek, power_week
from scheduler.said import day_text
from scheduler.site import Site
from scheduler.trace import Trace
from scheduler.watering.night_plan import NightPlan
from scheduler.watering.night_plan.result import NightWindow


@dataclass(frozen=True, slots=True)
class NightFit:
    """The nights of all zones together.

    Attributes
    ----------
    when : date
        The fullest of the nights.
    fits : bool
        Whether every watering has its place, and no zone asks more than the pump gives.
    minutes_short : int
        Minutes by which the window of the worst night is too short. [min]
    longest_min, window_min : int
        Of the fullest night: fewest minutes that its waterings take, and minutes of its
        window. [min]
    peak_flow_l_per_min : float
        Worst overlap of flows. [L/min]
    pump_l_per_min : float or None
        What the pump gives. [L/min]
    most_valves : int
        Most valves open together.
    stops : tuple of Finding
        What does not fit, each with its ranked ways out.
    power : PowerWeek
        What the pump draws in these hours.
    left_out : tuple of str
        Zones that water, perhaps, and are not in it.
    traces : tuple of Trace
        Minutes of the fullest night, minutes short, and worst overlap.
    """

    when: dt.date
    fits: bool
    minutes_short: int
    longest_min: int
    window_min: int
    peak_flow_l_per_min: float
    pump_l_per_min: float | None
    most_valves: int
    stops: tuple[Finding, ...]
    power: PowerWeek
    left_out: tuple[str, ...] = ()
    traces: tuple[Trace, ...] = ()


def night_fit(
    night: NightPlan | None,
    site: Site,
    *,
    extra_head_m: Mapping[str, float] | None = None,
    left_out: Sequence[str] = (),
) -> NightFit | None:
    """Whether nights fit, and what they draw.

    Parameters
    ----------
    night : NightPlan or None
        The nights.
    site : Site
        Pump and tariff.
    extra_head_m : mapping of str to float, optional
        By zone: head that it asks for above that of the site. [m]
    left_out : sequence of str
        Zones that are not in it.

    Returns
    -------
    NightFit or None
        None where no night was laid out.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> night_fit(None, Site(name="a", units="us", place=here)) is None
    True
    """
    if night is None or night.summary.fits is None or not night.summary.windows:
        return None
    summary = night.summary
    stops = _stops(night)
    fullest = max(
        summary.windows, key=lambda one: (one.free_minutes or 0, one.used_minutes)
    )
    fits = bool(summary.fits) and not stops
    # by itself a plan fills the window with its calm minutes
    longest = fullest.free_minutes or fullest.used_minutes
    made = NightFit(
        when=fullest.night,
        fits=fits,
        minutes_short=summary.minutes_short or 0,
        longest_min=longest,
        window_min=fullest.minutes,
        peak_flow_l_per_min=max(
            summary.peak_flow_l_per_min or 0.0, *_without_place_l_per_min(night)
        ),
        pump_l_per_min=summary.pump_l_per_min,
        most_valves=summary.most_valves,
        stops=stops,
        power=_power(night, site, extra_head_m),
        left_out=tuple(left_out),
    )
    return replace(made, traces=_traces(made, night, fullest))


def _traces(
    made: NightFit, night: NightPlan, fullest: NightWindow
) -> tuple[Trace, ...]:
    """What the three numbers of the nights rest on."""
    window = Trace(
        "window_min", made.window_min,
        f"of {day_text(made.when, '%a %d %b')}: "
        f"{fullest.start:%H:%M} to {fullest.end:%H:%M}",
        "definition",
    )  # fmt: skip
    formula = "from the start of window_min to the end of the last zone"
    if fullest.free_minutes:
        formula = "fewest minutes found for its waterings, starts free"
    longest = Trace(
        "longest_min", made.longest_min, f"of the fullest night: {formula}",
        "definition", (window,),
    )  # fmt: skip
    by_name = {one.name: one for one in night.traces}
    rest = []
    for name, value in (
        ("minutes_short", made.minutes_short),
        ("peak_flow_l_per_min", made.peak_flow_l_per_min),
    ):
        if (one := by_name.get(name)) is not None:
            rest.append(replace(one, value=value))
    if night.unplaced and rest:
        lone = "or the flow of one zone that found no place, where that is higher"
        rest[-1] = replace(rest[-1], formula=f"{rest[-1].formula}; {lone}")
    return longest, *rest


def _stops(night: NightPlan) -> tuple[Finding, ...]:
    """What does not fit; a zone that asks more than the pump gives says it all."""
    stops = [one for one in night.findings if one.level == "stop"]
    if any(one.where.startswith("zone ") for one in stops):
        is_short = bool(night.summary.minutes_short)
        stops = [one for one in stops if is_short or one.where != "night plan"]
    return tuple(stops)


def _without_place_l_per_min(night: NightPlan) -> tuple[float, ...]:
    """Flow of each zone without room; 0 first."""
    flow = night.board.week.flow if night.board else {}
    return 0.0, *(flow.get(zone) or 0.0 for zone, _ in night.unplaced)


def _power(
    night: NightPlan, site: Site, extra_head_m: Mapping[str, float] | None
) -> PowerWeek:
    if not night.unplaced:
        return power_week(site, night.runs, extra_head_m)
    names = ", ".join(dict.fromkeys(zone for zone, _ in night.unplaced))
    why = f"waterings of {names} have no place"
    return PowerWeek(None, None, (), None, None, 0.0, None, why)
