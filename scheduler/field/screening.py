"""One run in, everything that must be said about its readings out."""

from collections.abc import Iterator

import numpy as np

from scheduler.arrays import BoolArray
from scheduler.errors import Finding
from scheduler.field.catch import Catch
from scheduler.field.mixed_units import UNIT_NAMES, in_one_unit, mixed_units
from scheduler.field.uniformity import MIN_CANS, low_quarter_uniformity
from scheduler.record import CODES, CanRun, CanTest, CanUnit
from scheduler.units import UNITS, converted

# Common practice, no source: a mean catch below this reads poorly in a cylinder.
SMALL_MEAN_ML = 25.0
USUAL_CANS = 24
SUSPECT_MEAN_ML = 1.0
MOVED_DU = 0.03
# Common practice, no source: cans catch 0.7 to 1 of what the nozzles deliver.
USUAL_NET_OVER_GROSS = 0.7
# A zero is odd where what stands around it caught at least this part of the mean.
WET_PART = 0.5


def screened(test: CanTest, run: CanRun) -> tuple[Finding, ...]:
    """Everything that must be said about the readings of one run.

    Parameters
    ----------
    test : CanTest
        The test that the run belongs to.
    run : CanRun
        The readings.

    Returns
    -------
    tuple of Finding
        Stop findings alone where the run is impossible, else warnings and notes.

    References
    ----------
    .. [1] Univ. Florida container-nursery irrigation page (multiple of 4, 24 cans).

    Examples
    --------
    >>> import datetime as dt
    >>> run = CanRun("1", "run1.csv", np.array([[0.0, 0.0, 0.0, 0.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> test = CanTest("t", "test.toml", "Z1", dt.date(2026, 5, 12), "", 91.5, (run,))
    >>> screened(test, run)[0].fix
    'valve shut, wrong zone or wrong file?'
    """
    stops = tuple(_impossible(test, run))
    if stops:
        return stops
    return (*_doubtful(test, run), *_notes(run))


def _impossible(test: CanTest, run: CanRun) -> Iterator[Finding]:
    ok = np.isfinite(run.reading)
    for i, j in np.argwhere(ok & (run.reading < 0)):
        yield Finding(
            "stop",
            run.place(i, j),
            f"a reading of {run.reading[i, j]:g} is not possible",
            "read the can again, or mark it - and say why",
        )
    if test.capacity_ml is not None and run.unit in ("ml", "fl_oz"):
        limit = test.capacity_ml / converted(1.0, run.unit, to="ml")
        for i, j in np.argwhere(ok & (run.reading > limit)):
            yield Finding(
                "stop",
                run.place(i, j),
                f"{run.reading[i, j]:g} is more than the can holds ({limit:g})",
                "mark it o for overflow, or correct capacity_ml",
            )
    if run.minutes is not None and not 0 < run.minutes <= 1440:
        yield Finding(
            "stop",
            f"{run.where}: minutes",
            f"is {run.minutes:g}",
            "give the minutes that the water ran, such as minutes = 30",
        )
    n = int(ok.sum())
    if n < MIN_CANS:
        yield Finding(
            "stop",
            run.where,
            f"only {n} cans hold a reading, {MIN_CANS} are needed",
            "set out more cans (24 on an even grid is the usual number)",
        )
    elif not run.reading[ok].any():
        yield Finding(
            "stop",
            run.where,
            "no water caught: all readings are 0",
            "valve shut, wrong zone or wrong file?",
        )
    yield from _two_units(run, ok)


def _two_units(run: CanRun, ok: BoolArray) -> Iterator[Finding]:
    """Two clusters a unit apart, each answer shown; the run as typed has none."""
    found = mixed_units(run.reading, run.unit)
    if found is None:
        return
    typed = run.reading
    low, high = typed[found.is_small], typed[ok & (typed > 0) & ~found.is_small]
    large: CanUnit = "mm" if run.unit in ("mm", "in") else "ml"
    answers = []
    for unit in found.units:
        one = in_one_unit(typed, found, unit)[ok]
        du = float(low_quarter_uniformity(one))
        mean = f"{one.mean():.1f} {UNITS[large].label}"
        answers.append(f"as {UNIT_NAMES[unit]} the mean is {mean}, DU {du:.3f}")
    what = "inches" if large == "mm" else "fluid ounces"
    options = " or ".join(f'mixed = "{unit}"' for unit in found.units)
    yield Finding(
        "stop",
        run.where,
        f"{low.size} readings of {low.min():g} to {low.max():g} stand among "
        f"{high.size} of {high.min():g} to {high.max():g}, {found.ratio:.0f} times as "
        f"much: {what} typed as {UNITS[run.unit].label}? {'; '.join(answers)}",
        f"say what the small ones are: {options} in [[run]] of test.toml; if the cans "
        f"really were that dry, write them in whole {UNITS[run.unit].label}",
    )


