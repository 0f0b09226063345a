"""Words of a workshop stay words on a page, whatever characters they hold."""

import html
import json
import re

import markdown
import yaml
from hypothesis import given
from hypothesis import strategies as st

from site_build.pages.markdown import front, table, text, title
from site_build.prepare import SETTINGS, names
from tests.shops import catalogue

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


@given(WORDS)
def test_what_the_theme_writes_unescaped_is_shown_as_it_is(words: str) -> None:
    assert not set("<>") & set(title(words))
    assert html.unescape(title(words)) == words


def test_numbers_stand_to_the_right_and_words_to_the_left() -> None:
    rows = [("Foam", "$4.50", "−3 °F", "any"), ("Cork", "£1,200", "–", "one")]
    assert table(("What", "Price", "Cold", "Together"), rows).split("\n")[1] == "| --- | --: | --: | --- |"
    assert table(("What", "Price"), []) == "| What | Price |\n| --- | --- |"


def test_names_in_the_theme_are_no_mark_up() -> None:
    """The theme writes a site's name, its pages' titles and the navigation as they are told."""
    shown = catalogue("hallamoor")
    odd = '5 < 6 "metres" <b>& Co</b>'
    shop = shown.workshop.model_copy(update={"name": odd, "tagline": odd})
    ready = shown.ready[0].model_copy(update={"name": odd})
    sections = (shown.sections[0].model_copy(update={"title": odd}), *shown.sections[1:])
    told = names(shown.model_copy(update={"workshop": shop, "ready": (ready,), "sections": sections}))
    assert told["site_name"] == told["site_description"] == "5 &lt; 6 &quot;metres&quot; &lt;b&gt;& Co&lt;/b&gt;"
    assert "<" not in json.dumps(told) and json.dumps(told["nav"]).count("&lt;b&gt;") == 2
    assert front(odd).split("\n")[1] == 'title: "5 &lt; 6 \\"metres\\" &lt;b&gt;& Co&lt;/b&gt;"'
