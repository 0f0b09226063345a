"""The one door of the engine for the browser: JSON text in, JSON text out.

``open_shop`` is called once with the published catalogue; ``answer`` for every message from then on. Only fragments
that changed since the last answer go back, so that a pick costs what it touches.

A pick is answered at once with verdicts, quick figures and ``later: true``. Each message of the kind "later" then
brings more of the last enquiry: first drawings, lists and plans, then figures that take long, a slice at a time. A
newer pick drops what was still to come.

A page that opens untouched says "start": it shows already what the site build worked out, so it is answered at once
with nothing, and the work that the first pick will find remembered is done slice by slice.
"""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from engine.build import Build, Figures, Resolver, UnknownChoiceError, work_out
from engine.build.energy_figures import USUAL, EnergyFigures, Look
from engine.build.trip_energy import day_slices, energy_slices, trip_energy
from engine.catalogue.published import read_catalogue_json
from engine.catalogue.workshop import Catalogue
from engine.document import figures_document
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.enquiry.door import EnquiryProblems, check_enquiry, from_link, read_enquiry, to_link
from engine.rules import judge
from engine.sheets.day_form import look_from_form
from engine.sheets.form import FormError, enquiry_from_form
from engine.sheets.page import answer_fragments, reference_fragments
from engine.sheets.view import Scene


def start_enquiry(catalogue: Catalogue) -> Enquiry:
    """The enquiry that the configurator opens with: the workshop's chosen ready build on its buyers' usual trip."""
    ready = next(r for r in catalogue.ready if r.id == catalogue.workshop.start)
    return Enquiry(
        workshop=catalogue.workshop.id,
        vehicle=ready.vehicle,
        options=dict(ready.options),
        trip=catalogue.workshop.trip,
        catalogue_dated=catalogue.dated,
    )


Slow = Callable[[Build, Figures], EnergyFigures | None]
"""What is known of the slow figures of a build."""


def scene_with(resolver: Resolver, enquiry: Enquiry, slow: Slow) -> Scene:
    """Resolve, work out and judge an enquiry. Raises UnknownChoiceError for a vehicle or place nobody knows."""
    build = resolver.resolve(enquiry)
    quick = work_out(build)
    figures = quick._replace(energy=slow(build, quick))
    try:
        link = to_link(enquiry)
    except EnquiryProblems:
        link = ""  # too long for a link; it can still be saved as a file
    return Scene(resolver.catalogue, enquiry, build, figures, judge(build, figures), link)


def quick_scene(resolver: Resolver, enquiry: Enquiry) -> Scene:
    """An enquiry by its quick figures alone. Raises UnknownChoiceError."""
    return scene_with(resolver, enquiry, lambda _build, _figures: None)


def set_scene(resolver: Resolver, enquiry: Enquiry) -> Scene:
    """An enquiry by quick and slow figures both. Raises UnknownChoiceError."""
    return scene_with(resolver, enquiry, trip_energy)


