"""What a buyer asks for: choices and trip, as a file or a link."""

from engine.catalogue.trip import Trip
from engine.enquiry.model import FORMAT, Enquiry

__all__ = ["FORMAT", "Enquiry", "Trip"]
