"""Exact minutes and an intake limit in, whole-minute cycles with soaks out."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, SchedulerError
from scheduler.root_zone.intake import IntakeModel, clearing_min, longest_cycle_min
from scheduler.trace import Trace, entered
from scheduler.units import shown

Rounding = Literal["nearest", "up", "down"]
# common practice, no source: starts 30 to 60 min apart where only first runoff is known
USUAL_SOAK_MIN = 30
MINUTES_PER_DAY = 1440
MIN_PER_H = 60.0
# binary dust that must not make a whole minute out of 15.000000001
ROUND_OFF = 1e-9


@dataclass(frozen=True, slots=True)
class Split:
    """One watering as the clock holds it.

    Attributes
    ----------
    cycles : int
        Runs of one watering; 0 when there is nothing to water.
    cycle_minutes : int
        Length of each run. [min]
    soak_minutes : int
        Pause between the end of one run and the start of the next. [min]
    minutes : int
        cycles x cycle_minutes. [min]
    limit_minutes : float or None
        Longest run before runoff; None without a limit. [min]
    trace : Trace
        Of `minutes_per_day`, with cycles, lengths and soak below it.
    findings : tuple of Finding
        What does not fit, and what was guessed.
    """

    cycles: int
    cycle_minutes: int
    soak_minutes: int
    minutes: int
    limit_minutes: float | None
    trace: Trace
    findings: tuple[Finding, ...] = ()


def wet_rate_mm_per_h(
    net_rate_mm_per_h: float, share: FloatArray, wet_share: float = 0.25
) -> float:
    """Rate that at most a chosen part of the area exceeds.

    Parameters
    ----------
    net_rate_mm_per_h : float
        Mean net precipitation rate. [mm/h]
    share : array of shape (n_positions,)
        Catch at each position over the mean catch. [-]
    wet_share : float
        Part of the positions that may pass their intake, 0 to 1. [-]

    Returns
    -------
    float
        Rate. [mm/h]

    References
    ----------
    Source: definition, on the measured catches.

    Examples
    --------
    >>> wet_rate_mm_per_h(10.0, np.array([0.6, 0.8, 1.2, 1.4]), 0.25)
    12.0
    """
    wettest_first = np.sort(share)[::-1]
    passed = math.floor(share.size * wet_share + ROUND_OFF)
    return net_rate_mm_per_h * float(wettest_first[min(passed, share.size - 1)])


def whole_minutes(minutes_exact: float, rounding: Rounding) -> int:
    """Minutes as a clock takes them.

    Parameters
    ----------
    minutes_exact : float
        Minutes, 0 or more. [min]
    rounding : {'nearest', 'up', 'down'}
        Half a minute goes up; above 0 there is always at least one minute.

    Returns
    -------
    int
        Whole minutes. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> whole_minutes(14.5, "nearest"), whole_minutes(0.2, "nearest")
    (15, 1)
    """
    if minutes_exact <= 0:
        return 0
    if rounding == "down":
        return max(math.floor(minutes_exact + ROUND_OFF), 1)
    up = math.ceil(minutes_exact - ROUND_OFF)
    nearest = math.floor(minutes_exact + 0.5 + ROUND_OFF)
    return max(up if rounding == "up" else nearest, 1)


def split(
    minutes_exact: float,
    *,
    model: IntakeModel,
    wet_rate_mm_per_h: float,
    min_soak_min: float | None,
    rounding: Rounding,
    max_cycles: int | None,
) -> Split:
    """Cut one watering into whole-minute cycles that do not run off.

    Parameters
    ----------
    minutes_exact : float
        Minutes of one watering. [min]
    model : IntakeModel
        What is known of the intake.
    wet_rate_mm_per_h : float
        Rate at the wet positions, as `wet_rate_mm_per_h` gives it. [mm/h]
    min_soak_min : float or None
        Shortest soak that somebody asked for. [min]
    rounding : {'nearest', 'up', 'down'}
        How a cycle becomes whole minutes.
    max_cycles : int or None
        Starts that the clock has for one night.

    Returns
    -------
    Split
        The fewest equal cycles within the limit. When the clock has too few starts,
        the cycles stay within the limit and the watering falls short, with a warning.

    Raises
    ------
    SchedulerError
        If the minutes are negative or not finite.

    References
    ----------
    .. [1] Surface storage method: landscape scheduling manuals, from memory.
    .. [2] Texas A&M, cycle and soak: starts 30 to 60 min apart (common practice).

    Examples
    --------
    >>> bay = IntakeModel("constant intake", None, 6.35, 2.54, entered("x", None))
    >>> one = split(43.5, model=bay, wet_rate_mm_per_h=15.748, min_soak_min=None,
    ...             rounding="nearest", max_cycles=4)
    >>> one.cycles, one.cycle_minutes, one.soak_minutes
    (3, 15, 23)
    """
    if not 0 <= minutes_exact < math.inf:
        raise SchedulerError(
            f"a watering of {minutes_exact:g} minutes", "give 0 or more minutes"
        )
    limit = longest_cycle_min(model, wet_rate_mm_per_h)
    cycles, length = _fewest(minutes_exact, _Ground(model, wet_rate_mm_per_h), rounding)
    said = _rate_findings(model, wet_rate_mm_per_h, limit)
    if model.kind == "curve":
        said += _curve_findings(model, wet_rate_mm_per_h, (cycles, length))
    said += model.storage_said if math.isfinite(limit) else ()
    if max_cycles is not None and cycles > max_cycles:
        said.append(_too_few_starts(model, (cycles, length), max_cycles, minutes_exact))
        cycles = max_cycles
        length = _longest(
            whole_minutes(minutes_exact / cycles, rounding),
            cycles,
            _Ground(model, wet_rate_mm_per_h),
        )
    soak, soak_trace, about_soak = _soak(
        model, wet_rate_mm_per_h, (cycles, length), min_soak_min
    )
    said += about_soak
    if cycles * (length + soak) - soak > MINUTES_PER_DAY:
        said.append(_longer_than_a_day(model, cycles * (length + soak) - soak))
    known = None if math.isinf(limit) else limit
    trace = _trace(minutes_exact, (cycles, length), known, (model, soak_trace))
    return Split(cycles, length, soak, cycles * length, known, trace, tuple(said))


@dataclass(frozen=True, slots=True)
class _Ground:
    """The intake and the rate at the wet positions."""

    model: IntakeModel
    rate_mm_per_h: float

    def last_limit(self, cycles: int, length: int) -> float:
        """Longest run of the last cycle, when all before it have gone in."""
        before = (cycles - 1) * length * self.rate_mm_per_h / MIN_PER_H
        return longest_cycle_min(self.model, self.rate_mm_per_h, infiltrated_mm=before)


def _fewest(minutes: float, ground: _Ground, rounding: Rounding) -> tuple[int, int]:
    """Fewest equal cycles whose rounded length keeps within the limit of the last."""
    if minutes <= 0:
        return 0, 0
    limit = ground.last_limit(1, 0)
    most = max(math.ceil(minutes - ROUND_OFF), 1)  # cycles of a minute
    least = min(ground.model.least_cycles, most)
    if limit < 1 or math.isinf(limit):  # whole minutes cannot keep below one minute
        return least, whole_minutes(minutes / least, rounding)
    cycles = max(math.floor(minutes / (_whole_limit(limit) + 1)), least)
    while cycles < most:
        length = whole_minutes(minutes / cycles, rounding)
        if length <= _whole_limit(ground.last_limit(cycles, length)):
            break
        cycles += 1
    return cycles, whole_minutes(minutes / cycles, rounding)


def _longest(length: int, cycles: int, ground: _Ground) -> int:
    """Longest cycle up to a length that runs off in none of them; at least a minute."""
    while length > 1 and length > _whole_limit(ground.last_limit(cycles, length)):
        length -= 1
    return length


def _whole_limit(limit: float) -> float:
    return math.floor(limit + ROUND_OFF) if math.isfinite(limit) else math.inf


def _curve_findings(
    model: IntakeModel, rate: float, run: tuple[int, int]
) -> list[Finding]:
    """A watering that runs off on its curve, however it is cut."""
    cycles, length = run
    if cycles == 0:
        return []
    most = _Ground(model, rate).last_limit(cycles, length)
    if length <= most + ROUND_OFF:
        return []
    what = (
        f"the wet positions get {_rate_text(rate)}: the last of {cycles} cycles of "
        f"{length} min runs off after {most:.1f} min, and a clock holds whole minutes"
    )
    fix = "lower the rate (smaller nozzles, wider spacing), or enter surface_storage"
    return [Finding("warning", model.where, what, fix)]


def _rate_findings(model: IntakeModel, rate: float, limit: float) -> list[Finding]:
    intake = model.intake_mm_per_h
    if model.kind == "first runoff" or intake is None or not rate > intake:
        return []
    wet, most = _rate_text(rate), _rate_text(intake)
    what = f"the wet positions get {wet}, more than the {model.word} of {most}"
    if model.kind == "usda rate":
        what = f"the wet positions get {wet}, above the highest rate of {most} by USDA"
    watch = "watch a run for the first runoff and enter first_runoff_min"
    if math.isinf(limit):
        what += "; how much may stand on the surface is not known, so one run is kept"
        return [Finding("warning", model.where, what, watch)]
    if limit < 1:
        what += f"; it runs off after {limit:.1f} min, and a clock holds whole minutes"
        fix = f"lower the rate (smaller nozzles, wider spacing), or {watch}"
        return [Finding("warning", model.where, what, fix)]
    if model.kind == "usda rate":
        return [
            Finding("warning", model.where, f"{what}; it is cut into cycles", watch)
        ]
    return []


def _rate_text(rate_mm_per_h: float) -> str:
    metric = shown(rate_mm_per_h, "mm_per_h", "metric")
    return f"{metric} ({shown(rate_mm_per_h, 'mm_per_h', 'us')})"


def _too_few_starts(
    model: IntakeModel, wanted: tuple[int, int], most: int, minutes: float
) -> Finding:
    cycles, length = wanted
    return Finding(
        "warning",
        model.where,
        f"{cycles} cycles of {length} min are needed, the clock has {most} starts a "
        f"night: the watering stays short of its {minutes:.0f} min",
        "allow more nights, use a second program, or correct max_starts_per_day",
    )


def _longer_than_a_day(model: IntakeModel, minutes: int) -> Finding:
    return Finding(
        "warning",
        model.where,
        f"one watering with its soaks takes {minutes} min, longer than a day",
        "allow more nights, or check rate, need and intake",
    )


def _soak(
    model: IntakeModel, rate: float, run: tuple[int, int], least: float | None
) -> tuple[int, Trace, list[Finding]]:
    """Time to clear what stands, or the stated minimum, or the usual half hour."""
    cycles, length = run
    if cycles <= 1:
        return 0, Trace("soak_minutes", 0, "one run needs no soak", "definition"), []
    stated = () if least is None else (entered("min_soak_min", least, "zone.intake"),)
    # the soak before the last cycle is the longest: the ground is wettest then
    before = max(cycles - 2, 0) * length * rate / MIN_PER_H
    clear = clearing_min(model, rate, length, infiltrated_mm=before)
    if clear is not None:
        soak = math.ceil(max(clear, least or 0.0) - ROUND_OFF)
        cleared = Trace(
            "clearing_min",
            clear,
            "time in which the ground takes in what stands: standing / intake",
            "definition",
            (model.trace,),
        )
        formula = "time to clear, or the stated minimum if longer, in whole minutes"
        trace = Trace("soak_minutes", soak, formula, "definition", (cleared, *stated))
        return soak, trace, []
    if least is not None:
        soak = math.ceil(least - ROUND_OFF)
        return soak, Trace("soak_minutes", soak, "as stated", "entered", stated), []
    fix = "watch how long water stands after a run and enter min_soak_min"
    said = Finding(
        "note",
        model.where,
        f"a soak of {USUAL_SOAK_MIN} min is assumed (common practice, no source)",
        fix,
    )
    source = "common practice, no source"
    trace = Trace("soak_minutes", USUAL_SOAK_MIN, "assumed", source, (), fix)
    return USUAL_SOAK_MIN, trace, [said]


def _trace(
    minutes: float,
    run: tuple[int, int],
    limit: float | None,
    below: tuple[IntakeModel, Trace],
) -> Trace:
    cycles, length = run
    model, soak = below
    per_watering = Trace(
        "minutes_per_watering",
        minutes,
        "minutes_exact over the number of nights",
        "definition",
    )
    longest = Trace(
        "limit_minutes",
        limit,
        "first runoff as seen, or surface storage / (wet rate - intake)",
        "landscape scheduling manuals, from memory",
        (model.trace,),
        "" if limit is not None else "no limit is known, or none is needed",
    )
    count = Trace(
        "cycles", cycles, "fewest that keep within the limit", "definition", (longest,)
    )
    each = Trace(
        "cycle_minutes",
        length,
        "minutes_per_watering / cycles, in whole minutes",
        "definition",
        (per_watering, count),
    )
    return Trace(
        "minutes_per_day",
        cycles * length,
        "cycles x cycle_minutes, with soak_minutes between them",
        "definition",
        (each, soak),
    )
