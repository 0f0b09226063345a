"""A new site in an old one's place: whole, at once, and nothing of somebody else's lost."""

import os
from pathlib import Path

import pytest

from site_build.progress import SiteProblem
from site_build.replace import MARK, mark, may_replace, replace


def _site(folder: Path, version: str, **files: str) -> Path:
    folder.mkdir(parents=True)
    for name, text in files.items():
        path = folder / name.replace("__", "/").replace("_", ".")
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    mark(folder, version)
    return folder


def _texts(folder: Path) -> dict[str, str]:
    return {
        p.relative_to(folder).as_posix(): p.read_text(encoding="utf-8")
        for p in folder.rglob("*")
        if p.is_file() and p.name != MARK
    }


@pytest.fixture
def room(tmp_path: Path) -> Path:
    """A place for what is in between."""
    (tmp_path / "room").mkdir()
    return tmp_path / "room"


def test_what_was_added_to_a_site_comes_along(tmp_path: Path, room: Path) -> None:
    out = _site(tmp_path / "out", "1", index_html="old", old__page_html="gone")
    (out / ".htaccess").write_text("theirs")
    (out / ".git").mkdir()
    (out / ".git" / "HEAD").write_text("ref")
    (out / "old" / "letter.txt").write_text("theirs")
    (out / "to-git").symlink_to(".git")
    for version in ("2", "3"):  # what came along once comes along again
        may_replace(out)
        replace(_site(room / version, version, index_html=version), out, room)
        assert _texts(out) == {
            "index.html": version,
            ".htaccess": "theirs",
            ".git/HEAD": "ref",
            "old/letter.txt": "theirs",
        }
        assert (out / "to-git").readlink() == Path(".git")
        (room / "old").rename(room / f"old-{version}")


def test_a_name_that_both_have_stops_it(tmp_path: Path, room: Path) -> None:
    out = _site(tmp_path / "out", "1", index_html="old")
    (out / "CNAME").write_text("theirs")
    new = _site(room / "new", "2", index_html="new", CNAME="ours")
    with pytest.raises(SiteProblem, match="left alone: CNAME"):
        replace(new, out, room)
    assert _texts(out) == {"index.html": "old", "CNAME": "theirs"}


def test_a_neighbour_with_a_like_name_stays(tmp_path: Path, room: Path) -> None:
    out = _site(tmp_path / "site", "1", index_html="old")
    kept = _site(tmp_path / "site.old", "0", index_html="somebody keeps this")
    replace(_site(room / "new", "2", index_html="new"), out, room)
    assert _texts(kept) == {"index.html": "somebody keeps this"}


def test_the_old_site_comes_back_when_the_new_one_cannot_take_its_place(
    tmp_path: Path, room: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = _site(tmp_path / "out", "1", index_html="old")
    new = _site(room / "new", "2", index_html="new")
    rename = Path.rename

    def refused(self: Path, target: Path) -> Path:
        if self == new:
            raise KeyboardInterrupt
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refused)
    with pytest.raises(KeyboardInterrupt):
        replace(new, out, room)
    assert _texts(out) == {"index.html": "old"}


@pytest.mark.parametrize("kind", ["file", "pipe", "dangling link", "foreign folder"])
def test_what_is_no_site_of_ours_is_left_alone(tmp_path: Path, kind: str) -> None:
    out = tmp_path / "out"
    if kind == "file":
        out.write_text("theirs")
    elif kind == "pipe":
        os.mkfifo(out)
    elif kind == "dangling link":
        out.symlink_to("nowhere")
    else:
        out.mkdir()
        (out / "letter.txt").write_text("theirs")
    with pytest.raises(SiteProblem, match=r"is no folder|left alone"):
        may_replace(out)


def test_an_empty_folder_or_none_may_be_taken(tmp_path: Path, room: Path) -> None:
    (tmp_path / "empty").mkdir()
    for out in (tmp_path / "empty", tmp_path / "none"):
        may_replace(out)
        replace(_site(room / out.name, "1", index_html="new"), out, room)
        assert _texts(out) == {"index.html": "new"}
        may_replace(out)
