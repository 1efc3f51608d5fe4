"""Catch-can tests, weather and plants in; run times with their reasons out."""
