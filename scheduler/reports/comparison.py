"""Packages compared at one wind in; JSON and plain text out, no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.field.wind.hours import MONTHS
from scheduler.reports.machine import FORMAT, Json, findings_json
from scheduler.reports.text import WIDTH, shorten, table
from scheduler.said import signed
from scheduler.units import System, shown

if TYPE_CHECKING:
    from collections.abc import Iterable

    from scheduler.errors import Finding
    from scheduler.field.package_tests import PackageTests
    from scheduler.field.package_trial import Expected, PackageTrial, Pair
    from scheduler.field.trial import Comparison, ExpectedDu

# Packages beside each other in the table of months, within 80 columns.
ACROSS = 3


# --- JSON --------------------------------------------------------------------


def trial_json(trial: PackageTrial, findings: Iterable[Finding]) -> Json:
    """Packages, and every pair of those that were tested."""
    both = zip(trial.packages, trial.expected, strict=True)
    return {
        "format": FORMAT,
        "wind_m_per_s": trial.wind_m_per_s,
        "wind_from": trial.wind_from,
        "usual_wind_m_per_s": trial.usual.mean_m_per_s if trial.usual else None,
        "packages": [_package_json(one, expected) for one, expected in both],
        "pairs": [_pair_json(one, trial.wind_m_per_s) for one in trial.pairs],
        "findings": findings_json((*findings, *trial.findings)),
    }


def _package_json(package: PackageTests, expected: Expected) -> Json:
    return {
        "package": package.package,
        "name": package.name,
        "condition": package.condition or None,
        "conditions_left_out": [
            {"condition": other, "n_runs": count} for other, count in package.left_out
        ],
        "n_runs": package.runs.du_lq.size,
        "n_days": package.n_days,
        "n_wind_unknown": package.n_unknown,
        "n_refused": package.n_refused,
        "zones": list(package.zones),
        "wind_m_per_s": package.runs.wind_m_per_s,
        "du_lq": package.runs.du_lq,
        "expected": _expected_json(expected.at_wind),
        "expected_by_month": [
            {"month": month, **_known_json(du)} for month, du in expected.by_month
        ],
        "why": package.why or None,
    }


def _expected_json(du: ExpectedDu | None) -> Json | None:
    return None if du is None else _known_json(du)


def _known_json(du: ExpectedDu) -> Json:
    return {
        "wind_m_per_s": du.wind_m_per_s,
        "du_lq": du.du_lq,
        "du_lq_low": du.low,
        "du_lq_high": du.high,
        "extrapolated": du.is_extrapolated,
    }


def _pair_json(pair: Pair, wind_m_per_s: float) -> Json:
    found = pair.found
    again = found.bootstrap if found else None
    return {
        "a": pair.a,
        "b": pair.b,
        "wind_m_per_s": wind_m_per_s,
        "du_a": found.du_a if found else None,
        "du_b": found.du_b if found else None,
        "difference": found.difference if found else None,
        "difference_low": found.low if found else None,
        "difference_high": found.high if found else None,
        "method": found.method if found else None,
        "resampled_days": {
            "difference_low": again.low,
            "difference_high": again.high,
            "n_used": again.n_used,
            "n_dropped": again.n_dropped,
        }
        if again
        else None,
        "tie_wind_m_per_s": pair.tie_wind_m_per_s,
        "tie_low_m_per_s": found.tie_low_m_per_s if found else None,
        "tie_high_m_per_s": found.tie_high_m_per_s if found else None,
        "verdict": found.verdict if found else "not proven",
        "in_words": in_words(pair),
        "runs_needed": pair.runs_needed,
        "days_needed": pair.days_needed,
        "small": found.is_small if found else None,
        "too_short": found.is_too_short if found else None,
        "n_days": found.n_days if found else None,
        "why": pair.why,
        "hangs_on": (found.hangs_on or None) if found else None,
        "conditions": list(pair.conditions),
        "extrapolated": found.is_extrapolated if found else None,
        "confounded": found.is_confounded if found else None,
    }


# --- one sentence ------------------------------------------------------------


def in_words(pair: Pair) -> str:
    """The answer as a grower can be told it."""
    found = pair.found
    if found is None:
        return (
            f"{pair.a} and {pair.b} cannot be compared yet: test both in two winds or "
            "more, on the same three days or more."
        )
    if found.verdict == "not proven":
        return f"The tests do not tell {pair.a} and {pair.b} apart yet; {_needed(pair)}"
    how = "more" if found.verdict == "better" else "less"
    low, high = sorted(f"{abs(end):.2f}" for end in (found.low, found.high))
    little = ", too little to matter" if found.is_small else ""
    return (
        f"{pair.a} waters {how} evenly than {pair.b} in this wind, by {low} to {high} "
        f"of DU{little}."
    )


def _needed(pair: Pair) -> str:
    if pair.days_needed is None:
        return "more runs would hardly settle it, so choose by cost."
    days = "1 more day" if pair.days_needed == 1 else f"{pair.days_needed} more days"
    if pair.found and pair.found.is_too_short:
        return f"at least {days} of runs are needed ({pair.runs_needed} runs)."
    return f"about {days} of runs would settle it ({pair.runs_needed} runs)."


# --- text --------------------------------------------------------------------


def trial_text(trial: PackageTrial, units: System) -> str:
    """What was tested, what to expect, then each pair in plain words."""
    wind = shown(trial.wind_m_per_s, "m_per_s", units)
    parts = [_wrapped(f"packages at a wind of {wind} ({trial.wind_from})")]
    columns = ("package", "condition", "runs", "days", "winds", "DU", f"at {wind} ")
    both = zip(trial.packages, trial.expected, strict=True)
    parts.append(table(columns, [_package_row(*one, units) for one in both], left=2))
    if any(one.at_wind and one.at_wind.is_extrapolated for one in trial.expected):
        parts.append("* extrapolated: that package was never tested in such wind")
    parts += _months_texts(trial, units)
    parts += [
        _pair_text(one, one.found, wind, units) for one in trial.pairs if one.found
    ]
    in_pairs = {name for one in trial.pairs for name in (one.a, one.b)}
    refused = [
        one.package for one in trial.packages if one.why and one.package in in_pairs
    ]
    if refused:
        parts.append(_wrapped(f"not comparable yet: {', '.join(refused)}"))
    if not trial.pairs:
        parts.append("nothing to compare: fewer than two packages were tested")
    return "\n\n".join(parts)


def _package_row(package: PackageTests, expected: Expected, units: System) -> list[str]:
    wind, du = package.runs.wind_m_per_s, package.runs.du_lq
    at_wind = expected.at_wind
    return [
        shorten(package.package, 14),
        shorten(package.condition, 13) or "–",
        f"{du.size}",
        f"{package.n_days}",
        _span([shown(one, "m_per_s", units) for one in (wind.min(), wind.max())])
        if wind.size
        else "–",
        _span([shown(one, "", units) for one in (du.min(), du.max())])
        if du.size
        else "–",
        _marked(at_wind) if at_wind else "no line ",
    ]


def _span(ends: list[str]) -> str:
    low, high = ends
    return low if low == high else f"{low.split()[0]}–{high}"


def _expected_text(du: ExpectedDu) -> str:
    if du.low is None or du.high is None:
        return f"{du.du_lq:.2f} (–)"
    return f"{du.du_lq:.2f} ({du.low:.2f}–{du.high:.2f})"


def _months_texts(trial: PackageTrial, units: System) -> list[str]:
    """Expected DU of each month, a few packages at a time."""
    usual = trial.usual
    lines = [one for one in trial.expected if one.by_month]
    if usual is None or not lines:
        return []
    parts = [
        "expected DU at the usual wind of the irrigation hours, with the range of the\n"
        "mean over nights, from how days differ (* wind that was never tested)"
    ]
    for first in range(0, len(lines), ACROSS):
        shown_now = lines[first : first + ACROSS]
        head = (
            "month",
            "days",
            "wind",
            *(shorten(one.package, 16) for one in shown_now),
        )
        columns = [dict(one.by_month) for one in shown_now]
        rows = [
            (
                MONTHS[month - 1][:3],
                f"{usual.n_days[month - 1]}",
                shown(columns[0][month].wind_m_per_s, "m_per_s", units),
                *(_marked(one[month]) for one in columns),
            )
            for month in columns[0]
        ]
        parts.append(table(head, rows))
    return parts


def _marked(du: ExpectedDu) -> str:
    return f"{_expected_text(du)}{'*' if du.is_extrapolated else ' '}"


def _pair_text(pair: Pair, found: Comparison, wind: str, units: System) -> str:
    is_known = shown(found.low, "", units) != "–"
    ends = f"{signed(found.low)} to {signed(found.high)}, {found.method}"
    apart = f"{signed(found.difference)} ({ends if is_known else 'range not known'})"
    head = f"{pair.a} or {pair.b}: {found.verdict}. {in_words(pair)}"
    facts = f"DU {found.du_a:.2f} against {found.du_b:.2f} at {wind}, apart by {apart}"
    why = f"{facts}; {pair.why}"
    return _wrapped(" ".join([head, f"{why}.", *_remarks(pair, found, units)]))


def _remarks(pair: Pair, found: Comparison, units: System) -> list[str]:
    remarks = []
    again = found.bootstrap
    if again is not None:
        remarks.append(
            f"Resampling the days gives {signed(again.low)} to {signed(again.high)} "
            f"({again.n_dropped} of the resamples dropped), which is known as narrow."
        )
    if pair.tie_wind_m_per_s is not None:
        tie = shown(pair.tie_wind_m_per_s, "m_per_s", units)
        low = shown(found.tie_low_m_per_s, "m_per_s", units)
        high = shown(found.tie_high_m_per_s, "m_per_s", units)
        is_told = "–" not in (low, high)
        sure = f"{low} to {high}" if is_told else "how sure cannot be told"
        remarks.append(f"Their lines cross at {tie} ({sure}).")
    if found.hangs_on and found.hangs_on not in pair.why:
        remarks.append(
            f"One run decides: without {found.hangs_on} it would be proven, so look at "
            "that run first."
        )
    return remarks + _cautions(pair, found)


def _cautions(pair: Pair, found: Comparison) -> list[str]:
    """What no arithmetic can undo."""
    cautions = []
    if found.is_extrapolated:
        cautions.append("Extrapolated: not both were tested in that wind.")
    if found.is_confounded:
        cautions.append(
            "They were never tested on the same day, so the days may be what differs."
        )
    if pair.is_apart:
        cautions.append(
            "They never stood in the same zone, so the block may be what differs."
        )
    first, second = pair.conditions
    if first != second:
        cautions.append(f"{pair.a} is {first}, {pair.b} is {second}.")
    return cautions


def _wrapped(text: str) -> str:
    return fill(text, WIDTH, subsequent_indent="    ", break_long_words=False)
