"""The one door of the engine for the browser: JSON text in, JSON text out.

``open_shop`` is called once with the published catalogue; ``answer`` for every message from then on. Only fragments
that changed since the last answer go back, so that a pick costs what it touches.

A pick is answered at once with verdicts, quick figures and ``later: true``. Each message of the kind "later" then
brings more of the last enquiry: first drawings, lists and plans, then figures that take long, a slice at a time. A
newer pick drops what was still to come.

A message of the kind "ahead" is the form as it would be after a choice that the reader is about to make. It is answered
with the fragments that the choice would change; nothing is taken as chosen or shown by it. The pick that follows finds
this work done.

A page that opens untouched says "start": it shows already what the site build worked out, so it is answered at once
with nothing, and the work that the first pick will find remembered is done slice by slice.
"""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from engine.build import Build, Figures, Resolver, UnknownChoiceError, work_out
from engine.build.energy_figures import USUAL, EnergyFigures, Look
from engine.build.trip_energy import day_slices, energy_slices, trip_energy
from engine.catalogue.published import read_catalogue_json
from engine.catalogue.workshop import Catalogue, ReadyBuild
from engine.document import figures_document
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.enquiry.door import EnquiryProblems, check_enquiry, check_workshop, from_link, read_enquiry, to_link
from engine.rules import judge
from engine.sheets.cargo_form import ADD, OWN, UNTYPED, OwnBox, own_from_form
from engine.sheets.day_form import look_from_form
from engine.sheets.form import FormError, enquiry_from_form
from engine.sheets.page import answer_fragments, form_error, reference_fragments
from engine.sheets.view import Scene


def start_enquiry(catalogue: Catalogue) -> Enquiry:
    """The enquiry that the configurator opens with, on the buyers' usual trip: the workshop's chosen ready build, or
    its first vehicle with nothing in it."""
    ready = next((r for r in catalogue.ready if r.id == catalogue.workshop.start), None)
    return Enquiry(
        workshop=catalogue.workshop.id,
        vehicle=ready.vehicle if ready else catalogue.vehicles[0].id,
        options=dict(ready.options) if ready else {},
        trip=catalogue.workshop.trip,
        catalogue_dated=catalogue.dated,
    )


def ready_enquiry(catalogue: Catalogue, ready: ReadyBuild) -> Enquiry:
    """A finished vehicle as an enquiry, on the trip it is meant for."""
    return Enquiry(
        workshop=catalogue.workshop.id,
        vehicle=ready.vehicle,
        options=dict(ready.options),
        trip=ready.trip.over(catalogue.workshop.trip),
        title=ready.name,
        catalogue_dated=catalogue.dated,
    )


REFUSED = "form-error"
"""The fragment that tells of an entry that could not be read, until one can."""

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


def set_scene(resolver: Resolver, enquiry: Enquiry) -> Scene:
    """An enquiry by quick and slow figures both. Raises UnknownChoiceError."""
    return scene_with(resolver, enquiry, trip_energy)


Work = Iterator[EnergyFigures | None]
"""Slow figures still being worked out, slice by slice."""


class WorkedOut(NamedTuple):
    """An enquiry worked out as far as a pick is answered at once."""

    scene: Scene
    work: Work | None
    parts: dict[str, str]
    """Fragments of the answer."""


