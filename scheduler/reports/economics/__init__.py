"""Whether a retrofit pays, a page or two an option.

Files: `assumed` (1 prices and ground), `compared` (2 now beside the options), `returns`
(3 to 7: verdict, rules, drivers, chance, potential), `method` (8), `report` (the
leaves, and JSON).
"""

from scheduler.reports.economics.report import economics_report, economics_report_json

__all__ = ["economics_report", "economics_report_json"]
