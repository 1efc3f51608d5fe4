"""Settings that hold for every test."""

from hypothesis import settings

# A busy machine is no failing law; speed is measured by tests.bench alone.
settings.register_profile("house", deadline=None)
settings.load_profile("house")