@dataclass
class Desk:
    """A catalogue at hand, and what the page already shows."""

    resolver: Resolver
    shown: dict[str, str] = field(default_factory=dict)
    scene: Scene | None = None
    """What was asked last."""
    work: Work | None = None
    """What is still worked out of it."""
    ahead: WorkedOut | None = None
    """A choice that may be made next."""
    look: Look = USUAL
    """The day that the page shows by the hour."""
    own: OwnBox = UNTYPED
    """What is typed of a box that is not added yet: it stays in its fields through all picks."""
    undrawn: bool = False
    """Whether its drawings, lists and plans are still to come."""
    opening: Iterator[dict[str, Any]] | None = None
    """What is still worked out of a page that opened untouched."""

    def enquiry(self, request: dict[str, Any]) -> Enquiry:
        """The enquiry a request is about, checked as strictly as a file from outside."""
        kind = request.get("kind")
        if kind == "pick":
            enquiry, self.look, self.own = self._form(request)
            return enquiry
        if kind in ("link", "file", "reset"):
            enquiry = self._whole(kind, request)
            self.own = UNTYPED
            return enquiry
        raise EnquiryProblems.one("request", f"the engine knows no message of the kind {str(kind)[:40]!r}")

    def _whole(self, kind: str, request: dict[str, Any]) -> Enquiry:
        """An enquiry that replaces all there is on the page."""
        if kind == "reset":
            return start_enquiry(self.resolver.catalogue)
        enquiry = from_link(str(request["fragment"])) if kind == "link" else read_enquiry(str(request["text"]))
        check_workshop(enquiry, self.resolver.catalogue.workshop.id)
        return enquiry

    def _form(self, request: dict[str, Any]) -> tuple[Enquiry, Look, OwnBox]:
        pairs = [(str(name), str(value)) for name, value in request["form"]]
        own = own_from_form(pairs)
        try:
            plain = enquiry_from_form(self.resolver.catalogue, pairs)
            if ADD in dict(pairs):
                own = UNTYPED
        except FormError as error:
            if not error.field.startswith(OWN):
                raise
            # A box that cannot be added is no reason to leave out what else was picked. It is told where it is typed.
            plain = enquiry_from_form(self.resolver.catalogue, [p for p in pairs if p[0] != ADD])
            own = own._replace(trouble=error.text)
        return check_enquiry(plain), look_from_form(pairs), own

    def reply(self, request: dict[str, Any]) -> dict[str, Any]:
        """Fragments that changed, figures and the link of a request's enquiry."""
        if request.get("kind") == "later":
            return self.later()
        if request.get("kind") == "ahead":
            return self.look_ahead(request)
        if request.get("kind") == "start":
            self.scene, self.work, self.undrawn = None, None, False
            self.shown = {REFUSED: form_error(None)}
            self.opening = self._opened()
            return {"fragments": {}, "link": "", "later": True}
        before, enquiry = self.scene, self.enquiry(request)
        if request["kind"] != "pick":
            # What was typed and picked on the page without being read has to go with the build before.
            self.shown = {}
        known, self.ahead, self.opening = self.ahead, None, None
        if before is not None and self._only_another_day(before, enquiry):
            known = self._another_day(before)
        else:
            asked = (enquiry, self.look, self.own)
            if known is None or (known.scene.enquiry, known.scene.look, known.scene.own) != asked:
                known = self._worked_out(enquiry, self.own)
            # Who moves something in a drawing looks at that drawing.
            self.undrawn = before is None or before.enquiry.moves == enquiry.moves
        self.scene, self.work = known.scene, known.work
        return self._told(known.parts)

    def look_ahead(self, request: dict[str, Any]) -> dict[str, Any]:
        """Fragments that a pick would change, without anything being chosen by it."""
        enquiry, look, own = self._form(request)
        # Another day is quickly shown when it is asked for.
        if look != self.look:
            return {}
        self.ahead = self._worked_out(enquiry, own)
        return {"fragments": self._differing(self.ahead.parts)}

    def _only_another_day(self, before: Scene, enquiry: Enquiry) -> bool:
        known = before.figures.energy
        return self.look != before.look and enquiry == before.enquiry and known is not None and known.complete

    def _another_day(self, before: Scene) -> WorkedOut:
        energy, rest = _step(day_slices(before.build, before.figures, self.look))
        scene = before._replace(look=self.look, own=self.own, figures=before.figures._replace(energy=energy))
        return WorkedOut(scene, rest, answer_fragments(scene))

    def _worked_out(self, enquiry: Enquiry, own: OwnBox) -> WorkedOut:
        scene, work = self._begun(enquiry, own)
        return WorkedOut(scene, work, answer_fragments(scene))

    def _begun(self, enquiry: Enquiry, own: OwnBox = UNTYPED) -> tuple[Scene, Work | None]:
        """An enquiry with what is quickly known, and what is still to be worked out of it."""
        rest: Work | None = None

        def begin(build: Build, figures: Figures) -> EnergyFigures | None:
            # The first step of slow work is quick: it takes what is remembered and rests before anything else.
            nonlocal rest
            energy, rest = _step(energy_slices(build, figures, self.look))
            return energy

        return scene_with(self.resolver, enquiry, begin)._replace(look=self.look, own=own), rest

    def _opened(self) -> Iterator[dict[str, Any]]:
        """The start worked out in slices. Of what the page shows only its floor plan changes: it can be moved now."""
        self.scene, self.work = self._begun(start_enquiry(self.resolver.catalogue))
        yield {"later": True}
        answer_fragments(self.scene)
        yield {"later": True}
        yield {"fragments": {"draw-day": reference_fragments(self.scene)["draw-day"]}, "later": True}
        while self.work is not None:
            energy, self.work = _step(self.work)
            self.scene = self.scene._replace(figures=self.scene.figures._replace(energy=energy))
            yield {"later": True}
        self.scene = self.scene._replace(findings=judge(self.scene.build, self.scene.figures))
        # All of it is shown already.
        yield self._told(self._known(self.scene)) | {"fragments": {}}

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
        energy, self.work = _step(self.work)
        if energy is None or energy is self.scene.figures.energy:
            return {"later": self.work is not None}
        figures = self.scene.figures._replace(energy=energy)
        self.scene = self.scene._replace(figures=figures, findings=judge(self.scene.build, figures))
        return self._told(self._known(self.scene))

    @staticmethod
    def _known(scene: Scene) -> dict[str, str]:
        """Fragments of a scene of which more is known by now. An entry refused meanwhile is no matter of it."""
        return {name: html for name, html in answer_fragments(scene).items() if name != REFUSED}

    def _told(self, answered: dict[str, str]) -> dict[str, Any]:
        """What is said of the scene, with its answer's fragments."""
        assert self.scene is not None
        scene = self.scene
        parts = answered | ({} if self.undrawn else reference_fragments(scene))
        return {
            "fragments": self._changed(parts),
            "figures": figures_document(scene.figures),
            "verdicts": [[f.rule, f.verdict] for f in scene.findings],
            "enquiry": scene.enquiry.model_dump(mode="json", exclude_defaults=True),
            "link": scene.link,
            "later": self.undrawn or self.work is not None,
        }

    def _differing(self, parts: dict[str, str]) -> dict[str, str]:
        """Those that the page does not show yet."""
        return {name: html for name, html in parts.items() if self.shown.get(name) != html}

    def _changed(self, parts: dict[str, str]) -> dict[str, str]:
        """Those that the page does not show yet; from now on it does."""
        changed = self._differing(parts)
        self.shown |= parts
        return changed


