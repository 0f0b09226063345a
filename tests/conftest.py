"""What all tests share: property tests always draw the same cases and have no stopwatch."""

from hypothesis import settings

settings.register_profile("loadstead", deadline=None, derandomize=True)
settings.load_profile("loadstead")
