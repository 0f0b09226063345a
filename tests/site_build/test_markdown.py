"""Words of a workshop stay words on a page, whatever characters they hold."""

import html
import re

import markdown
import yaml
from hypothesis import given
from hypothesis import strategies as st

from site_build.pages.markdown import table, text
from site_build.prepare import SETTINGS

EXTENSIONS = [
    e for e in yaml.safe_load(SETTINGS.read_text(encoding="utf-8"))["markdown_extensions"] if isinstance(e, str)
]
WORDS = st.lists(
    st.sampled_from(
        ["bed", "a = b", "~~~", "x^2", "- one", "1.", "2. two", "# head", "*so*", "_so_", "`x`", "[a](b)", "<b>", "&",
         "| t", "!!! note", "??? fold", ": said", "+ one", "> said", "\\(", "===", "---", "{#id}", "$5", "4 °F (cold)"]
    ),
    min_size=1, max_size=6,
).map(" ".join)  # fmt: skip


@given(WORDS)
def test_words_are_shown_as_they_are(words: str) -> None:
    page = markdown.markdown(text(words), extensions=EXTENSIONS)
    assert page.startswith("<p>") and page.count("<") == 2
    assert html.unescape(re.sub(r"<[^>]*>", "", page)) == " ".join(words.split())


def test_numbers_stand_to_the_right_and_words_to_the_left() -> None:
    rows = [("Foam", "$4.50", "−3 °F", "any"), ("Cork", "£1,200", "–", "one")]
    assert table(("What", "Price", "Cold", "Together"), rows).split("\n")[1] == "| --- | --: | --: | --- |"
    assert table(("What", "Price"), []) == "| What | Price |\n| --- | --- |"
