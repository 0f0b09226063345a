"""The one JSON document of a check: figures and findings with stable keys, in SI units.

Its schema is published with the site; ``loadstead check --json`` prints it, and the browser gets the same figures.
"""

from typing import Any, get_args

from engine.build import Figures
from engine.rule import Category, Finding, Origin, Verdict

FIGURES: dict[str, tuple[str, str]] = {
    "price": ("money", "price with tax, in the workshop's currency"),
    "labour_h": ("h", "labour hours"),
    "lead_time_d": ("d", "days until all parts are there"),
    "loaded_kg": ("kg", "mass of the heaviest load case"),
    "payload_left_kg": ("kg", "gross rating less the heaviest load case"),
    "front_axle_kg": ("kg", "highest front axle load"),
    "rear_axle_kg": ("kg", "highest rear axle load"),
    "gross_exceed_frac": ("frac", "chance that the heaviest load case exceeds the gross rating"),
    "front_axle_exceed_frac": ("frac", "chance that the front axle's highest load exceeds its rating"),
    "rear_axle_exceed_frac": ("frac", "chance that the rear axle's highest load exceeds its rating"),
    "front_axle_left_kg": ("kg", "front axle rating less its highest load"),
    "rear_axle_left_kg": ("kg", "rear axle rating less its highest load"),
    "panels_placed": ("count", "solar panels that have a place on the roof"),
    "panel_w": ("w", "their rated power"),
    "battery_usable_wh": ("wh", "usable part of the full house battery"),
    "battery_current_a": ("a", "battery current with the plausible loads running"),
    "battery_short_a": ("a", "prospective short-circuit current at the battery; null without one sound bank"),
    "battery_life_d": ("d", "days until four fifths of the battery's capacity are left, used as on this trip"),
    "hookup_full_h": ("h", "hours on a hook-up from empty to full; null without a charger"),
    "driving_full_h": ("h", "hours of driving from empty to full; null without a charger"),
    "use_wh_d": ("wh_d", "energy taken a day"),
    "sun_wh_d": ("wh_d", "energy from the sun a day, hardest chosen month"),
    "driving_wh_d": ("wh_d", "energy from driving a day"),
    "off_grid_d": ("d", "days off the grid in a usual year; null when the battery is not empty in the days looked at"),
    "off_grid_poor_d": ("d", "the same in the poor year of ten"),
    "off_grid_seen_d": ("d", "days looked at; null while only the mean day is known"),
    "sun_alone_frac": ("frac", "share of the year's days that the sun alone covers; null while it is not known"),
    "heat_loss_w_k": ("w_k", "heat lost per degree"),
    "design_loss_w": ("w", "heat lost on the coldest night"),
    "held_degc": (
        "degc",
        "coldest night at which the wanted warmth is held; at lowest the place's coldest of the year, "
        "null without a heater",
    ),
    "warm_up_h": ("h", "hours from cold through to the wanted warmth on that night; null where it is never reached"),
    "night_heat_wh": ("wh", "heat of the coldest night, six to nine; null without a heater or need of one"),
    "night_gas_kg": ("kg", "gas for it"),
    "night_diesel_l": ("l", "diesel for it"),
    "hot_day_degc": ("degc", "warmest inside on the hottest day, shut in the sun without a cooler; null without heat"),
    "hot_day_shade_degc": ("degc", "the same in the shade, a window open and a fan on if there is one"),
    "cooling_wh_d": ("wh_d", "what coolers take on a usual day of the hottest week; null without heat"),
    "fresh_water_d": ("d", "days of fresh water; null without a tank"),
    "grey_water_d": ("d", "days until the waste tank is full; null without one"),
    "toilet_d": ("d", "days until the toilet is full; null without one"),
    "gas_d": ("d", "days of gas; null when none is used, 0 when nothing holds it"),
    "clear_length_m": ("m", "clear length inside, insulation and linings taken off"),
    "clear_width_m": ("m", "clear width inside at the height of the bed"),
    "headroom_m": ("m", "clear height inside"),
    "aisle_m": ("m", "narrowest place of the way through; null when nothing stands on it, or something has no place"),
}
"""Every published figure: key, unit and meaning."""


