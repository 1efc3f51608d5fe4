"""The edge: site folders, tables and readings on disk in and out."""
