"""No test lies where pytest does not look."""

from fnmatch import fnmatch
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]


def test_every_file_of_tests_is_collected(pytestconfig: pytest.Config) -> None:
    """A folder named like one of a build tool's is passed over without a word."""
    passed_over = pytestconfig.getini("norecursedirs")
    files = sorted(path.relative_to(TESTS) for path in TESTS.rglob("test_*.py"))
    assert len(files) > 190
    lost = [str(f) for f in files if any(fnmatch(folder, p) for folder in f.parts[:-1] for p in passed_over)]
    assert not lost, lost
