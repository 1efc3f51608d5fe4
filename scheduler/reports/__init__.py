"""The edge out: plans and tests as text, tables and JSON, without arithmetic."""
