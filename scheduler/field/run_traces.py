"""A run of a test worked up in, where each of its numbers comes from out."""

from scheduler.field.evaluation import RunEvaluation
from scheduler.trace import Trace, entered


def run_traces(run: RunEvaluation, test: str = "") -> tuple[Trace, ...]:
    """Traces of what one run of a can test showed.

    Parameters
    ----------
    run : RunEvaluation
        The run.
    test : str
        Name of its test, said beside what was entered.

    Returns
    -------
    tuple of Trace
        Uniformity, low half, Christiansen's, depth and rate, as far as known.

    References
    ----------
    Source: definition; each measure names its own.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.field.evaluation import evaluated_run
    >>> from scheduler.record import CanRun
    >>> cans = CanRun("1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
    ...               (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> worked = evaluated_run(cans, mouth_area_cm2=100.0, with_ranges=False)
    >>> [(one.name, one.value) for one in run_traces(worked)][:2]
    [('du_lq', 0.8), ('du_lh', 0.9)]
    """
    caught = run.catch
    cans = entered("cans", f"{caught.n_cans} of {run.run}", test or caught.run.where)
    found = [*_evenness(run, cans)]
    if caught.mean_depth_mm is not None:
        found.append(_depth(run, test))
    if caught.net_rate_mm_per_h is not None:
        found += _rates(run, test)
    return tuple(found)


def _evenness(run: RunEvaluation, cans: Trace) -> tuple[Trace, ...]:
    even, note = run.uniformity, ""
    if run.ranges is not None:
        of = run.ranges.du_lq
        note = f"{of.low:.2f} to {of.high:.2f}, {of.level:.0%} sure, by resampling cans"
    return (
        Trace(
            "du_lq",
            even.du_lq,
            "mean of the driest quarter (last can by fraction) over the mean of all",
            "Univ. Florida; UC Davis",
            (cans,),
            note,
        ),
        Trace(
            "du_lh",
            even.du_lh,
            "mean of the drier half of the cans over the mean of all",
            "von Bernuth and Mecham, Defining the run time multiplier",
            (cans,),
        ),
        Trace(
            "cu",
            even.cu,
            "1 less the mean distance from the mean over the mean",
            "Christiansen 1942, as in Zoldoske, Solomon and Norum, 1994",
            (cans,),
        ),
    )


def _depth(run: RunEvaluation, test: str) -> Trace:
    caught = run.catch
    return Trace(
        "mean_depth_mm",
        caught.mean_depth_mm,
        "mean volume over mouth area x 10",
        "definition",
        (
            entered("mean_ml", caught.mean_ml, f"{caught.n_cans} cans"),
            entered("mouth_area_cm2", caught.mouth_area_cm2, test),
        ),
    )


def _rates(run: RunEvaluation, test: str) -> tuple[Trace, ...]:
    caught = run.catch
    net = Trace(
        "net_rate_mm_per_h",
        caught.net_rate_mm_per_h,
        "mean depth over the minutes x 60",
        "Univ. Maryland irrigation-audit course, page 4.7",
        (_depth(run, test), entered("run_min", caught.run.minutes, test)),
    )
    if caught.gross_trace is None or caught.net_over_gross is None:
        return (net,)
    share = Trace(
        "net_over_gross",
        caught.net_over_gross,
        "net rate over gross rate, 0.7 to 1 is usual",
        "common practice, no source",
        (net, caught.gross_trace),
    )
    return net, share
