"""What a page shows in; every number of it that can be explained, the main ones first.

The numbers are the engine's own traces: nothing is computed here.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from tui.session import Session, zone_plan

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.field.overlap import Pattern
    from scheduler.money.economics import SiteCost
    from scheduler.money.option_nights import OptionNights
    from scheduler.money.retrofit import OptionResult
    from scheduler.trace import Trace
    from tui.field_state import Packages, SpacingMap

WEEK = (
    "minutes_per_day", "need_mm", "gross_depth_mm", "factor", "du_lq",
    "net_rate_mm_per_h", "cycles", "cycle_minutes", "soak_minutes", "limit_minutes",
    "minutes_exact", "etc_mm", "kc", "eto_mm", "effective_rain_mm", "rain_mm",
)  # fmt: skip
NEED = (
    "need_mm", "eto_mm", "kc", "etc_mm", "effective_rain_mm", "start_depletion_mm",
    "allowed_depletion_mm", "total_available_water_mm",
)  # fmt: skip


def main_first(
    chains: "Iterable[Trace]", names: Iterable[str] = ()
) -> "tuple[Trace, ...]":
    """Every number of these chains once: those named, the ends, then what they use."""
    ends = tuple(chains)
    every = {one.name: one for chain in ends for one in chain.chain()}
    order = [name for name in names if name in every]
    order += [one.name for one in ends]
    order += reversed(every)
    return tuple(every[name] for name in dict.fromkeys(order))


def of_zone(session: Session, zone_id: str, names: Iterable[str] = WEEK) -> "Numbers":
    """Numbers of one zone's week."""
    plan = zone_plan(session, zone_id)
    if plan is None:
        return ()
    return main_first(
        plan.chains, (plan.trace.name, *names) if names is WEEK else names
    )


def of_need(session: Session, zone_id: str) -> "Numbers":
    """Numbers of one zone's week, the need first."""
    return of_zone(session, zone_id, NEED)


def of_nights(session: Session, zone_id: str) -> "Numbers":
    """Numbers that sum up the nights, then those of the zone in front."""
    night = session.plan.night if session.plan is not None else None
    own = night.traces if night is not None else ()
    names = [one.name for one in own]
    return main_first((*own, *of_zone(session, zone_id)), (*names, *WEEK))


def of_test(test: "TestEvaluation", run: str = "") -> "Numbers":
    """Numbers of one run of a test; of its last run where none is named."""
    from scheduler.field.run_traces import run_traces

    runs = [one for one in test.runs if one.run == run] or list(test.runs[-1:])
    return main_first(run_traces(runs[0], test.test)) if runs else ()


def of_packages(found: "Packages", names: tuple[str, ...]) -> "Numbers":
    """Numbers of the pair that is drawn."""
    from scheduler.field.trial_traces import pair_traces

    pair = next((o for o in found.trial.pairs if (o.a, o.b) == names), None)
    if pair is None or pair.found is None or not found.has_wind:
        return ()
    return main_first(pair_traces(pair.found, found.trial.wind_from))


def of_spacing(found: "SpacingMap", at: "Pattern") -> "Numbers":
    """Numbers of the spacing under the cursor."""
    from scheduler.field.trial_traces import pattern_traces

    return main_first(pattern_traces(at, found.profile.profile))


def of_cost(
    cost: "SiteCost",
    picked: "OptionResult | None",
    nights: "OptionNights | None" = None,
) -> "Numbers":
    """Numbers of the option in front, its quarters and nights, then of every zone."""
    ends: list[Trace] = []
    if picked is not None:
        ends += [picked.own.trace] if picked.own is not None else []
        ends.append(picked.outlay.trace)
    numbers = main_first(ends) if ends else ()
    if picked is not None:
        numbers += _named((one.zone, one.traces) for one in picked.quarters)
    if nights is not None:
        fits = (
            ("the week now", nights.week_now),
            ("the week then", nights.week_then),
            ("the fullest night now", nights.full_now),
            ("the fullest night then", nights.full_then),
        )
        numbers += _named((name, one.traces) for name, one in fits if one is not None)
    # every zone has numbers of the same names: each goes by its zone
    return (*numbers, *(_of(one.zone_id, one.trace) for one in cost.zones))


def _named(chains: "Iterable[tuple[str, Numbers]]") -> "Numbers":
    """Numbers of several chains of the same names, each by what it is of."""
    return tuple(_of(name, one) for name, ends in chains for one in main_first(ends))


def _of(zone_id: str, trace: "Trace") -> "Trace":
    from dataclasses import replace

    return replace(trace, name=f"{trace.name}[{zone_id}]")


Numbers = tuple["Trace", ...]
