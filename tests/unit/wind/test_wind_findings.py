"""What is said of faces that do not fit the box of the building, and of figures that look misread."""

import pytest

from storeyrod.findings import Refusal
from storeyrod.trace import Recorder
from storeyrod.wind.calculation import calculate
from storeyrod.wind.models import WindLoadRequest
from unit.wall.survey import PLAIN
from unit.wind.wind_requests import asked, codes, wind

GERMAN = {"kind": "german_annex", "zone": 4, "building": {"breadth_m": 20, "depth_m": 20, "height_m": 11}}


def face(name: str, width: float, side: str, left: str | None = None, right: str | None = None, **more) -> dict:
    """A face 8 m high; ends with a name meet that end of another face at an external corner."""
    ends = {"left_edge": left, "right_edge": right}
    edges = {end: {"kind": "external_corner", "to": to} for end, to in ends.items() if to}
    return {"id": name, "width_mm": width, "height_mm": 8000, "face": {"side": side, **more}, **edges}


def ring(breadth_m: float):
    """Four faces round a plan of 12 by 9 m, on a building of that breadth."""
    return asked(
        wind(breadth=breadth_m, depth=9, height=8),
        face("s", 12000, "front", "w:right", "e:left"),
        face("e", 9000, "right", "s:right", "n:left"),
        face("n", 12000, "rear", "e:right", "w:left"),
        face("w", 9000, "left", "n:right", "s:left"),
    )


def misplaced(answer) -> list[str]:
    return [item["where"]["pointer"] for item in answer.findings if item["code"] == "wind-corner-misplaced"]


def test_four_faces_round_their_own_plan_have_nothing_said_of_their_corners() -> None:
    assert codes(ring(12)) == []


def test_a_building_longer_than_the_faces_round_it_has_corners_out_of_place() -> None:
    """The right ends of front and rear stand 12 m from the ends of sides of 24 m, where zone A is put."""
    assert misplaced(ring(24)) == ["/elevations/0/right_edge", "/elevations/2/right_edge"]


@pytest.mark.parametrize(("seen_from", "end"), [("outside", "right"), ("inside", "left")])
def test_a_forgotten_offset_is_seen_at_the_corner_from_either_side_of_the_wall(seen_from: str, end: str) -> None:
    part = face("s", 6000, "front", **{end: "e:left"}, seen_from=seen_from)
    there = face("s", 6000, "front", **{end: "e:left"}, seen_from=seen_from, offset_mm=6000)
    site = wind(breadth=12, depth=9, height=8)
    assert misplaced(asked(site, part)) == [f"/elevations/0/{end}_edge"]
    assert misplaced(asked(site, there)) == []


def test_the_right_end_of_the_front_meets_the_right_side_and_no_other() -> None:
    site = wind(breadth=12, depth=9, height=8)
    front = face("s", 12000, "front", None, "e:left")
    assert "wind-sides-apart" not in codes(asked(site, front, face("e", 9000, "right", "s:right")))
    assert "wind-sides-apart" in codes(asked(site, front, face("e", 9000, "left", "s:right")))


def test_a_corner_that_is_not_square_makes_the_plan_no_box() -> None:
    bent = {**face("s", 12000, "front"), "right_edge": {"kind": "external_corner", "angle_deg": 120}}
    assert "wind-plan-not-a-box" in codes(asked(wind(breadth=12, depth=9, height=8), bent))


def test_a_storey_of_wall_below_the_ground_is_said() -> None:
    site = {**wind(breadth=12, depth=9, height=8), "ground_y_mm": 3001}
    assert "wind-below-ground" in codes(asked(site, face("s", 12000, "front")))
    assert "wind-below-ground" not in codes(asked({**site, "ground_y_mm": 3000}, face("s", 12000, "front")))


def test_a_loaded_area_over_that_of_a_board_is_said_here_too() -> None:
    """A board covers 0.72 m2, and up to 1 m2 coefficients do not change (7.2.1(1), from memory)."""
    large, small = (asked(wind(loaded_area_m2=area), system=PLAIN) for area in (1.01, 1))
    assert (codes(large), codes(small)) == (["loaded-area-large"], [])


@pytest.mark.parametrize("depth_mm", [1130, 1600, 2260])
def test_a_height_of_five_depths_is_within_the_table(depth_mm: float) -> None:
    """Table 7.1 ends at h/d = 5, also where the quotient rounds to a little more."""
    assert asked(wind(breadth=20, depth=depth_mm / 1000, height=5 * depth_mm / 1000)).result["directions"]


@pytest.mark.parametrize("region", ["north_sea_island", "coast"])
def test_places_by_the_sea_are_never_sent_to_the_inland_profile(region: str) -> None:
    height = {"north_sea_island": 11, "coast": 26}[region]
    with pytest.raises(Refusal) as refused:
        asked({**GERMAN, "region": region, "building": {**GERMAN["building"], "height_m": height}})
    assert "inland" not in refused.value.detail


def test_the_german_annex_takes_no_recommended_choice_beside_it() -> None:
    with pytest.raises(Refusal) as refused:
        asked({**GERMAN, "region": "inland", "method": "inland_profile", "national_choice": "recommended"})
    assert refused.value.faults[0].pointer == "/wind/national_choice"


def test_a_direction_is_named_once() -> None:
    with pytest.raises(ValueError, match="name each direction once"):
        asked(wind(directions=["front", "front"]))


def test_every_figure_of_zones_and_envelope_has_its_step() -> None:
    trace, site = Recorder(), wind(breadth=12, depth=9, height=8)
    body = {"wind": site, "elevations": [face("s", 6000, "front", offset_mm=3000)]}
    result = calculate(WindLoadRequest.model_validate(body), trace).result
    known = {step["id"]: step["value"] for step in trace.steps}
    rows = [*result["zones"], *result["envelope"]]
    figures = [value for row in rows for value in row.values() if isinstance(value, float)]
    given = [site["building"]["height_m"]]
    assert all(known.get(getattr(one, "origin", "")) == one or one in given for one in figures)


def test_the_envelope_names_the_zones_that_it_is_the_greatest_of() -> None:
    """The left end of the front is upwind of wind on the left: A; of wind on the right it is farther than e = 9 m from the edge: C."""
    trace = Recorder()
    body = {"wind": wind(breadth=12, depth=9, height=8), "elevations": [face("s", 12000, "front")]}
    calculate(WindLoadRequest.model_validate(body), trace)
    step = next(step for step in trace.steps if step["symbol"] == "w_s" and step["kind"] == "solved")
    assert [one["symbol"] for one in step["inputs"]] == [
        "zone D, wind on the front",
        "zone C, wind on the right",
        "zone E, wind on the rear",
        "zone A, wind on the left",
    ]
    assert step["value"] == max(one["value"] for one in step["inputs"])
