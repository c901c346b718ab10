"""Situations of outline and base as pictures: lengths off the module, gables, curves, steps and slopes, and how outlines are sent.

The expected walls were drawn by hand from the rule named in each test.
"""

import math
from itertools import pairwise

import pytest
from wall_pictures import (
    drawn,
    findings,
    outline,
    picture,
    rectangle,
    refusal_of,
    row_of,
    set_out,
    slips,
    wall_from,
    wall_polygon,
    with_base,
)

CORNER, ABUTMENT = {"kind": "external_corner"}, {"kind": "abutment"}


def first_bay(answer):
    return answer.result["elevations"][0]["bays"][0]


def test_g01_a_length_a_little_under_the_module_is_taken_up_by_equal_perps() -> None:
    """5046 is 22 1/2 modules less a joint, less 6.5: over 22 perps each is 9.7045, and half bats stay 102.5 long."""
    rear = rectangle(5046, 150, left_edge=CORNER, right_edge=CORNER)
    assert drawn(rear, "equalised") == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
    """)
    bay = first_bay(set_out(rear, options={"perps": "equalised"}))
    assert bay["perps_mm"] == pytest.approx([10 - 6.5 / 22] * 2, abs=1e-6)
    assert bay["runs"][0]["options"][0]["ends_mm"] == [[215, 102.5], [102.5, 215]]


def test_g01_a_length_that_no_perp_takes_up_is_made_up_in_its_middle_and_never_by_a_sliver() -> None:
    """1390 leaves a sliver of 40 behind six modules. Twelve half modules would need perps of 20, thirteen perps under nothing. So
    what is over, 162.5 of a module, stands in the middle: one piece of 152.5, and in the next course two of (162.5 + 225)/2 - 10 =
    183.75, for one there would lap less than a quarter module. Both ends show the bond.
    """
    run = rectangle(1390, 300)
    assert drawn(run) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|ccc
        SSS|SSS|SSS|SSS|SSS|SSS|c
        c|SSS|SSS|SSS|SSS|SSS|ccc
        SSS|SSS|SSS|SSS|SSS|SSS|c
    """)
    (sliver,) = findings(slips(run), "sliver")
    assert (sliver["value"], sliver["where"]["x_mm"]) == (40, 1350)
    assert drawn(run, "equalised") == picture("""
        c|SSS|SSS|ccc|cc|SSS|SSSS
        SSS|SSS|SSS|cc|SSS|SSS|cc
        c|SSS|SSS|ccc|cc|SSS|SSSS
        SSS|SSS|SSS|cc|SSS|SSS|cc
    """)
    closed = slips(run, perps="equalised")
    assert [(row["length_mm"], row["count"]) for row in closed.result["cut_list"]] == [
        (183.75, 4),
        (152.5, 2),
        (102.5, 4),
    ]
    assert closed.findings == []


def test_g02_a_wall_that_ends_at_an_existing_one_leaves_a_joint_there_and_no_sliver() -> None:
    """3723 is 33 half modules and 10.5. A joint of 10 at the existing wall leaves (3713 - 16 x 215 - 102.5) / 16 = 10.65625 for
    each of the 16 perps.
    """
    flank = rectangle(3723, 150, left_edge=CORNER, right_edge=ABUTMENT)
    assert drawn(flank) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
    """)
    (sliver,) = findings(slips(flank), "sliver")
    assert (sliver["value"], sliver["where"]["x_mm"], sliver["where"]["y_mm"]) == (10.5, 3712.5, 75)
    assert drawn(flank, "equalised") == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c|
    """)
    built = set_out(flank, options={"perps": "equalised"})
    assert first_bay(built)["perps_mm"] == pytest.approx([10.65625] * 2, abs=1e-6)
    assert (first_bay(built)["x_to_mm"], built.findings) == (3713, [])