def _doubtful(test: CanTest, run: CanRun) -> Iterator[Finding]:
    ok = np.isfinite(run.reading)
    yield from _lone_zeros(run, ok)
    over = sum(mark == "o" for row in run.code for mark in row)
    if over:
        yield Finding(
            "warning",
            run.where,
            f"{over} {'can' if over == 1 else 'cans'} overflowed at the rim",
            "run for fewer minutes or use taller cans; the wet end is not known",
        )
    volume = run.unit in ("ml", "fl_oz")
    if volume and test.mouth_area_cm2 is None:
        yield Finding(
            "warning",
            f"{test.where}: mouth_in",
            "the can mouth is not given, so no rate can be computed (DU is valid)",
            "measure the inside diameter of the mouth and enter mouth_in",
        )
    if run.minutes is None:
        yield Finding(
            "warning",
            f"{test.where}: minutes",
            "the minutes are not given, so no rate can be computed (DU is valid)",
            "enter the minutes that the water ran",
        )
    if volume:
        mean = converted(float(run.reading[ok].mean()), run.unit, to="ml")
        if mean < SUSPECT_MEAN_ML:
            yield Finding(
                "warning",
                run.where,
                f"the mean is {mean:.2g} mL, under 1 mL: is the unit right?",
                'if these are inches or millimetres of depth, set unit = "in" or "mm"',
            )
        elif mean < SMALL_MEAN_ML:
            yield Finding(
                "warning",
                run.where,
                f"the mean catch is {mean:.0f} mL; common practice is 25 or more",
                "run longer, so that a millilitre more or less does not matter",
            )
    yield from _moved(run, ok)


def _lone_zeros(run: CanRun, ok: BoolArray) -> Iterator[Finding]:
    for i, j in np.argwhere(ok & (run.reading == 0)):
        around = run.reading[max(i - 1, 0) : i + 2, max(j - 1, 0) : j + 2]
        wet = around[np.isfinite(around) & (around > 0)]
        excluded = any((e.row, e.column) == (i, j) for e in run.excluded)
        if (
            wet.size
            and wet.mean() >= WET_PART * run.reading[ok].mean() > 0
            and not excluded
        ):
            yield Finding(
                "warning",
                run.place(i, j),
                f"reads 0 among neighbours of {wet.mean():.0f}; it is kept",
                "look for a blocked arc; leave it out only with a physical reason",
            )


def _moved(run: CanRun, ok: BoolArray) -> Iterator[Finding]:
    if not run.excluded:
        return
    without = ok.copy()
    for e in run.excluded:
        without[e.row, e.column] = False
    if without.sum() < MIN_CANS:
        return
    kept, left = (float(low_quarter_uniformity(run.reading[m])) for m in (ok, without))
    if abs(left - kept) > MOVED_DU:
        cans = "1 can" if len(run.excluded) == 1 else f"{len(run.excluded)} cans"
        yield Finding(
            "warning",
            run.where,
            f"without {cans} DU moves from {kept:.2f} to {left:.2f}",
            "both results are shown; repeat the run to settle it",
        )


def _notes(run: CanRun) -> Iterator[Finding]:
    used = np.isfinite(run.reading)
    for one in run.excluded:
        used[one.row, one.column] = False
    n = int(used.sum())
    coded = [mark for row in run.code for mark in row if mark]
    if coded:
        said = ", ".join(f"{coded.count(m)} {CODES[m]}" for m in sorted(set(coded)))
        yield Finding(
            "note",
            run.where,
            f"{_places(len(coded))} no reading ({said})",
            "none of them counts as zero; a second run would fill the map",
        )
    if n < USUAL_CANS:
        yield Finding(
            "note",
            run.where,
            f"{n} cans are used; 24 is the usual number",
            "set out more cans next time, for a narrower range",
        )
    elif n % 4:
        yield Finding(
            "note",
            run.where,
            f"{n} cans are not a multiple of 4",
            "the last can of the low quarter counts by its fraction",
        )


def _places(n: int) -> str:
    return "1 place holds" if n == 1 else f"{n} places hold"


def net_gross_findings(
    caught: Catch, where: str, net_low: float | None
) -> tuple[Finding, ...]:
    """Say when the cans caught more, or far less, than the nozzles delivered.

    Parameters
    ----------
    caught : Catch
        One run with both rates.
    where : str
        Place for the finding.
    net_low : float or None
        Low end of the range of the net rate. [mm/h]

    Returns
    -------
    tuple of Finding
        A stop where the range of the ratio excludes 1; a warning where it does not,
        since an honest test at a true 0.96 reads above 1 about one time in five. A
        warning where the ratio is below the usual 0.7.

    References
    ----------
    Source: definition (more cannot land than was delivered).

    Examples
    --------
    >>> from scheduler.field.catch import catch
    >>> run = CanRun("1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> caught = catch(run, mouth_area_cm2=100.0, gross_rate_mm_per_h=5.0)
    >>> net_gross_findings(caught, "run1.csv", 9.0)[0].level
    'stop'
    """
    ratio, gross = caught.net_over_gross, caught.gross_rate_mm_per_h
    if ratio is None or gross is None or USUAL_NET_OVER_GROSS <= ratio <= 1.0:
        return ()
    if ratio < USUAL_NET_OVER_GROSS:
        return (
            Finding(
                "warning",
                where,
                f"the cans caught only {ratio * 100:.2g} % of what the nozzles "
                "delivered; 70 to 100 % is usual",
                "check the can mouth and its unit, minutes, nozzle flow and spacing; "
                "wind can carry water away too",
            ),
        )
    sure = net_low is not None and net_low / gross > 1.0
    return (
        Finding(
            "stop" if sure else "warning",
            where,
            f"the cans caught {ratio * 100:.0f} % of what the nozzles delivered, "
            "which cannot be",
            "check the can mouth (inside diameter, not the base), minutes and spacing",
        ),
    )
