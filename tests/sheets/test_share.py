"""How a build leaves the page: as a letter, a link, a file."""

import re
from html import unescape
from urllib.parse import parse_qs, urlsplit

import pytest

from engine.catalogue.workshop import Contact
from engine.desk import start_enquiry
from engine.enquiry.door import from_link
from engine.sheets.page import reference_fragments
from engine.sheets.rows import MOST_MAILED, share
from tests.shops import catalogue, quick_scene, resolver


def letter_of(html: str, attribute: str = "data-letter") -> tuple[str, dict[str, list[str]]]:
    """Whom it goes to, and what it says."""
    found = re.search(rf'{attribute}="(mailto:[^"]+)"', html)
    assert found
    address = urlsplit(unescape(found[1]))
    return address.path, parse_qs(address.query)


def shared(
    link: str = "1abc", title: str | None = None, email: str = "mail@example.org", phone: str | None = None
) -> str:
    return share("Ours & Sons", Contact(email=email, phone=phone), title, link, "{}", "build")


def test_a_letter_goes_to_the_workshop_and_leaves_room_for_the_link() -> None:
    to, says = letter_of(shared(title="Für Ö & Sohn, 100 %"))
    assert to == "mail@example.org"
    assert says == {"subject": ["Für Ö & Sohn, 100 %"], "body": ["This is my build:\r\n\r\n"]}
    assert 'data-build="#1abc"' in shared()


def test_without_a_script_the_letter_does_not_begin_a_sentence_that_nothing_ends() -> None:
    to, says = letter_of(shared(), "href")
    assert (to, says) == ("mail@example.org", {"subject": ["A build"]})


@pytest.mark.parametrize("link", ["", "1" + "a" * MOST_MAILED])
def test_a_build_too_long_for_a_letter_goes_as_a_file(link: str) -> None:
    html = shared(link)
    _, says = letter_of(html, "href")
    assert says["body"] == ["My build is in the file that I attach."]
    assert "Attach the file to the letter" in html
    assert "data-letter" not in html
    assert ("data-copy" in html) is bool(link)


def test_an_odd_address_adds_nothing_to_the_letter() -> None:
    to, says = letter_of(shared(email='a?bcc=x"><b>@example.org'))
    assert to == "a%3Fbcc%3Dx%22%3E%3Cb%3E@example.org"
    assert set(says) == {"subject", "body"}


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_every_link_on_the_sheet_that_holds_the_build_can_be_opened(shop: str) -> None:
    scene = quick_scene(resolver(shop), start_enquiry(catalogue(shop)))
    html = reference_fragments(scene)["share"]
    links = re.findall(r'(?:href|data-build|data-copy)="#([^"]+)"', html)
    assert len(links) == 3
    assert [from_link(x) for x in links] == [scene.enquiry] * 3


def test_a_telephone_number_is_told_where_there_is_one() -> None:
    assert "Or call" not in shared()
    assert "555-0142" in shared(phone="555-0142")
