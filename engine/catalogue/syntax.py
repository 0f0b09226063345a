"""TOML mistakes in words an author understands."""

from __future__ import annotations

import re

from engine.catalogue.problems import Problem

# How tomllib's message begins -> what that means, what to do.
_SYNTAX = {
    "Expected newline": (
        "The line goes on after its value",
        'Text and quantities need quotes, for example mass = "27 kg".',
    ),
    "Invalid value": (
        "There is no readable value",
        'After "=" comes a text in quotes, a number, true, false or a list in [ ].',
    ),
    "Invalid initial character for a key part": (
        "A key starts with a character it cannot have",
        "A key is made of letters, digits, - and _.",
    ),
    "Invalid statement": (
        "The line cannot be read",
        "A line is a comment (#), a [table], a [[list of tables]] or key = value.",
    ),
    "Expected '='": ('There is no "=" after the key', 'A key is followed by "=" and a value.'),
    "Cannot overwrite a value": ("This key is already written above", "The same key stands twice; keep one."),
    "Cannot declare": (
        "This table is already written above",
        "The same table stands twice; keep one, or write [[ ]] for a list.",
    ),
    "Cannot redefine namespace": (
        "A table and a list have the same name",
        "Write [[ ]] each time for a list of tables, above too.",
    ),
    "Cannot mutate immutable": (
        "A key written on one line in { } or [ ] cannot be added to below",
        "Write all of it in one place.",
    ),
    "Unclosed array": (
        "A list is not closed before here",
        "A list is closed with ], and between its entries stand commas.",
    ),
    "Unclosed inline table": (
        "A table is not closed before here",
        "A table on one line is closed with }, and between its entries stand commas.",
    ),
    "Unterminated string": ("A text is not closed", "A text is closed with the same quotes it began with."),
    "Illegal character '\\n'": (
        "A text is not closed on its line",
        "A text in single quotes ends on its own line; long texts stand between triple quotes.",
    ),
    "Illegal character": ("A text holds a control character", "Take the character out."),
    "Expected ']": ("The name of a table is not closed", "A table name is closed with ] or ]]."),
    "Unescaped '\\'": ("A backslash stands alone in a text", 'Write "\\\\" for a backslash.'),
    "Duplicate inline table key": ("This key stands twice in its table", "The same key stands twice; keep one."),
}

_HABITS = (
    (r"=\s*[“”„‘’«»]", 'Quotes are straight ones, for example mass = "27 kg".'),
    (
        r"^\s*((cost_)?price|labour_rate|budget)\s*=\s*([€$£¥]|[\d., ]+[^\d.,\s#;])",
        "Money is a plain number: price = 120.00",
    ),
    (r"^\s*months\s*=\s*\d", "A list stands in [ ]: months = [4, 5, 6]"),
    (r"=\s*[+-]?\d+,\d", "Write a point for decimals and nothing between thousands."),
    (r"=\s*[+-]?(\.\d|\d+\.(?!\d))", "A number has digits on both sides of its point: 0.9, 29.0"),
    (r"=\s*[+-]?0\d", "A number does not begin with 0."),
    (r"(?i)=\s*(true|false|yes|no)\b", "Write true or false, in small letters and without quotes."),
    (r"=\s*[^\s\"']+\s*;", "A line ends without a semicolon."),
    (r'^[^=#{]*=\s*"[^"]*"\s+[\w-]+\s*=', "Each key stands on a line of its own."),
    (r'^[^=#{]*=\s*"[^"]*"\s*[^\s"#,\]}]', 'A quote inside a text has a backslash before it: "Panel 21\\" wide"'),
    (r"^\s*[\w-]+\s+[\w-]+\s*=", "A key is one word, with _ in place of spaces: cost_price"),
    (r",\s*\}", "No comma stands before the }."),
    (r"^\s*//", "A comment begins with #."),
)
"""What people write and TOML cannot read, as it looks in the line where it gives up, and what to write instead."""


def syntax_problem(name: str, text: str, message: str) -> Problem:
    """A TOML mistake with line, column and what such a line should look like."""
    match = re.search(r"\s*\(at line (\d+), column (\d+)\)$", message)
    lines = text.split("\n")
    line, column = (int(match[1]), int(match[2])) if match else (len(lines), 0)
    plain = re.sub(r"\s*\(at [^)]*\)$", "", message)
    told = (words for start, words in _SYNTAX.items() if message.startswith(start))
    said, hint = next(told, (plain, "Compare it with a neighbouring line."))
    shown = lines[line - 1].strip() if 0 < line <= len(lines) else ""
    if shown.startswith("[[") and message.startswith("Cannot overwrite"):
        said, hint = _SYNTAX["Cannot redefine namespace"]
    hint = next((instead for habit, instead in _HABITS if re.search(habit, shown)), hint)
    if len(shown) > 80:
        shown = shown[:76] + " …"
    return Problem(name, line, column, said=f"{said}: {shown}" if shown else f"{said}.", instead=hint)


def number_problem(name: str, text: str, message: str) -> Problem:
    """A number that TOML allows and Python does not hold: thousands of digits, or an exponent without end."""
    found = re.search(r"[0-9_]{4000,}", text)
    at = found.start() if found else text.find(message)
    line = text.count("\n", 0, at) + 1 if at >= 0 else 0
    return Problem(name, line, said="This number is out of all range.", instead="Write an ordinary number.")
