"""Shared by the benches: ratios against targets, and CPU time of one call."""

import json
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ratio:
    """One measured ratio and the target it should meet."""

    what: str
    value: float
    target: str
    met: bool


def at_least(what: str, value: float, target: float) -> Ratio:
    return Ratio(what, value, f">= {target:g}", value >= target)


def at_most(what: str, value: float, target: float) -> Ratio:
    return Ratio(what, value, f"<= {target:g}", value <= target)


def report(name: str, ratios: Sequence[Ratio], *, as_json: bool) -> None:
    """Print the ratios as a table, or as one JSON object."""
    if as_json:
        rows = [
            {"what": r.what, "value": r.value, "target": r.target, "met": r.met}
            for r in ratios
        ]
        print(json.dumps({"name": name, "ratios": rows}))
        return
    for r in ratios:
        print(
            f"{'met ' if r.met else 'MISS'}  {r.value:10.3g}  {r.target:>8}  {r.what}"
        )


def cpu_seconds(call: Callable[[], object], *, at_least_s: float = 0.1) -> float:
    """CPU time of one call, from a loop long enough for the clock's ticks."""
    call()
    rounds = 1
    while True:
        begin = time.process_time()
        for _ in range(rounds):
            call()
        spent = time.process_time() - begin
        if spent >= at_least_s:
            return spent / rounds
        rounds = max(rounds + 1, int(rounds * 1.5 * at_least_s / max(spent, 1e-3)))


def median_ratio(
    slow: Callable[[], object], fast: Callable[[], object], *, rounds: int = 5
) -> float:
    """Median over interleaved rounds of slow time over fast time."""
    return statistics.median(
        cpu_seconds(slow) / cpu_seconds(fast) for _ in range(rounds)
    )
