"""Folders of the cache: whole or not there, whoever makes them at the same time."""

from pathlib import Path

import pytest

from site_build.bundle.keeping import made_whole


def test_a_folder_appears_whole(tmp_path: Path) -> None:
    home = tmp_path / "cache" / "one"
    with made_whole(home) as new:
        (new / "file").write_text("x")
        assert not home.exists()
    assert (home / "file").read_text() == "x"
    assert list(home.parent.iterdir()) == [home]


def test_what_fails_leaves_nothing(tmp_path: Path) -> None:
    home = tmp_path / "one"
    with pytest.raises(ValueError, match="broken"), made_whole(home) as new:
        (new / "file").write_text("half")
        raise ValueError("broken")
    assert list(tmp_path.iterdir()) == []


def test_of_two_at_once_the_first_to_end_stays(tmp_path: Path) -> None:
    home = tmp_path / "one"
    with made_whole(home) as slow:
        (slow / "file").write_text("slow")
        with made_whole(home) as quick:
            (quick / "file").write_text("quick")
    assert (home / "file").read_text() == "quick"
    assert list(tmp_path.iterdir()) == [home]
