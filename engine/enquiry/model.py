"""An enquiry: what one buyer chooses and how the buyer will travel."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from engine.catalogue.quantities import Line, Metre, Slug
from engine.catalogue.trip import Trip

FORMAT: Literal[1] = 1
"""Version of the enquiry's file format and link."""

Count = Annotated[int, Field(ge=1, le=20)]


class Move(BaseModel):
    """Where the buyer wants a module: kept even where it does not fit."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    x_m: Metre = Field(ge=0, le=12, description="from the bare inner front wall to the module's front edge")
    side: Literal["left", "right"] = Field(description="wall it is to stand at")


class Enquiry(BaseModel):
    """Choices and trip, exactly as they came. Option ids that the catalogue lacks stay here and are reported later."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    format: Literal[1] = Field(default=FORMAT, description="version of the format")
    workshop: Slug | None = Field(default=None, description="workshop whose catalogue was chosen from")
    vehicle: Slug = Field(description="id of the base vehicle")
    options: dict[Slug, Count] = Field(default={}, max_length=400, description="option ids with how many")
    trip: Trip = Field(description="how the buyer will travel")
    moves: dict[Slug, Move] = Field(
        default={}, max_length=60, description="ids of options whose module the buyer moved (the first of several)"
    )
    title: Line | None = Field(default=None, description="the buyer's own name for this build")
    catalogue_dated: str | None = Field(
        default=None, pattern=r"^\d{4}-\d{2}-\d{2}$", description="date of the catalogue the choices were made from"
    )
