"""The grower's report of one catch-can test, zone by zone.

Files: `told` (what it is made from) and `gathered` (how that is found), `finding` (1),
`results` (2 to 4), `causes` (5), `run_times` (6, 7), `method` (8 to 10), `report` (the
leaves, and JSON).
"""

from scheduler.reports.evaluation.gathered import gathered
from scheduler.reports.evaluation.report import (
    evaluation_report,
    evaluation_report_json,
)
from scheduler.reports.evaluation.told import Told

__all__ = ["Told", "evaluation_report", "evaluation_report_json", "gathered"]
