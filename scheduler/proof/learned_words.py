"""A learned correction in; its trace and what must be said of it out."""

import datetime as dt
from collections import Counter
from collections.abc import Sequence

from scheduler.errors import Finding
from scheduler.proof.learning import FADING_DAYS, LEVEL, Learned, Observation
from scheduler.proof.observed import SeenWeights
from scheduler.proof.resets import Resets
from scheduler.trace import Trace, entered

# older looks are in the trace, and no news any more (common practice, no source)
SAID = dt.timedelta(days=28)
SOURCE = "learned from the log; balance of water"


def evidence_text(used: Sequence[Observation]) -> str:
    """What a correction rests on, counted by kind.

    Parameters
    ----------
    used : sequence of Observation
        In any order.

    Returns
    -------
    str
        In words; `nothing` for none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> evidence_text(())
    'nothing'
    """
    names = {
        "leaching check": ("1 leaching check", "leaching checks"),
        "pot weights": ("1 weighed day", "weighed days"),
        "meter": ("1 week of the meter", "weeks of the meter"),
    }
    counted = Counter(one.kind for one in used)
    parts = [
        names[kind][0] if counted[kind] == 1 else f"{counted[kind]} {names[kind][1]}"
        for kind in ("leaching check", "pot weights", "meter")
        if counted[kind]
    ]
    return ", ".join(parts) or "nothing"


def learned_trace(
    learnt: Learned,
    factor: float,
    floor: float | None,
    *,
    why_not: str,
    resets: Resets,
) -> Trace:
    """Where a correction came from, down to the lines of the log.

    Parameters
    ----------
    learnt : Learned
        As it stands.
    factor : float
        What is used of it. [-]
    floor : float or None
        Least factor that the driest pot allows. [-]
    why_not : str
        Why it is not used; empty where it is.
    resets : Resets
        What made older lines void.

    Returns
    -------
    Trace
        Named `kc_correction`.

    References
    ----------
    Source: as `learned`.

    Examples
    --------
    >>> import datetime as dt
    >>> nothing = Learned("minutes", dt.date(2026, 6, 8), 0.0, 0.2)
    >>> learned_trace(nothing, 1.0, None, why_not="", resets=Resets(None, None)).value
    1.0
    """
    looks = [_look(one) for one in learnt.used]
    inputs = (*looks, entered("driest_pot_floor", floor, "driest pots of fresh checks"))
    notes = [
        f"{learnt.low:.2f} to {learnt.high:.2f}, {LEVEL:.0%} sure; weight of the "
        f"evidence {learnt.weight:.2f}"
    ]
    if why_not:
        notes.append(f"{learnt.factor:.2f} was learned and is not used: {why_not}")
    notes += [f"held back: {one.ratio:.2f} of {one.where}" for one in learnt.held]
    notes += [
        f"nothing before {one.date} counts: {one.why} ({one.where})"
        for one in (resets.hardware, resets.standing)
        if one is not None
    ]
    return Trace(
        "kc_correction",
        factor,
        "measured over modelled use: what was entered (20 % either way) and each look "
        f"by its own error, fading over {FADING_DAYS:.0f} days; not below "
        "driest_pot_floor where it cuts",
        SOURCE,
        inputs if floor is not None else tuple(looks),
        "; ".join(notes),
    )


def _look(seen: Observation) -> Trace:
    least = "at least: a pot drained nothing; " if seen.is_at_least else ""
    name = f"use_ratio[{seen.date} {seen.kind}, {seen.where}]"
    note = f"{least}error {seen.sd:.0%}"
    return Trace(name, seen.ratio, "measured over modelled use", seen.kind, (), note)


def learned_findings(
    where: str,
    learnt: Learned,
    factor: float,
    why_not: str,
    weights: Sequence[SeenWeights],
) -> tuple[Finding, ...]:
    """What must be said of a correction.

    Parameters
    ----------
    where : str
        The zone, as findings name it.
    learnt : Learned
        As it stands.
    factor : float
        What is used of it. [-]
    why_not : str
        Why it is not used.
    weights : sequence of SeenWeights
        Weighed days.

    Returns
    -------
    tuple of Finding
        That it is used, or why not; looks that stand against all else; too few pots.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> nothing = Learned("minutes", dt.date(2026, 6, 8), 0.0, 0.2)
    >>> learned_findings("zone Z4", nothing, 1.0, "", ())
    ()
    """
    since = learnt.on - SAID
    found = [_held(one, where) for one in learnt.held if one.date >= since]
    found += [
        _few(one, where)
        for one in weights
        if not one.day.is_enough and one.day.date >= since
    ]
    if not learnt.used:
        return tuple(found)
    told = (
        f"{learnt.factor:.2f} ({learnt.low:.2f} to {learnt.high:.2f}, {LEVEL:.0%} "
        f"sure) from {evidence_text(learnt.used)}"
    ).replace("%", " %")
    if why_not:
        what = f"{told}; it is not used: {why_not}"
        fix = "settle that, and the week follows what was learned"
        found.append(Finding("note", where, what, fix))
    elif factor != 1.0:
        what = f"{told}: the plan's use is multiplied with {factor:.2f}"
        if factor > learnt.factor:
            what += ", for the driest pot allows no deeper cut"
        fix = "nothing to do; a line taken out of the log, or learn = false in "
        fix += "site.toml, takes it back"
        found.append(Finding("note", where, what, fix))
    return tuple(found)


def _held(seen: Observation, where: str) -> Finding:
    what = (
        f"{seen.where}: this {seen.kind} says {seen.ratio:.2f} of the modelled use and "
        "stands against what was entered and all else: not learned yet"
    )
    return Finding("warning", where, what, "do it again; a second one counts with it")


def _few(seen: SeenWeights, where: str) -> Finding:
    what = (
        f"{seen.day.where}: one pot weighed: it used {seen.day.mean_loss_ml:.0f} mL "
        f"in the day, Kc {seen.kc_on_pot_top:.2f} on the pot top; one plant teaches "
        "nothing of a zone"
    )
    return Finding("note", where, what, "weigh three pots or more")
