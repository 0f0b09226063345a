"""The unit words that shop files may use, and what each means to pint.

A closed list on purpose: pint alone would read "gr" as grain, "a" as year and "ton" as the short ton, and an author
would never learn of it. Author's side only.
"""

# word -> pint's name for it
WORDS: dict[str, str] = {
    # mass
    "kg": "kilogram", "g": "gram", "t": "metric_ton", "tonne": "metric_ton", "tonnes": "metric_ton",
    "lb": "pound", "lbs": "pound", "pound": "pound", "pounds": "pound", "oz": "ounce",
    "kilogram": "kilogram", "kilograms": "kilogram", "gram": "gram", "grams": "gram",
    "ounce": "ounce", "ounces": "ounce",
    # length
    "m": "meter", "metre": "meter", "metres": "meter", "meter": "meter", "meters": "meter",
    "cm": "centimeter", "mm": "millimeter", "km": "kilometer", "in": "inch", "inch": "inch",
    "inches": "inch", "ft": "foot", "foot": "foot", "feet": "foot", "yd": "yard", "mi": "mile", "mile": "mile",
    "miles": "mile",
    # volume
    "L": "liter", "l": "liter", "liter": "liter", "liters": "liter", "litre": "liter", "litres": "liter",
    "ml": "milliliter", "mL": "milliliter", "gal": "gallon", "gallon": "gallon", "gallons": "gallon", "qt": "quart",
    "floz": "fluid_ounce", "impgal": "imperial_gallon",
    # power and energy
    "W": "watt", "watt": "watt", "watts": "watt", "kW": "kilowatt", "hp": "horsepower",
    "VA": "volt_ampere", "kVA": "kilovolt_ampere",
    "Wh": "watt_hour", "kWh": "kilowatt_hour", "J": "joule", "kJ": "kilojoule", "MJ": "megajoule",
    "BTU": "british_thermal_unit", "Btu": "british_thermal_unit", "btu": "british_thermal_unit",
    # electricity
    "V": "volt", "volt": "volt", "volts": "volt", "mV": "millivolt", "A": "ampere", "amp": "ampere", "amps": "ampere",
     "mA": "milliampere", "Ah": "ampere_hour",
    "mAh": "milliampere_hour", "ohm": "ohm", "mohm": "milliohm",
    # time
    "s": "second", "sec": "second", "second": "second", "seconds": "second", "min": "minute", "mins": "minute",
    "minute": "minute", "minutes": "minute", "h": "hour", "hr": "hour", "hrs": "hour", "hour": "hour", "hours": "hour",
    "d": "day", "day": "day",
    "days": "day", "week": "week", "weeks": "week",
    # temperature
    "K": "kelvin", "degC": "degree_Celsius", "°C": "degree_Celsius", "degF": "degree_Fahrenheit",
    "°F": "degree_Fahrenheit",
    # pressure
    "Pa": "pascal", "kPa": "kilopascal", "bar": "bar", "mbar": "millibar", "psi": "pound_force_per_square_inch",
    "inwc": "inH2O",
    # force
    "N": "newton", "kN": "kilonewton", "lbf": "pound_force",
    # flow
    "cfm": "cubic_feet_per_minute", "CFM": "cubic_feet_per_minute", "gpm": "gallon_per_minute",
    "lpm": "liter_per_minute",
    # shares and angles
    "%": "percent", "percent": "percent", "1": "dimensionless", "deg": "degree", "°": "degree",
}  # fmt: skip

# Names in WORDS that pint spells as a product of others.
COMPOUND: dict[str, str] = {
    "watt_hour": "watt * hour",
    "kilowatt_hour": "kilowatt * hour",
    "ampere_hour": "ampere * hour",
    "milliampere_hour": "milliampere * hour",
    "kilovolt_ampere": "kilovolt * ampere",
    "volt_ampere": "volt * ampere",
    "cubic_feet_per_minute": "foot ** 3 / minute",
    "gallon_per_minute": "gallon / minute",
    "liter_per_minute": "liter / minute",
}

# Two-word spellings, replaced before the unit is taken apart.
PHRASES: dict[str, str] = {
    "sq ft": "ft²",
    "sq in": "in²",
    "sq m": "m²",
    "cu ft": "ft³",
    "fl oz": "floz",
    "imp gal": "impgal",
    "° C": "°C",
    "° F": "°F",
}

# Words people write that stay refused, each with what to write.
REFUSED: dict[str, str] = {
    "ton": 'There are several tons: write "t" (1000 kg), "kg" or "lb".',
    "tons": 'There are several tons: write "t" (1000 kg), "kg" or "lb".',
    "gr": 'Write "g" for grams.',
    "gm": 'Write "g" for grams.',
    "C": 'Write "degC" or "°C" for a temperature.',
    "F": 'Write "degF" or "°F" for a temperature.',
    "c": 'Write "degC" or "°C" for a temperature.',
    "f": 'Write "degF" or "°F" for a temperature.',
    "R": "R-values are not read: state thickness and conductivity.",
}

# What a quantity of this unit is called, with some units a person may pick.
KINDS: dict[str, tuple[str, str]] = {
    "kg": ("a mass", "kg, g, t, lb, oz"),
    "m": ("a length", "m, cm, mm, in, ft"),
    "km": ("a distance", "km, mi"),
    "m²": ("an area", "m², ft²"),
    "cm²": ("an area", "cm², in²"),
    "L": ("a volume", "L, mL, gal, qt"),
    "W": ("a power", "W, kW, BTU/h, hp"),
    "VA": ("an apparent power", "VA, kVA, W"),
    "Wh": ("an energy", "Wh, kWh, MJ"),
    "V": ("a voltage", "V"),
    "A": ("a current", "A, mA"),
    "Ah": ("a battery capacity", "Ah, mAh"),
    "ohm": ("a resistance", "ohm, mohm"),
    "h": ("a time", "h, min"),
    "s": ("a time", "s, min"),
    "day": ("a time", "days, weeks, h"),
    "°C": ("a temperature", "degC, degF"),
    "K": ("a temperature difference", "K"),
    "1": ("a share", "%"),
    "1/K": ("a change per degree", "%/K"),
    "°": ("an angle", "deg"),
    "kPa": ("a pressure", "kPa, bar, psi, inwc"),
    "N": ("a force", "N, kN, lbf"),
    "m³/h": ("a flow", "m³/h, cfm"),
    "kg/h": ("a mass flow", "kg/h, g/h, lb/h"),
    "L/min": ("a flow", "L/min, gpm"),
    "kg/m²": ("a mass per area", "kg/m², lb/ft²"),
    "1/m²": ("a price by area", "per m², per ft²"),
    "kg/m³": ("a density", "kg/m³, lb/ft³"),
    "W/(m·K)": ("a thermal conductivity", "W/m/K, BTU/h/ft/degF"),
    "W/(m²·K)": ("a heat transmittance", "W/m²/K, BTU/h/ft²/degF"),
    "kWh/m²/day": ("a daily irradiation", "kWh/m²/day"),
}
