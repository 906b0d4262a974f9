"""What all tests share: Hypothesis without a clock, so that a slow machine fails no test."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "no clock",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("no clock")
