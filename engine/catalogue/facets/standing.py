"""How a piece of furniture stands in the room: its wall, what has to stay free round it, its shape by night."""

from typing import Literal

from pydantic import Field

from engine.catalogue.quantities import Entry, Metre

Stands = Literal["left", "right", "either", "front", "rear", "free", "over-cab"]
"""Against one of the side walls, against the front or the rear end (in its middle), free in the middle, or in the part
of the body over the cab."""

Storage = Literal["garage", "overhead", "wardrobe", "drawers", "under-bed", "cupboard"]

Use = Literal["door", "drawer", "sliding-door", "standing", "lifted-bed", "aisle"]
"""What needs the space: a door's swing, a drawer's pull, the slot of a sliding door, a person, a bed on its way."""


class FreeSpace(Entry):
    """A box beside a module that nothing else may stand in.

    Its place is seen by somebody who looks at the module from the aisle: x from the module's front edge rearward, y
    from the module's aisle side into the room (negative: into the module itself), z from the finished floor.
    """

    use: Use = Field(description="what needs it")
    x_m: Metre = Field(default=0, ge=-2, le=4, description="from the module's front edge")
    y_m: Metre = Field(default=0, ge=-2, le=1.5, description="from the module's aisle side into the room")
    z_m: Metre = Field(default=0, ge=0, le=2.3, description="above the finished floor")
    length_m: Metre | None = Field(
        default=None, gt=0.02, le=4, description="size along the vehicle; default: as long as the module"
    )
    depth_m: Metre = Field(gt=0.02, le=2, description="size across the vehicle")
    height_m: Metre = Field(default=1.9, gt=0.02, le=2.3, description="height")


class Night(Entry):
    """A module by night; what is not stated is as by day."""

    length_m: Metre | None = Field(default=None, gt=0.1, le=4, description="size along the vehicle")
    depth_m: Metre | None = Field(default=None, gt=0.1, le=2.6, description="size across the vehicle")
    height_m: Metre | None = Field(
        default=None,
        gt=0.05,
        le=2.4,
        description="height, mattress included; of a bed made up from seats by default 0.45 m",
    )
    base_m: Metre | None = Field(default=None, ge=0, le=2, description="its underside above the finished floor")
