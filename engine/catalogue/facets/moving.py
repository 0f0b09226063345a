"""Facets of things that move: beds and lids on gas struts, drawers, entry steps."""

from typing import Literal, Self

from pydantic import Field, model_validator

from engine.catalogue.facets.base import Facet
from engine.catalogue.quantities import Degree, Fraction, Kg, Metre, Newton
from engine.physics.strut import Hinge, strut_span_m


class GasStrutLift(Facet):
    """A bed or a lid on a hinge that gas struts lift.

    Distances run from the hinge: along the shut bed, and up from it (below the hinge is negative).
    """

    kind: Literal["gas-strut-lift"]
    moved_kg: Kg = Field(ge=2, le=200, description="all that moves: frame, slats, mattress, bedding")
    centre_m: Metre = Field(ge=0.05, le=2.5, description="its centre of mass, along the bed")
    centre_up_m: Metre = Field(default=0, ge=-0.3, le=0.4, description="its centre of mass, up from the hinge")
    hand_m: Metre = Field(ge=0.1, le=2.5, description="where the hand takes hold, along the bed")
    eye_on_bed_m: Metre = Field(ge=0.02, le=2.5, description="strut's upper eye, along the bed")
    eye_on_bed_up_m: Metre = Field(default=0, ge=-0.5, le=0.3, description="strut's upper eye, up from the hinge")
    eye_on_body_m: Metre = Field(ge=-1, le=2.5, description="strut's lower eye, along the shut bed")
    eye_on_body_up_m: Metre = Field(ge=-1.2, le=1.2, description="strut's lower eye, up from the hinge")
    opens_deg: Degree = Field(ge=10, le=110, description="how far it turns")
    struts: int = Field(ge=1, le=6, description="how many struts")
    force_n: Newton = Field(ge=30, le=2500, description="rating of one strut, drawn out (F1)")
    rise_frac: Fraction = Field(
        default=0.3, ge=0, le=0.6, description="how much more it gives pressed in (0.3: F2 is 1.3 times F1)"
    )
    drawn_out_m: Metre | None = Field(default=None, gt=0.1, le=2, description="length eye to eye, drawn out")
    stroke_m: Metre | None = Field(default=None, gt=0.03, le=1, description="stroke")
    catch: bool = Field(default=False, description="a catch holds it shut")

    @property
    def hinge(self) -> Hinge:
        """Hinge and eyes as physics has them."""
        return Hinge(
            self.moved_kg,
            self.centre_m,
            self.centre_up_m,
            self.hand_m,
            self.eye_on_bed_m,
            self.eye_on_bed_up_m,
            self.eye_on_body_m,
            self.eye_on_body_up_m,
            self.opens_deg,
        )

    @model_validator(mode="after")
    def _holds_together(self) -> Self:
        if (self.drawn_out_m is None) != (self.stroke_m is None):
            raise ValueError("drawn_out and stroke belong together: write both or neither")
        if self.drawn_out_m is not None and self.stroke_m is not None and self.stroke_m >= self.drawn_out_m / 2:
            raise ValueError("the stroke is less than half the length drawn out: rod and tube slide into each other")
        if strut_span_m(self.hinge)[0] < 0.05:
            raise ValueError("the strut's eyes come within 5 cm of each other on the way: move one of them")
        return self


class LiftedLoad(Facet):
    """Rides on the lifted bed of the same place and makes it heavier (a better mattress, a topper)."""

    kind: Literal["lifted-load"]
    load_kg: Kg | None = Field(
        default=None, ge=0.1, le=150, description="what of it rides on the bed; the option's own mass when left out"
    )


class Drawer(Facet):
    """A drawer or tray on a pair of slides."""

    kind: Literal["drawer"]
    moved_kg: Kg = Field(ge=0.2, le=200, description="the drawer itself, without slides")
    content_kg: Kg = Field(ge=0, le=600, description="what it is meant to hold")
    slide_rating_kg: Kg | None = Field(
        default=None,
        gt=1,
        le=1000,
        description="what the pair of slides carries at this extension, as its maker states",
    )
    extension_m: Metre = Field(gt=0.05, le=3, description="how far it comes out")


class EntryStep(Facet):
    """Steps at the entry, below the floor."""

    kind: Literal["entry-step"]
    treads: int = Field(ge=1, le=6, description="treads between road and floor, the floor not counted")
    rating_kg: Kg | None = Field(default=None, gt=30, le=500, description="load it is rated for, as its maker states")
    moves: Literal["fixed", "folds", "slides"] = Field(description="fixed, folding or sliding out")
    retracts_with_ignition: bool = Field(
        default=False, description="comes in by itself when the engine starts, or warns the driver until it is in"
    )
