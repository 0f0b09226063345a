"""The door for enquiries from outside: files, links and forms come in here, and go out again."""

from engine.enquiry.file import MOST_BYTES, check_enquiry, check_workshop, read_enquiry, write_enquiry
from engine.enquiry.link import from_link, to_link
from engine.enquiry.problems import EnquiryProblem, EnquiryProblems

__all__ = [
    "MOST_BYTES",
    "EnquiryProblem",
    "EnquiryProblems",
    "check_enquiry",
    "check_workshop",
    "from_link",
    "read_enquiry",
    "to_link",
    "write_enquiry",
]
