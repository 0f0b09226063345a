"""Every bad enquiry gets a message that says where, what was found and what is accepted, and nothing else happens."""

import base64
import json
import random
import tomllib
import tracemalloc
import zlib
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.enquiry import Enquiry
from engine.enquiry.door import EnquiryProblems, check_enquiry, from_link, read_enquiry, to_link, write_enquiry
from engine.enquiry.file import MOST_BYTES, plain
from engine.enquiry.link import MOST_CHARACTERS
from engine.enquiry.problems import MOST_SHOWN, EnquiryProblem, quoted
from tests.strategies import enquiries

BAD = Path(__file__).parent.parent / "bad_input" / "enquiry"
EXPECTED = tomllib.loads((BAD / "expected.toml").read_text(encoding="utf-8"))
FILES = sorted(p.name for p in BAD.glob("*.json"))
LINKS = sorted(p.name for p in BAD.glob("*.link"))
GOOD = Enquiry.model_validate({"vehicle": "long-van", "options": {"a": 1}, "trip": {"place": "denver", "months": (1,)}})


def problems_of(read, text) -> tuple[EnquiryProblem, ...]:
    """What a reader complains about; any other exception fails the test by itself."""
    with pytest.raises(EnquiryProblems) as caught:
        read(text)
    return caught.value.problems


def complaint(read, text) -> str:
    return "\n".join(map(str, problems_of(read, text)))


@pytest.mark.parametrize("name", FILES + LINKS)
def test_each_bad_input_is_told_what_is_wrong(name):
    if name in FILES:
        said = complaint(read_enquiry, (BAD / name).read_text(encoding="utf-8"))
    else:
        said = complaint(from_link, (BAD / name).read_text(encoding="utf-8").rstrip("\n"))
    missing = [part for part in EXPECTED[name] if part not in said]
    assert missing == [], said
    assert said.startswith(EXPECTED[name][0])
    # Plain words only: nothing of the machinery, no blame.
    for word in ("Traceback", "pydantic", "invalid", "Input should", "Error", "NoneType"):
        assert word not in said
    assert len(said) < 6000


def test_every_file_has_its_expectation_and_there_are_plenty():
    assert set(EXPECTED) == set(FILES) | set(LINKS)
    assert len(FILES) >= 40
    assert len(LINKS) >= 20


def test_the_input_that_the_bad_ones_are_made_from_is_good():
    assert read_enquiry(write_enquiry(GOOD)) == GOOD


def test_a_file_too_large_is_not_looked_at():
    assert problems_of(read_enquiry, "[" * (MOST_BYTES + 1))[0].text.startswith("is larger than 256 kB")
    # Counted in bytes: a letter may take four of them.
    assert "larger" in complaint(read_enquiry, '"' + "🚐" * (MOST_BYTES // 4) + '"')
    assert "larger" not in complaint(read_enquiry, '"' + "x" * (MOST_BYTES - 2) + '"')


def test_a_small_link_cannot_fill_the_memory():
    bomb = zlib.compress(b" " * 200_000_000, 9)
    packed = base64.urlsafe_b64encode(bomb[: MOST_CHARACTERS // 2]).decode().rstrip("=")
    tracemalloc.start()
    try:
        problems_of(from_link, "1" + packed)
        assert tracemalloc.get_traced_memory()[1] < 2_000_000
    finally:
        tracemalloc.stop()


def test_thousands_of_problems_are_counted_and_not_listed():
    text = json.dumps({"vehicle": "van", "trip": {"place": "denver", "months": [99] * 5000}})
    problems = problems_of(read_enquiry, text)
    assert len(problems) <= MOST_SHOWN + 1
    options = {f"option-{i}": 0 for i in range(400)}
    text = json.dumps({"vehicle": "van", "options": options, "trip": {"place": "denver", "months": [1]}})
    problems = problems_of(read_enquiry, text)
    assert len(problems) == MOST_SHOWN + 1
    assert problems[-1].text == f"{400 - MOST_SHOWN} more problems are not listed."


def test_what_is_repeated_is_short_and_shows_what_hides():
    assert quoted('a"b\\c') == r'"a\"b\\c"'
    assert quoted("x" * 100) == '"' + "x" * 39 + '…"'
    assert quoted("a\u202eb\x00\n") == r'"a\u202eb\u0000\u000a"'
    assert quoted("\U000e0041") == r'"\U000e0041"'
    assert quoted("Käfer 🚐") == '"Käfer 🚐"'


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=12,
)


@given(st.text(max_size=300))
@example("\ud800")
@example("\x00")
@example("-")
def test_any_text_is_read_or_refused(text):
    for read in (read_enquiry, from_link):
        problems_of(read, text)


@given(enquiries(most_options=3), st.data())
def test_any_value_in_any_field_is_read_or_refused(enquiry, data):
    values = plain(enquiry)
    group = data.draw(st.sampled_from((values, values["trip"], values["options"])))
    group[data.draw(st.sampled_from(sorted(group) or ["a"]) | st.text(max_size=12))] = data.draw(JSON)
    for read, given_ in ((check_enquiry, values), (read_enquiry, json.dumps(values))):
        try:
            again = read(given_)
        except EnquiryProblems as problems:
            assert all(p.where and p.text.endswith((".", "?")) for p in problems.problems)
        else:
            assert read_enquiry(write_enquiry(again)) == again


@pytest.mark.parametrize("seed", range(40))
def test_links_with_characters_changed_are_refused_or_read_as_a_sound_enquiry(seed):
    draw = random.Random(seed)
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
    sound = to_link(GOOD)
    for _ in range(50):
        text = list(sound)
        for _ in range(draw.randint(1, 4)):
            at = draw.randrange(len(text))
            change = draw.choice(("swap", "drop", "add", "repeat"))
            if change == "swap":
                text[at] = draw.choice(alphabet)
            elif change == "add":
                text.insert(at, draw.choice(alphabet))
            elif change == "repeat":
                text[at:at] = text[at : at + draw.randint(1, 30)]
            elif len(text) > 1:
                del text[at]
        try:
            read = from_link("".join(text))
        except EnquiryProblems:
            continue
        # The checksum lets nothing else through: the same enquiry, spelled with spare bits set.
        assert read == GOOD


@pytest.mark.parametrize("seed", range(40))
def test_files_with_bytes_changed_are_refused_or_read_as_a_sound_enquiry(seed):
    draw = random.Random(seed)
    sound = write_enquiry(GOOD)
    for _ in range(50):
        text = list(sound)
        for _ in range(draw.randint(1, 5)):
            text[draw.randrange(len(text))] = draw.choice('{}[]",:0123456789eE+-. \n\\utrafnls\x00\x7fé\ud800')
        try:
            read = read_enquiry("".join(text))
        except EnquiryProblems:
            continue
        assert read_enquiry(write_enquiry(read)) == read
