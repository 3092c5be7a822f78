"""Settings shared by all tests: property tests are the same in every run."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "same-every-run",
    derandomize=True,
    deadline=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("same-every-run")
