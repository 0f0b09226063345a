"""Sentences and facts of finished vehicles that lack one thing or another have no slips of punctuation."""

import re

import pytest

from engine.build import work_out
from engine.desk import ready_enquiry
from engine.rules import judge
from tests.shops import catalogue, resolver

SLIPS = re.compile(r"(?<!\.)\.\.(?!\.)|[,;:] ?[.;,]|(?<=\w) [,.;:](?=\s)|\(\)|`|  ")
TAILS = re.compile(r"^\s*[,;.(]|[,;]\s*$")


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_whatever_is_left_out_the_words_stay_in_order(shop: str) -> None:
    shown = catalogue(shop)
    for ready in shown.ready:
        enquiry = ready_enquiry(shown, ready)
        trip = enquiry.trip.model_copy(update={"months": (1,)})
        for left_out in ready.options:
            options = {i: n for i, n in ready.options.items() if i != left_out}
            build = resolver(shop).resolve(enquiry.model_copy(update={"options": options, "trip": trip}))
            for finding in judge(build, work_out(build)):
                said = f"{finding.cause}\n{finding.remedy}"
                assert not SLIPS.search(said), (ready.id, left_out, finding.rule, said)
                told = [f for f in finding.facts if isinstance(f.value, str) and TAILS.search(f.value)]
                assert not told, (finding.rule, told)
