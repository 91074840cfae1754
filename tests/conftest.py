"""Settings for all tests: the same examples every time in CI, and no time limit for one example on a shared machine."""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")
