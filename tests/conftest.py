"""Settings that hold for every test."""

from hypothesis import settings

# A busy machine is no failing law; speed is measured by tests.bench alone. The same
# examples each time, so that a run fails for everybody or for nobody; new ones are
# drawn by `pytest --hypothesis-profile=wander`.
settings.register_profile("house", deadline=None, derandomize=True)
settings.register_profile("wander", deadline=None)
settings.load_profile("house")
