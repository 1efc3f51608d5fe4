"""Ranges of runs and nights in, plain text out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.field.range_words import (
    THESE_RUNS,
    UPPER_BOUND,
    another_night_words,
)

if TYPE_CHECKING:
    from scheduler.field.driest_window import DriestWindow
    from scheduler.field.together import Together

WIDTH = 80
INDENT = " " * 27


def windows_text(windows: Iterable[DriestWindow]) -> list[tuple[str, str]]:
    """Scheduling coefficient of each window of whole cans, as names and values."""
    name, lines = "scheduling coefficient", []
    for one in windows:
        cans = one.window_rows * one.window_columns
        many = (
            "1 can" if cans == 1 else f"{one.window_rows} x {one.window_columns} cans"
        )
        said = "no water there"
        if one.driest_over_mean > 0:
            said = f"{one.scheduling_coefficient:.2f}"
        lines.append((name, f"{said}  (driest {many}, {one.share:.0%} of the area)"))
        name = ""
    return lines


def _line(name: str, value: str) -> str:
    return fill(f"{name:<26} {value}", WIDTH, subsequent_indent=INDENT)


def together_text(summed: Together) -> str:
    """What the runs say together, each range by its name."""
    night = another_night_words(summed.nights, summed.n_days)
    if summed.n_runs == 1:
        return "\n".join(fill(one, WIDTH) for one in (night, UPPER_BOUND) if one)
    lines = [
        f"{summed.n_runs} runs together, catches summed by position over"
        f" {summed.measured.n_cans} cans:",
    ]
    du = f"{summed.measured.du_lq:.2f}, one run alone {summed.one_run_du_lq:.2f}"
    lines.append(_line("DU low quarter together", du))
    if summed.du_lq is not None:
        one = summed.du_lq
        said = f"{one.low:.2f}–{one.high:.2f} for {THESE_RUNS}, right {one.level:.0%}"
        lines.append(_line("", f"{said} of the time"))
    if summed.nights is not None and summed.nights.as_many_nights is not None:
        many = summed.nights.as_many_nights
        said = (
            f"{many.low:.2f}–{many.high:.2f} for {summed.n_runs} other nights, on"
            f" average, right {many.level:.0%} of the time"
        )
        lines.append(_line("", said))
    if night:
        lines.append(_line("DU of one night", f"{summed.one_run_du_lq:.2f}"))
        lines.append(_line("", night))
    lines.append(f"{'CU together':<26} {summed.measured.cu:.2f}")
    return "\n".join(lines)