def test_g03_a_symmetrical_gable_is_cut_alike_on_both_rakes_and_once_under_the_ridge() -> None:
    """Rakes rise 600 in 895, by 33.84 degrees, from x = (y - 150) x 895/600. Between eaves and ridge are eight courses."""
    gable = {"id": "wall", **outline((0, 0), (1790, 0), (1790, 150), (895, 750), (0, 150))}
    assert drawn(gable) == picture("""
                       cc
                     cc|ccc
                   cc|SSS|ccc
                 cc|SSS|SSS|ccc
               cc|SSS|SSS|SSS|ccc
             cc|SSS|SSS|SSS|SSS|ccc
           cc|SSS|SSS|SSS|SSS|SSS|ccc
         cc|SSS|SSS|SSS|SSS|SSS|SSS|ccc
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    answer = slips(gable)
    raked = [row for row in answer.result["cut_list"] if "rake_deg" in row]
    assert [row["rake_deg"] for row in raked] == pytest.approx([math.degrees(math.atan2(600, 895))] * 14)
    assert [sum(row["count"] for row in raked if row["rises"] == way) for way in ("left", "right")] == [7, 7]
    assert sum(row["count"] for row in answer.result["cut_list"] if "outline" in row) == 1
    assert row_of(answer, "wall")["net_area_m2"] == pytest.approx(1.79 * 0.15 + 1.79 * 0.6 / 2, abs=1e-9)


def test_g03_a_gable_with_its_ridge_to_one_side_has_a_steep_and_a_flat_rake() -> None:
    """Eaves at 150, ridge at x = 450, y = 450: rakes at x = 1.5 (y - 150) and 1790 - 4.467 (y - 150). A slip is whole where its
    head, 65 over the course line, is under the rake; the flat rake cuts two slips of most courses, the steep one a single slip.
    """
    gable = {"id": "wall", **outline((0, 0), (1790, 0), (1790, 150), (450, 450), (0, 150))}
    assert drawn(gable) == picture("""
               cc|c
             cc|SSS|ccc|c
           cc|SSS|SSS|SSS|ccc|c
         cc|SSS|SSS|SSS|SSS|SSS|ccc|c
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)


def curved(chords, width=1790, eaves=300, rise=375):
    """A gable under a circular arc, its curve as chords with their ends on it."""
    radius = (width**2 / 4 + rise**2) / (2 * rise)
    half = math.asin(width / 2 / radius)
    turns = [half - 2 * half * step / chords for step in range(chords + 1)]
    arc = [(width / 2 + radius * math.sin(turn), eaves + rise - radius * (1 - math.cos(turn))) for turn in turns]
    segment = radius**2 * half - width / 2 * (radius - rise)
    made = outline((0, 0), (width, 0), *((round(x, 4), round(y, 4)) for x, y in arc), (0, 0))
    return {"id": "wall", **made}, (width * eaves + segment) / 1e6


