"""The start page: who the workshop is, and the ways in."""

from __future__ import annotations

from engine.catalogue.workshop import Catalogue
from engine.sheets.price_words import work_terms
from engine.units import day_words
from site_build.pages.markdown import front, paragraphs, text


def start_page(catalogue: Catalogue) -> dict[str, str]:
    """`index.md`."""
    shop = catalogue.workshop
    contact = [text(line) for line in (shop.contact.email, shop.contact.phone, shop.contact.address) if line]
    count = sum(len(section.options) for section in catalogue.sections)
    body = f"""\
# {text(shop.name)}

**{text(shop.tagline)}**

{paragraphs(shop.about)}

<p class="way"><a href="configurator/">Put a build together</a>
<a href="ready/">See finished vehicles</a></p>

## How this works

Choose a base vehicle, say how you will travel, and pick from {count} options in {len(catalogue.sections)} chapters.
After each pick your sheet, one page with drawings,
figures and notes, is worked out again: whether the panels fit the roof, whether the battery feeds the inverter, what
the axles carry, how cold a night it stays warm, how long water, gas and power last, and what it costs. Each
warning says why, and what helps.

All of it is worked out in your own browser. Nothing you pick is sent anywhere until you send it yourself, and after the
first visit it works without a network. [How it is worked out](method.md) ·
[Every check, with its sources](handbook/index.md)

!!! warning "What a sheet is, and is not"
    A sheet checks arithmetic. Gas, mains voltage, battery currents, axle loads and carbon monoxide can hurt or kill:
    licensed people, local codes and a weighbridge have the last word. [Read about safety](safety.md).

## Where to find us

{"<br>".join(contact)}

{text(work_terms(shop))}
Catalogue of {day_words(catalogue.dated, shop.units)}.
"""
    return {"index.md": front(shop.tagline, hide=["navigation", "toc"]) + body}
