"""From an enquiry to a build, and from a build to its figures."""

from engine.build.figures import Figures, work_out
from engine.build.model import Build, Part
from engine.build.resolve import Resolver, UnknownChoiceError

__all__ = ["Build", "Figures", "Part", "Resolver", "UnknownChoiceError", "work_out"]
