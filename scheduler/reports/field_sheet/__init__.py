"""The field sheet: what is known of a zone in, a sheet to carry out; no arithmetic."""

from scheduler.reports.field_sheet.asked import Asked
from scheduler.reports.field_sheet.sheet import field_sheets, field_sheets_json

__all__ = ["Asked", "field_sheets", "field_sheets_json"]
