"""Runs of packages in wind in; which is better, how sure, the tie, expected DU out.

`comparison` sets two packages against each other at one wind, `expected_du` reads one
package's line at a wind. Both take their error from the days (`clustered_fit`).
"""

from scheduler.field.trial.expected import ExpectedDu, expected_du
from scheduler.field.trial.resampled import DayBootstrap, day_bootstrap
from scheduler.field.trial.runs import PackageRuns
from scheduler.field.trial.settling import LEAST_DAYS
from scheduler.field.trial.versus import Comparison, Verdict, comparison

__all__ = [
    "LEAST_DAYS",
    "Comparison",
    "DayBootstrap",
    "ExpectedDu",
    "PackageRuns",
    "Verdict",
    "comparison",
    "day_bootstrap",
    "expected_du",
]
