"""The configurator's page: complete before any script has run, with the build the workshop opens with."""

from __future__ import annotations

from engine.build import Resolver
from engine.catalogue.workshop import Catalogue
from engine.desk import set_scene, start_enquiry
from engine.sheets.page import configurator_html
from site_build.pages.markdown import front

STATUS = """\
<div class="engine-status" id="engine-status" data-state="waiting" role="status">\
<p class="engine-status-text">This is the workshop's own starting build, worked out when the site was made. \
As soon as the calculation runs in this browser, your picks change it.</p>\
<noscript><p>Scripts are off here, so picks change nothing; everything below can be read.</p></noscript></div>
"""


def configurator_page(catalogue: Catalogue, resolver: Resolver, app: str) -> dict[str, str]:
    """`configurator/index.md`: front matter for the theme, then plain HTML from the engine's own templates.

    `app` is the folder of the scripts and styles, from the site's root.
    """
    sheet = configurator_html(set_scene(resolver, start_enquiry(catalogue)))
    opening = front(
        "Configurator", template="sheet.html", app=app, hide=["navigation", "toc"], search={"exclude": "true"}
    )
    # Blank lines would end the block of plain HTML in Markdown.
    lines = [line for line in (STATUS + str(sheet)).splitlines() if line.strip()]
    return {"configurator/index.md": opening + '<div class="sheet-body">\n' + "\n".join(lines) + "\n</div>\n"}
