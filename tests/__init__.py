"""Tests, sorted by the kind of evidence."""