def figures_document(f: Figures) -> dict[str, dict[str, Any]]:
    """Value and unit of every published figure, with the band's ends where there is one."""
    m, heavy = f.mass, f.mass.heaviest
    front, rear = m.front_worst, m.rear_worst
    up, hot = f.warm_up, f.cool_day
    hours = {c.source: c.full_h for c in f.power.charges}
    values: dict[str, float | None] = {
        "price": float(f.money.total),
        "labour_h": f.money.labour_h,
        "lead_time_d": f.money.lead_time_d,
        "loaded_kg": heavy.axles.total_kg,
        "payload_left_kg": f.mass.gross_rating_kg - heavy.axles.total_kg,
        "front_axle_kg": front.axles.front_kg,
        "rear_axle_kg": rear.axles.rear_kg,
        "gross_exceed_frac": m.gross_exceed_frac,
        "front_axle_exceed_frac": m.front_exceed_frac,
        "rear_axle_exceed_frac": m.rear_exceed_frac,
        "front_axle_left_kg": m.front_rating_kg - front.axles.front_kg,
        "rear_axle_left_kg": m.rear_rating_kg - rear.axles.rear_kg,
        "panels_placed": float(f.roof.panels_placed),
        "panel_w": f.power.panel_w,
        "battery_usable_wh": f.power.usable_wh,
        "battery_current_a": f.power.current_a,
        "battery_short_a": f.power.bank.short_a,
        "battery_life_d": f.power.life_d,
        "hookup_full_h": hours.get("hook-up"),
        "driving_full_h": hours.get("driving"),
        "use_wh_d": f.hardest.use_wh_d,
        "sun_wh_d": f.hardest.sun_wh_d,
        "driving_wh_d": f.hardest.driving_wh_d,
        "off_grid_d": f.energy.trip.median_empty_d if f.energy else f.hardest.days,
        "off_grid_poor_d": f.energy.trip.poor_empty_d if f.energy else None,
        "off_grid_seen_d": float(f.energy.days_count) if f.energy else None,
        "sun_alone_frac": f.energy.sun_alone_frac if f.energy else None,
        "heat_loss_w_k": f.warmth.total_w_k,
        "design_loss_w": f.warmth.design_loss_w,
        "held_degc": f.warmth.held_degc,
        "warm_up_h": up.warm_up_h if up else None,
        "night_heat_wh": up.fuel.heat_wh if up else None,
        "night_gas_kg": up.fuel.gas_kg if up else None,
        "night_diesel_l": up.fuel.diesel_l if up else None,
        "hot_day_degc": hot.alone_degc if hot else None,
        "hot_day_shade_degc": hot.shade_degc if hot else None,
        "cooling_wh_d": hot.week_wh_d if hot else None,
        "fresh_water_d": f.water.fresh_days,
        "grey_water_d": f.water.grey_days,
        "toilet_d": f.water.toilet_days,
        "gas_d": f.gas.gas_days,
        "clear_length_m": f.plan.inside.length_m,
        "clear_width_m": f.plan.inside.width_m,
        "headroom_m": f.plan.inside.headroom_m,
        "aisle_m": f.plan.aisle_m,
    }
    bands = {
        "loaded_kg": (heavy.axles.total_kg - heavy.spread_kg, heavy.axles.total_kg + heavy.spread_kg),
        "front_axle_kg": (front.axles.front_kg - front.front_spread_kg, front.axles.front_kg + front.front_spread_kg),
        "rear_axle_kg": (rear.axles.rear_kg - rear.rear_spread_kg, rear.axles.rear_kg + rear.rear_spread_kg),
        "heat_loss_w_k": (f.warmth.low_w_k, f.warmth.high_w_k),
    }
    return {
        key: {"value": value, "unit": FIGURES[key][0]}
        | ({"low": bands[key][0], "high": bands[key][1]} if key in bands else {})
        for key, value in values.items()
    }


_SI = {
    "heat_w": "w", "heat_wh": "wh", "water_kg_m2": "kg_m2", "space_l": "l", "thick_m": "m", "gas_kpa": "kpa",
    "run_m": "m",
}  # fmt: skip
"""Units that differ only in how readers know them."""


def finding_document(f: Finding) -> dict[str, Any]:
    """One finding with stable keys."""
    return {
        "rule": f.rule,
        "title": f.title,
        "category": f.category,
        "verdict": f.verdict,
        "measured": f.measured,
        "low": f.low,
        "high": f.high,
        "limit": f.limit,
        "unit": _SI.get(f.unit or "", f.unit),
        "margin": f.margin,
        "cause": f.cause,
        "remedy": f.remedy,
        "missing": f.missing,
        "options": list(f.options),
        "because": list(f.because),
        "facts": [x._asdict() | {"unit": _SI.get(x.unit or "", x.unit)} for x in f.facts],
        "sources": list(f.sources),
    }


def check_document(figures: Figures, findings: tuple[Finding, ...]) -> dict[str, Any]:
    """Figures and findings of one build."""
    return {"figures": figures_document(figures), "findings": [finding_document(f) for f in findings]}


def document_schema() -> dict[str, Any]:
    """JSON Schema of ``check_document``."""
    number = {"type": ["number", "null"]}
    text = {"type": "string"}
    texts = {"type": "array", "items": text}
    figure = {
        "type": "object",
        "properties": {"value": number, "unit": text, "low": number, "high": number},
        "required": ["value", "unit"],
        "additionalProperties": False,
    }
    fact = {
        "type": "object",
        "properties": {
            "name": text,
            "value": {"type": ["number", "string", "boolean"]},
            "unit": {"type": ["string", "null"]},
            "origin": {"enum": list(get_args(Origin))},
        },
        "required": ["name", "value", "unit", "origin"],
        "additionalProperties": False,
    }
    finding: dict[str, Any] = {
        "rule": text,
        "title": text,
        "category": {"enum": list(get_args(Category))},
        "verdict": {"enum": list(get_args(Verdict))},
        "measured": number,
        "low": number,
        "high": number,
        "limit": number,
        "unit": {"type": ["string", "null"]},
        "margin": number,
        "cause": text,
        "remedy": text,
        "missing": {"type": ["string", "null"]},
        "options": texts,
        "because": texts,
        "facts": {"type": "array", "items": fact},
        "sources": texts,
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Check of a build",
        "description": "Figures and findings in SI units; texts in the workshop's display units.",
        "type": "object",
        "properties": {
            "figures": {
                "type": "object",
                "properties": {k: figure | {"description": f"{d} [{u}]"} for k, (u, d) in FIGURES.items()},
                "required": list(FIGURES),
                "additionalProperties": False,
            },
            "findings": {
                "type": "array",
                "items": {
                    "type": "object",
                    "properties": finding,
                    "required": list(finding),
                    "additionalProperties": False,
                },
            },
        },
        "required": ["figures", "findings"],
        "additionalProperties": False,
    }
