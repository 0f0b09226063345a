"""Whatever stands in a shop folder, reading it gives a shop or clear problems, never another exception."""

import shutil
import tempfile
import tomllib
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.catalogue.positions import Positions
from engine.catalogue.problems import ShopProblems
from engine.catalogue.reading import read_shop

SMALL = Path(__file__).parent / "small_shop"
FILES = sorted(str(p.relative_to(SMALL)) for p in SMALL.rglob("*.toml"))

VALUES = [
    "true", "0", "-1", "1e400", "-inf", "nan", "99999999999999999999999", "1e-9", "0x1F", "[]", "[[]]", "{}", "[{}]",
    "[1, 'a', {}]", "{ kind = 'battery' }", "[{ kind = 'battery' }]", "[{ kind = 3 }]", "[{ option = 1 }]",
    "[{ option = {} }]", "[{ options = [1] }]", "[{ options = [[]] }]", "1979-05-27", "07:32:00", "''", "' '",
    "'battery-100'", "'long-van'", "'27 kg'", "'-1 kg'", "'1e99 m'", "'\\'", '"\\u0000"', '"\\ud7ff"', "'ü'", "[['a']]",
]  # fmt: skip
KEYS = [
    "id",
    "option",
    "facets",
    "requires",
    "excludes",
    "needs_one_of",
    "fits",
    "kind",
    "options",
    "start",
    "trip",
    "1",
]


@st.composite
def spoilt_text(draw: st.DrawFn) -> tuple[str, str]:
    """A file of the small shop with some values, lines or characters replaced."""
    file = draw(st.sampled_from(FILES))
    lines = (SMALL / file).read_text(encoding="utf-8").split("\n")
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        key = lines[at].split("=")[0]
        lines[at] = draw(
            st.one_of(
                st.sampled_from(VALUES).map(lambda v, key=key: f"{key} = {v}"),
                st.tuples(st.sampled_from(KEYS), st.sampled_from(VALUES)).map(" = ".join),
                st.text(max_size=30),
                st.sampled_from(["[[option]]", "[option]", "[[option.facets]]", "[trip]", "[[a.b]]", "a.b.c = 1", ""]),
            )
        )
    return file, "\n".join(lines)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(spoilt_text())
def test_any_spoilt_folder_gives_a_shop_or_clear_problems(change: tuple[str, str]) -> None:
    file, text = change
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        shutil.copytree(SMALL, folder)
        (folder / file).write_bytes(text.encode("utf-8", "surrogatepass"))
        try:
            read_shop(folder, ("hamburg",))
        except ShopProblems as told:
            assert told.problems
            for problem in told.problems:
                assert problem.said
                assert 0 <= problem.line <= text.count("\n") + 1 or problem.file != file
                assert str(problem).replace("\n", "").isprintable()


@settings(max_examples=100, deadline=None)
@given(spoilt_text())
def test_every_key_of_a_readable_text_has_its_line(change: tuple[str, str]) -> None:
    _, text = change
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, ValueError):
        return
    positions = Positions(text)
    lines = text.split("\n")
    todo = [((), data)]
    while todo:
        path, value = todo.pop()
        inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        for step, item in inside:
            here = (*path, step)
            if isinstance(step, str):
                assert step in lines[positions.line(here) - 1], here
            todo.append((here, item))
