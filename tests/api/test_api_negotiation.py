"""Accept, as RFC 9110 section 12.5.1 has it."""

import pytest

from storeyrod.api.negotiation import chosen_format
from storeyrod.api.problems import Problem

JSON, SVG = "application/json", "image/svg+xml"


@pytest.mark.parametrize(
    ("accept", "chosen"),
    [
        (None, JSON),
        ("", JSON),
        ("*/*", JSON),
        ("image/svg+xml", SVG),
        ("IMAGE/SVG+XML", SVG),
        ("image/*", SVG),
        ("application/json;q=0.5, image/svg+xml", SVG),
        ("application/json;q=0.5, image/svg+xml;q=0.4", JSON),
        ("image/svg+xml; q=0.9, */*; q=0.1", SVG),
        ("*/*;q=1, application/json;q=0", SVG),
        ("application/*;q=0.2, image/*;q=0.3", SVG),
        ("application/*, application/json;q=0.1, image/*;q=0.2", SVG),
        ("text/html, application/xhtml+xml, */*;q=0.8", JSON),
        ("application/problem+json, application/json", JSON),
        ("application/json;q=0.000, image/svg+xml;q=0.001", SVG),
        ("application/json;q=huge, image/svg+xml;q=0.1", SVG),
        (" , application/json", JSON),
    ],
)
def test_the_best_rated_format_is_chosen(accept, chosen):
    assert chosen_format(accept, (JSON, SVG)) == chosen


@pytest.mark.parametrize(
    "accept",
    ["text/csv", "*/*;q=0", "application/json;q=0, image/*;q=0", "application/problem+json", "json", "image", ";;;"],
)
def test_nothing_that_fits_is_refused(accept):
    with pytest.raises(Problem) as refused:
        chosen_format(accept, (JSON, SVG))
    assert refused.value.members["available"] == [JSON, SVG]


def test_the_chosen_format_is_written_and_the_choice_is_declared(post):
    answer = post("/v1/drawn-stand-ins", accept="text/plain")
    assert answer.headers["content-type"] == "text/plain"
    assert answer.text == "0 mm"
    assert answer.headers["vary"] == "Accept"
    assert post("/v1/drawn-stand-ins", accept="image/png").headers["vary"] == "Accept"


def test_one_format_does_not_vary(post):
    assert "vary" not in post("/v1/stand-ins").headers
