"""Before and after a change, as a funder reads it: dates and units at every number.

Files: `tested` (1 to 4: as found, work and receipts, after, uniformity), `water` (5 to
7: water and energy, potential and actual, meter pages), `declared` (8 to 10: method,
photos, declaration), `sheet` (the leaves, and JSON).
"""

from scheduler.reports.grant.sheet import grant_sheet, grant_sheet_json

__all__ = ["grant_sheet", "grant_sheet_json"]