@dataclass
class Desk:
    """A catalogue at hand, and what the page already shows."""

    resolver: Resolver
    shown: dict[str, str] = field(default_factory=dict)
    scene: Scene | None = None
    """What was asked last."""
    work: Iterator[EnergyFigures | None] | None = None
    """Slow figures of it still being worked out."""
    look: Look = USUAL
    """The day that the page shows by the hour."""
    undrawn: bool = False
    """Whether its drawings, lists and plans are still to come."""
    opening: Iterator[dict[str, Any]] | None = None
    """What is still worked out of a page that opened untouched."""

    def enquiry(self, request: dict[str, Any]) -> Enquiry:
        """The enquiry a request is about, checked as strictly as a file from outside."""
        kind = request.get("kind")
        if kind == "pick":
            pairs = [(str(name), str(value)) for name, value in request["form"]]
            enquiry = check_enquiry(enquiry_from_form(self.resolver.catalogue, pairs))
            self.look = look_from_form(pairs)
            return enquiry
        if kind == "link":
            return from_link(str(request["fragment"]))
        if kind == "file":
            return read_enquiry(str(request["text"]))
        if kind == "reset":
            return start_enquiry(self.resolver.catalogue)
        raise EnquiryProblems.one("request", f"the engine knows no message of the kind {str(kind)[:40]!r}")

    def reply(self, request: dict[str, Any]) -> dict[str, Any]:
        """Fragments that changed, figures and the link of a request's enquiry."""
        if request.get("kind") == "later":
            return self.later()
        if request.get("kind") == "start":
            self.scene, self.work, self.undrawn, self.shown = None, None, False, {}
            self.opening = self._opened()
            return {"fragments": {}, "link": "", "later": True}
        before, enquiry = self.scene, self.enquiry(request)
        self.opening = None
        if before is not None and not request.get("whole") and self._only_another_day(before, enquiry):
            self.work = day_slices(before.build, before.figures, self.look)
            energy = self._step()[1]
            self.scene = before._replace(look=self.look, figures=before.figures._replace(energy=energy))
            return self._told(self.scene)
        self.scene = scene_with(self.resolver, enquiry, self._begin)._replace(look=self.look)
        if request.get("whole"):
            self.shown = {}
        # Who moves something in a drawing looks at that drawing.
        moved = before is not None and before.enquiry.moves != enquiry.moves
        self.undrawn = not (moved or request.get("whole"))
        return self._told(self.scene)

    def _only_another_day(self, before: Scene, enquiry: Enquiry) -> bool:
        known = before.figures.energy
        return self.look != before.look and enquiry == before.enquiry and known is not None and known.complete

    def _begin(self, build: Build, figures: Figures) -> EnergyFigures | None:
        # The first step of slow work is quick: it takes what is remembered and rests before anything else.
        self.work = energy_slices(build, figures, self.look)
        return self._step()[1]

    def _opened(self) -> Iterator[dict[str, Any]]:
        """The start worked out in slices. Of what the page shows only its floor plan changes: it can be moved now."""
        self.scene = scene_with(self.resolver, start_enquiry(self.resolver.catalogue), self._begin)
        yield {"later": True}
        answer_fragments(self.scene)
        yield {"later": True}
        yield {"fragments": {"draw-day": reference_fragments(self.scene)["draw-day"]}, "later": True}
        while self.work is not None:
            _, energy = self._step()
            self.scene = self.scene._replace(figures=self.scene.figures._replace(energy=energy))
            yield {"later": True}
        self.scene = self.scene._replace(findings=judge(self.scene.build, self.scene.figures))
        # All of it is shown already.
        yield self._told(self.scene) | {"fragments": {}}

    def later(self) -> dict[str, Any]:
        """The drawings, or one slice more of the slow figures, with fragments when a part of them is finished."""
        if self.opening is not None:
            reply = next(self.opening)
            if not reply["later"]:
                self.opening = None
            return reply
        if self.scene is not None and self.undrawn:
            self.undrawn = False
            return {"fragments": self._changed(reference_fragments(self.scene)), "later": self.work is not None}
        if self.scene is None or self.work is None:
            return {"later": False}
        finished, energy = self._step()
        if energy is None or energy is self.scene.figures.energy:
            return {"later": not finished}
        figures = self.scene.figures._replace(energy=energy)
        self.scene = self.scene._replace(figures=figures, findings=judge(self.scene.build, figures))
        return self._told(self.scene)

    def _step(self) -> tuple[bool, EnergyFigures | None]:
        """Whether the work is finished, and what is known after one slice more."""
        assert self.work is not None
        try:
            return False, next(self.work)
        except StopIteration as done:
            self.work = None
            return True, done.value

    def _told(self, scene: Scene) -> dict[str, Any]:
        parts = answer_fragments(scene) | ({} if self.undrawn else reference_fragments(scene))
        return {
            "fragments": self._changed(parts),
            "figures": figures_document(scene.figures),
            "verdicts": [[f.rule, f.verdict] for f in scene.findings],
            "enquiry": scene.enquiry.model_dump(mode="json", exclude_defaults=True),
            "link": scene.link,
            "later": self.undrawn or self.work is not None,
        }

    def _changed(self, parts: dict[str, str]) -> dict[str, str]:
        """Those that the page does not show yet; from now on it does."""
        changed = {name: html for name, html in parts.items() if self.shown.get(name) != html}
        self.shown |= parts
        return changed


_desk: Desk | None = None


def open_shop(catalogue_json: str) -> str:
    """Load the published catalogue; returns JSON with its date."""
    global _desk
    catalogue = read_catalogue_json(catalogue_json)
    _desk = Desk(Resolver(catalogue, load_places()))
    return json.dumps({"ready": True, "dated": catalogue.dated})


def answer(request_json: str) -> str:
    """Answer one message of the page. What is wrong with the message comes back as ``error``, with its place."""
    if _desk is None:
        return json.dumps({"error": {"where": "engine", "text": "The catalogue is not loaded yet."}})
    try:
        return json.dumps(_desk.reply(json.loads(request_json)))
    except EnquiryProblems as problems:
        first = problems.problems[0]
        return json.dumps({"error": {"where": first.where, "text": str(problems)}})
    except FormError as error:
        return json.dumps({"error": {"where": error.field, "text": error.text}})
    except UnknownChoiceError as error:
        return json.dumps({"error": {"where": error.where, "text": str(error)}})
