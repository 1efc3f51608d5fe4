"""Packages compared at one wind in; JSON and plain text out, no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.reports.machine import FORMAT, Json, findings_json
from scheduler.reports.text import WIDTH, table
from scheduler.units import System, shown

if TYPE_CHECKING:
    from collections.abc import Iterable

    from scheduler.errors import Finding
    from scheduler.field.package_trial import PackageTests, PackageTrial, Pair
    from scheduler.field.trial import Comparison


def trial_json(trial: PackageTrial, findings: Iterable[Finding]) -> Json:
    """Packages, and every pair of those that were tested."""
    return {
        "format": FORMAT,
        "wind_m_per_s": trial.wind_m_per_s,
        "wind_from": trial.wind_from,
        "packages": [_package_json(one) for one in trial.packages],
        "pairs": [_pair_json(one, trial.wind_m_per_s) for one in trial.pairs],
        "findings": findings_json((*findings, *trial.findings)),
    }


def _package_json(package: PackageTests) -> Json:
    return {
        "package": package.package,
        "name": package.name,
        "n_runs": package.runs.du_lq.size,
        "n_days": package.n_days,
        "n_wind_unknown": package.n_unknown,
        "n_refused": package.n_refused,
        "conditions": list(package.conditions),
        "wind_m_per_s": package.runs.wind_m_per_s,
        "du_lq": package.runs.du_lq,
        "why": package.why or None,
    }


def _pair_json(pair: Pair, wind_m_per_s: float) -> Json:
    found = pair.found
    return {
        "a": pair.a,
        "b": pair.b,
        "wind_m_per_s": wind_m_per_s,
        "du_a": found.du_a if found else None,
        "du_b": found.du_b if found else None,
        "difference": found.difference if found else None,
        "difference_low": found.low if found else None,
        "difference_high": found.high if found else None,
        "tie_wind_m_per_s": pair.tie_wind_m_per_s,
        "tie_low_m_per_s": found.tie_low_m_per_s if found else None,
        "tie_high_m_per_s": found.tie_high_m_per_s if found else None,
        "verdict": found.verdict if found else "not proven",
        "runs_needed": pair.runs_needed,
        "days_needed": pair.days_needed,
        "n_days": found.n_days if found else None,
        "why": pair.why,
        "extrapolated": found.is_extrapolated if found else None,
        "confounded": found.is_confounded if found else None,
    }


def trial_text(trial: PackageTrial, units: System) -> str:
    """What was tested, then each pair in plain words."""
    wind = shown(trial.wind_m_per_s, "m_per_s", units)
    head = f"packages at a wind of {wind} ({trial.wind_from})"
    columns = ("package", "runs", "days", "winds", "DU", "")
    rows = [_package_row(one, units) for one in trial.packages]
    parts = [head, table(columns, rows)]
    parts += [
        _pair_text(one, one.found, wind, units) for one in trial.pairs if one.found
    ]
    refused = [f"{one.a} and {one.b}" for one in trial.pairs if not one.found]
    if refused:
        parts.append(_wrapped(f"not comparable yet: {'; '.join(refused)}"))
    if not trial.pairs:
        parts.append("nothing to compare: fewer than two packages were tested")
    return "\n\n".join(parts)


def _package_row(package: PackageTests, units: System) -> list[str]:
    wind, du = package.runs.wind_m_per_s, package.runs.du_lq
    return [
        package.package,
        f"{du.size}",
        f"{package.n_days}",
        _span([shown(one, "m_per_s", units) for one in (wind.min(), wind.max())])
        if wind.size
        else "–",
        _span([shown(one, "", units) for one in (du.min(), du.max())])
        if du.size
        else "–",
        package.why and "no line",
    ]


def _span(ends: list[str]) -> str:
    low, high = ends
    return low if low == high else f"{low.split()[0]}–{high}"


def _pair_text(pair: Pair, found: Comparison, wind: str, units: System) -> str:
    against = f"DU {found.du_a:.2f} against {found.du_b:.2f} at {wind}"
    apart = f"{found.difference:+.2f} ({found.low:+.2f} to {found.high:+.2f})"
    if found.verdict == "not proven":
        lines = f"{pair.a} or {pair.b}: not proven: {against}, apart by {apart}; "
        lines += f"{pair.why}; {_needed(pair)}"
    else:
        how = "more" if found.verdict == "better" else "less"
        lines = f"{pair.a} is {how} uniform than {pair.b}: {against}, apart by {apart}"
    return _wrapped(". ".join([lines, *_remarks(pair, found, units)]))


def _needed(pair: Pair) -> str:
    if pair.days_needed is None:
        return "more runs would hardly settle it, so choose by cost"
    days = "1 more day" if pair.days_needed == 1 else f"{pair.days_needed} more days"
    return f"about {days} of runs would settle it ({pair.runs_needed} runs)"


def _remarks(pair: Pair, found: Comparison, units: System) -> list[str]:
    remarks = []
    if pair.tie_wind_m_per_s is not None:
        tie = shown(pair.tie_wind_m_per_s, "m_per_s", units)
        low = shown(found.tie_low_m_per_s, "m_per_s", units)
        high = shown(found.tie_high_m_per_s, "m_per_s", units)
        is_told = "–" not in (low, high)
        sure = f"{low} to {high}" if is_told else "how sure cannot be told"
        remarks.append(f"Their lines cross at {tie} ({sure})")
    if found.is_extrapolated:
        remarks.append("Nobody tested both in that wind: the lines are drawn on")
    if found.is_confounded:
        remarks.append(
            "They were never tested on the same day, so the days may be what differs"
        )
    return remarks


def _wrapped(text: str) -> str:
    return fill(text, WIDTH, subsequent_indent="    ", break_long_words=False)