def _step(work: Work) -> tuple[EnergyFigures | None, Work | None]:
    """What is known after one slice more, and the work that is left."""
    try:
        return next(work), work
    except StopIteration as done:
        return done.value, None


_desk: Desk | None = None


def open_shop(catalogue_json: str) -> str:
    """Load the published catalogue; returns JSON with its date."""
    global _desk
    catalogue = read_catalogue_json(catalogue_json)
    _desk = Desk(Resolver(catalogue, load_places()))
    return json.dumps({"ready": True, "dated": catalogue.dated})


def answer(request_json: str) -> str:
    """Answer one message of the page. What is wrong with the message comes back as ``error``, with its place; of a pick
    also the line that says it beside the form."""
    if _desk is None:
        return json.dumps({"error": {"where": "engine", "text": "The catalogue is not loaded yet."}})
    request = json.loads(request_json)
    try:
        return json.dumps(_desk.reply(request))
    except EnquiryProblems as problems:
        return _refused(_desk, request, FormError(problems.problems[0].where, str(problems)))
    except FormError as error:
        return _refused(_desk, request, error)
    except UnknownChoiceError as error:
        return _refused(_desk, request, FormError(error.where, str(error)))


def _refused(desk: Desk, request: dict[str, Any], error: FormError) -> str:
    reply: dict[str, Any] = {"error": {"where": error.field, "text": error.text}}
    if request.get("kind") == "pick":
        reply["fragments"] = {REFUSED: form_error(error)}
        desk.shown |= reply["fragments"]
    return json.dumps(reply)
