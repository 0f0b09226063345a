"""Enquiries as links: text for the part of an address after ``#``, which browsers never send to a server."""

import json
import zlib
from base64 import urlsafe_b64encode
from binascii import Error, a2b_base64

from engine.enquiry.file import plain, read_enquiry
from engine.enquiry.model import Enquiry
from engine.enquiry.problems import EnquiryProblems

VERSION = "1"
"""First character of a link: how the rest is packed, and with which words."""

MOST_CHARACTERS = 6_000
MOST_BYTES = 64 * 1024
"""A link is neither longer than this nor does it unpack to more; both are checked before anything is read from it."""

_ALPHABET = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_")
_TO_PLAIN = str.maketrans("-_", "+/")

_WORDS = (
    b"roof-rack-awning-ladder-window-door-step-security-alarm-bathroom-toilet-shower-kitchen-sink-fridge-hob-oven"
    b"-bed-seat-bench-table-cupboard-wardrobe-garage-floor-wall-ceiling-lining-framing-insulation-wool-foam-cork-fan"
    b"-vent-heater-diesel-gas-cylinder-water-tank-fresh-grey-pump-outlet-socket-lighting-wiring-shore-charger-inverter"
    b"-battery-lithium-solar-panel-controller-mppt"
    b'":1,"":2,"":3,"":4,"catalogue_dated":"202-0-1"}{"format":1,"workshop":"","vehicle":"","options":{"'
    b'":1},"trip":{"adults":2,"children":0,"pets":0,"tallest_m":1.8,"place":"","months":[1,2,3,4,5,6,7,8,9,10,11,12],'
    b'"days_between_fills_d":4,"days_off_grid_d":4,"driving_h":1,"showers_per_day":0.5,"shower_minutes":3,'
    b'"hot_meals_per_day":1.5,"computer_h":2,"cooling":true,"cooling":false,"inside_degc":18,"baggage_kg":100,'
    b'"budget":"000.00"},"title":"'
)
"""What most enquiries have in common, known to packer and unpacker alike. Links in the wild were packed with it:
never change it without a new VERSION that keeps this one readable."""


def to_link(enquiry: Enquiry) -> str:
    """The link's text: letters, digits, ``-`` and ``_`` only. The same enquiry always gives the same text.

    Raises EnquiryProblems when the enquiry is too long for a link (some hundred unusual option ids); send a file then.
    """
    text = json.dumps(plain(enquiry), ensure_ascii=False, separators=(",", ":"))
    packer = zlib.compressobj(9, zdict=_WORDS)
    packed = packer.compress(text.encode()) + packer.flush()
    link = VERSION + urlsafe_b64encode(packed).decode("ascii").rstrip("=")
    if len(link) > MOST_CHARACTERS:
        raise EnquiryProblems.one("link", "this build is too long for a link; send it as a file.")
    return link


def from_link(fragment: str) -> Enquiry:
    """The enquiry in a link's text, with or without the ``#``. Raises EnquiryProblems and nothing else."""
    text = fragment.removeprefix("#")
    if not text:
        raise EnquiryProblems.one("link", "is empty.")
    if len(text) > MOST_CHARACTERS:
        raise EnquiryProblems.one(
            "link", f"is longer than {MOST_CHARACTERS:,} characters, longer than any link made here."
        )
    if not _ALPHABET.issuperset(text):
        strange = next(c for c in text if c not in _ALPHABET)
        raise EnquiryProblems.one(
            "link", f"has a character that no link has ({strange!a}). Copy the whole link and nothing beside it."
        )
    if text[0] != VERSION:
        raise EnquiryProblems.one(
            "link", f"starts with {text[0]}; this version reads links that start with {VERSION}. "
            "It was made by a newer version of this configurator, or its beginning is missing."
        )  # fmt: skip
    return read_enquiry(_unpacked(text[1:]))


def _unpacked(text: str) -> str:
    damaged = EnquiryProblems.one("link", "is damaged or cut short. Copy the whole link once more.")
    try:
        packed = a2b_base64(text.translate(_TO_PLAIN) + "=" * (-len(text) % 4), strict_mode=True)
        unpacker = zlib.decompressobj(zdict=_WORDS)
        data = unpacker.decompress(packed, MOST_BYTES + 1)
        if len(data) > MOST_BYTES:
            raise EnquiryProblems.one("link", f"unpacks to more than {MOST_BYTES // 1024} kB; no link made here does.")
        if not unpacker.eof or unpacker.unused_data:
            raise damaged
        return data.decode("utf-8")
    except (Error, zlib.error, UnicodeDecodeError):
        raise damaged from None