def test_g05_a_gable_under_a_curve_is_cut_to_it_course_by_course() -> None:
    """R = (895^2 + 375^2) / 750 = 1255.53; in the middle of course k the curve stands at
    x = 895 -+ sqrt(R^2 - (75 k + 32.5 - 300 + R - 375)^2): 33.2, 120.3, 226.9, 364.7 and 571.1 from the left for 4 to 8. The heads of course 8, at 665, lie inside it from 737 to 1053 only.
    """
    assert drawn(curved(64)[0]) == picture("""
                  c|ccc|ccc|cc
               cc|SSS|SSS|SSS|ccc
            ccc|SSS|SSS|SSS|SSS|cccc
          ccc|SSS|SSS|SSS|SSS|SSS|cccc
         cc|SSS|SSS|SSS|SSS|SSS|SSS|ccc
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)


def test_g05_the_area_under_chords_comes_to_the_area_under_the_curve_by_quarters_of_the_error() -> None:
    errors = []
    for chords in (8, 16, 32, 64):
        gable, exact = curved(chords)
        row = row_of(slips(gable), "wall")
        assert row["joint_area_m2"] == pytest.approx(row["joint_area_by_strips_m2"], abs=1e-6)
        errors.append(exact - row["net_area_m2"])
    assert all(3.9 < coarse / fine < 4.1 for coarse, fine in pairwise(errors))


def test_g06_a_stepped_base_has_level_trims_two_stop_ends_at_each_step_and_returns_up_them() -> None:
    """Trims are as long as the level runs, which step at perps: two courses up, one down. Free ends close the first and last."""
    wall = wall_from(
        picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSSS            SSS|cc
        SSS|SSS|SSS|cc
    """)
    )
    base = set_out(wall).result["bases"][0]
    assert with_base(drawn(wall), base["as_drawn"]) == picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSSS____________SSS|cc
        SSS|SSS|SSS|cc            ______
        ______________
    """)
    assert base["as_drawn_trim_mm"] == 1790
    assert (base["as_drawn_stop_ends_count"], base["as_drawn_other_ends_count"]) == (4, 2)
    assert base["as_drawn_upright_trim_mm"] == 150 + 75


def test_g07_over_sloping_ground_the_base_steps_at_the_latest_place_that_keeps_its_clearance() -> None:
    """Ground rises from -160 to 140 over 3723, so the base stands on course k until ground + 150 = 75 k: at x = 12.41 (10 + 75 k)."""
    ground = {"ground": [{"x_mm": 0, "y_mm": -160}, {"x_mm": 3723, "y_mm": 140}], "clearance_mm": 150}
    flank = rectangle(3723, 450, base=ground, left_edge=CORNER, right_edge=ABUTMENT)
    answer = set_out(flank)
    base = answer.result["bases"][0]
    assert with_base("\n" * 5, base["runs"]) == picture("""
                                                            ______________
                                           _________________
                           ________________
          _________________
        __
    """)
    assert [step["limit_x_mm"] for step in base["steps"]] == pytest.approx([124.1, 1054.85, 1985.6, 2916.35], abs=1e-6)
    assert all(step["courses_count"] == 1 for step in base["steps"])
    assert base["stop_ends_count"] == 8
    (below,) = findings(answer, "base-below-ground")
    assert (below["value"], below["limit"], below["where"]["x_mm"]) == (-140, 0, 3723)


def test_g15_a_wall_drawn_clockwise_with_corners_twice_is_the_same_wall_and_said_to_be_tidied() -> None:
    wall = wall_from(
        picture("""
        SSS|SSS|SSSS
        c|SSS|SSSSSS
        SSS|SSSS
        c|SSS|cc
    """)
    )
    ring = wall["outline"][::-1]
    middle = {name: (ring[0][name] + ring[1][name]) / 2 for name in ("x_mm", "y_mm")}
    sent = {**wall, "outline": [ring[0], ring[0], middle, *ring[1:], ring[-1]]}
    assert drawn(sent) == drawn(wall)
    assert slips(sent).result == slips(wall).result
    (tidied,) = findings(slips(sent), "outline-normalised")
    assert (tidied["level"], tidied["value"], tidied["where"]["pointer"]) == ("info", 3, "/elevations/0/outline")
    assert findings(slips(wall), "outline-normalised") == []


def test_g15_a_wall_whose_outline_crosses_itself_is_refused() -> None:
    """Two triangles that meet in a point.

    ========
      ====
       ==
      ====
    ========
    """
    crossed = {"id": "wall", **outline((0, 0), (1790, 0), (0, 600), (1790, 600))}
    slug, pointer, _ = refusal_of(lambda: slips(crossed))
    assert (slug, pointer) == ("geometry-self-intersecting", "/elevations/0/outline")


def test_g16_an_outline_that_comes_back_to_its_first_corner_is_closed_once() -> None:
    wall = wall_from(
        picture("""
        c|SSS|cc
        SSS|SSSS
    """)
    )
    closed = {**wall, "outline": [*wall["outline"], wall["outline"][0]]}
    assert slips(closed).result == slips(wall).result
    assert wall_polygon(closed).area == 440 * 150


def test_g16_a_wall_sent_in_metres_is_refused_with_advice_on_the_unit() -> None:
    slug, pointer, detail = refusal_of(
        lambda: slips({"id": "wall", **outline((0, 0), (5.046, 0), (5.046, 2.475), (0, 2.475))})
    )
    assert (slug, pointer) == ("outline-too-small", "/elevations/0/outline")
    assert "millimetres" in detail
