"""Readings from the cans in; rate, uniformity and their ranges out."""
