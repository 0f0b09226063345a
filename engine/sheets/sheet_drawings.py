"""All drawings of a sheet and the parts list that goes with them, as fragments."""

from __future__ import annotations

from markupsafe import Markup

from engine.sheets import by_hand
from engine.sheets.drawings import floor_plan, rear_view, roof_plan, side_view
from engine.sheets.parts_list import listed, numbers, parts_list
from engine.sheets.view import Scene


def drawings(scene: Scene, by_rule: dict[str, str], movable: bool) -> dict[str, Markup]:
    """The drawings by their elements' ids.

    movable: the floor plan by day has handles and tools for moving modules; else it is a picture.
    """
    build, plan = scene.build, scene.figures.plan
    numbered = numbers(build, scene.figures)
    moved = by_hand.moved_entries(scene.enquiry)
    tools = by_hand.tools(by_hand.tools_for(scene, plan, numbered) if movable else (), moved)
    return {
        "draw-day": floor_plan.draw(floor_plan.floor_plan(scene, plan, "day", numbered, movable), tools),
        "draw-side": side_view.draw(side_view.side_view(scene, by_rule, numbered)),
        "draw-night": floor_plan.draw(floor_plan.floor_plan(scene, plan, "night", numbered, False), Markup("")),
        "draw-roof": roof_plan.draw(roof_plan.roof_plan(scene, numbered)),
        "draw-rear": rear_view.draw(rear_view.rear_view(scene, plan, numbered)),
        "parts-list": parts_list(listed(scene, numbered)),
    }
