"""Bonds as the trade draws them."""

from fractions import Fraction
from itertools import pairwise

import pytest
from slip_walls import face, layout, rectangle, request

from storeyrod.findings import Refusal
from storeyrod.setting_out.bond import BONDS
from storeyrod.slips.calculation import calculate


def perps_of(bond, course, width=2015):
    """Middles of the perps of a course."""
    row = face(rectangle(width, 300), bond=bond)["courses"][course]
    ends = []
    for run in row["runs"]:
        for index in range(run["count"]):
            ends.append(run["x_mm"] + index * run["pitch_mm"] + run["width_mm"])
    ends += [cut["x_mm"] + cut["width_mm"] for cut in row["cuts"]]
    return sorted(end + 5 for end in ends if end < width - 1)


def least_lap(bond):
    """Least distance of a perp from the perps of the course above."""
    return min(abs(a - b) for a in perps_of(bond, 0) for b in perps_of(bond, 1))


@pytest.mark.parametrize(
    ("bond", "lap"),
    [("stretcher", 112.5), ("third_lap", 75.0), ("quarter_lap", 56.25), ("stack", 0.0), ("header", 56.25), ("english", 56.25), ("flemish", 56.25)],
)  # fmt: skip
def test_laps(bond, lap) -> None:
    """Half, third and quarter of a module; bonds with headers lap by a quarter brick."""
    assert least_lap(bond) == pytest.approx(lap, abs=1e-6)


def test_english_courses_are_all_stretchers_then_all_headers() -> None:
    courses = face(rectangle(2015, 150), bond="english")["courses"]
    kinds = [{piece["kind"] for piece in course["runs"] + course["cuts"]} for course in courses]
    assert kinds == [{"stretcher"}, {"header"}]


def test_flemish_headers_stand_over_the_middle_of_stretchers() -> None:
    courses = face(rectangle(3365, 150), bond="flemish")["courses"]
    headers = next(run for run in courses[1]["runs"] if run["kind"] == "header" and run["count"] > 1)
    stretchers = next(run for run in courses[0]["runs"] if run["kind"] == "stretcher")
    middle = headers["x_mm"] + headers["width_mm"] / 2
    offset = (middle - stretchers["x_mm"] - stretchers["width_mm"] / 2) / stretchers["pitch_mm"]
    assert offset == pytest.approx(round(offset), abs=1e-9)


@pytest.mark.parametrize(
    ("bond", "stretchers", "headers"),
    [("stretcher", 1, 0), ("third_lap", 1, 0), ("stack", 1, 0), ("header", 0, 2), ("english", Fraction(1, 2), 1), ("flemish", Fraction(2, 3), Fraction(2, 3)),
     ("english_garden_wall", Fraction(3, 4), Fraction(1, 2)), ("flemish_garden_wall", Fraction(6, 7), Fraction(2, 7))],
)  # fmt: skip
def test_units_of_each_module(bond, stretchers, headers) -> None:
    """From the sets of each bond: an English pair of courses, Flemish sets of 337.5 mm and, in garden walls, 787.5 mm."""
    assert BONDS[bond].per_module("stretcher") == stretchers
    assert BONDS[bond].per_module("header") == headers


def test_a_large_wall_holds_as_many_units_as_the_rate_says() -> None:
    row = face({"width_mm": 40_495, "height_mm": 15_000}, bond="flemish", movement_joint={"max_spacing_mm": 50_000, "max_boards_count": 100})  # fmt: skip
    per_m2 = row["total_count"] / row["net_area_m2"]
    assert per_m2 == pytest.approx(79.01, rel=5e-3)


def test_a_header_bond_needs_a_header() -> None:
    bad = request(rectangle(2015, 150), bond="english", slip={"length_mm": 40}, joint={"perp_mm": 40})
    with pytest.raises(Refusal) as refusal:
        calculate(bad)
    assert refusal.value.slug == "header-too-short"


def test_a_stretcher_bond_needs_no_header() -> None:
    good = request(rectangle(2015, 150), slip={"length_mm": 40}, joint={"perp_mm": 40, "perp_max_mm": 40})
    assert calculate(good).result["pieces"]["face_pieces_count"] > 0


def test_laps_that_alternate_are_stated_as_an_assumption() -> None:
    fields = [row["field"] for row in calculate(request(rectangle(665, 150), bond="third_lap")).assumptions]
    assert "/system/bond" in fields


def legs(**changes) -> dict[str, float]:
    """Legs of corner slips that a wall with one corner assumed."""
    made = request(rectangle(2240, 150, right_edge={"kind": "external_corner"}), **changes)
    return {row["field"]: row["value"] for row in calculate(made).assumptions if "corner_slip/" in row["field"]}


def test_legs_of_corner_slips_that_were_not_given_are_stated_where_there_is_a_corner() -> None:
    """215 as the slip; (215 - 10) / 2 = 102.5."""
    assert legs() == {"/system/corner_slip/stretcher_mm": 215, "/system/corner_slip/return_mm": 102.5}
    assert legs(corner_slip={"stretcher_mm": 215, "return_mm": 100}) == {}
    fields = [row["field"] for row in calculate(request(rectangle(2240, 150))).assumptions]
    assert not [field for field in fields if "corner_slip/" in field]


@pytest.mark.parametrize("perps", ["nominal", "equalised"])
@pytest.mark.parametrize("bond", ["english", "flemish", "english_garden_wall", "flemish_garden_wall"])
def test_no_perp_stands_over_one_of_the_next_course_at_any_length(bond, perps) -> None:
    """Least distance of perps in neighbouring courses, from the pieces laid; a quarter module is 56.25, closers may give some way."""
    for halves in range(9, 33):
        laid = layout(rectangle(halves * 112.5 - 10, 600), perps=perps, bond=bond)
        courses = [course for equal in laid.faces[0].equal_courses for course in equal.written_out(laid.wall.gauge)]
        perps_of = {course.number: _perps(course) for course in courses}
        gaps = [
            abs(lower - upper) / 10_000
            for number, lowers in perps_of.items()
            for lower in lowers
            for upper in perps_of.get(number + 1, [])
        ]
        assert min(gaps) > 56.25 - 1, (halves, min(gaps))


def _perps(course):
    """Middles of the joints between neighbouring pieces, in ticks."""
    spans = [
        (run.x + i * run.pitch, run.x + i * run.pitch + run.width) for run in course.runs for i in range(run.count)
    ]
    spans += [(cut.part.left, cut.part.right) for cut in course.cuts]
    ordered = sorted(spans)
    return [(before[1] + after[0]) / 2 for before, after in pairwise(ordered)]
