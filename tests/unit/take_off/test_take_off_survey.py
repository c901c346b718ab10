"""Survey beside outline: the build-up lengthens a face at external corners and shortens it at internal ones."""

import pytest

from storeyrod.findings import Refusal
from storeyrod.take_off.calculation import calculate
from storeyrod.take_off.models import TakeOffRequest
from unit.wall.survey import PLAIN, rectangle


def surveyed(substrate_length_mm, *edges, elevation="rear", **members):
    return calculate(
        TakeOffRequest.model_validate(
            {
                "elevations": [rectangle(*edges, **members)],
                "system": PLAIN,
                "survey": [{"elevation": elevation, "substrate_length_mm": substrate_length_mm}],
            }
        )
    )


def mismatches(answer):
    return [one for one in answer.findings if one["code"] == "survey-mismatch"]


@pytest.mark.parametrize(
    ("edges", "finished"),
    # Build-up 100 + 3 + 20 = 123: twice on, on and off, twice off, and nothing at an abutment or a free end.
    [(("external_corner", "external_corner"), 4600 + 246), (("external_corner", "internal_corner"), 4600),
     (("internal_corner", "internal_corner"), 4600 - 246), (("external_corner", "abutment"), 4600 + 123),
     (("free_end", "abutment"), 4600)],
)  # fmt: skip
def test_the_build_up_is_added_and_taken_off_by_kind_of_edge(edges, finished):
    answer = surveyed(4600, *edges, width_mm=finished)
    (row,) = answer.result["survey"]
    assert (row["surveyed_substrate_length_mm"], row["surveyed_finished_length_mm"]) == (4600, finished)
    assert (row["outline_finished_length_mm"], row["difference_mm"]) == (finished, 0)
    assert mismatches(answer) == []


def test_a_skew_corner_adds_a_share_of_the_build_up():
    # Half a right angle more than square: cot(67.5 deg) is sqrt(2) - 1; at 60 deg inside it takes off sqrt(3).
    ends = {
        "left_edge": {"kind": "external_corner", "angle_deg": 135},
        "right_edge": {"kind": "internal_corner", "angle_deg": 60},
    }
    answer = surveyed(4600, width_mm=4600 + 123 * (2**0.5 - 1) - 123 * 3**0.5, **ends)
    assert answer.result["survey"][0]["difference_mm"] == pytest.approx(0, abs=1e-3)
    assert mismatches(answer) == []


def test_measuring_to_the_old_wall_is_found():
    # 4800 on the bare wall between two external corners finish at 5046; 4800 was drawn.
    (found,) = mismatches(surveyed(4800, "external_corner", "external_corner", width_mm=4800))
    assert (found["value"], found["limit"], found["unit"]) == (-246, 1, "mm")
    assert found["where"] == {"pointer": "/survey/0/substrate_length_mm", "elevation": "rear"}


@pytest.mark.parametrize(("length", "found"), [(4799, 0), (4798.9, 1), (4801, 0), (4801.1, 1)])
def test_a_millimetre_is_let_pass(length, found):
    assert len(mismatches(surveyed(length))) == found


def test_an_outline_in_the_substrate_is_compared_once_it_is_moved_out():
    answer = surveyed(4800, "external_corner", "external_corner", width_mm=4800, plane="substrate")
    assert answer.result["survey"][0]["outline_finished_length_mm"] == 5046
    assert mismatches(answer) == []


def test_a_survey_of_an_elevation_that_is_not_there_is_refused():
    with pytest.raises(Refusal) as refused:
        surveyed(4800, elevation="front")
    assert refused.value.slug == "reference-unknown"
    assert refused.value.faults[0].pointer == "/survey/0/elevation"


def test_without_a_survey_there_is_nothing_to_compare():
    answer = calculate(TakeOffRequest.model_validate({"elevations": [rectangle()], "system": PLAIN}))
    assert "survey" not in answer.result


def test_a_strict_request_with_a_mismatch_is_refused():
    request = {
        "elevations": [rectangle(width_mm=4715, height_mm=2400)], "system": PLAIN,
        "survey": [{"elevation": "rear", "substrate_length_mm": 4700}], "options": {"strict": True, "perps": "equalised"},
    }  # fmt: skip
    with pytest.raises(Refusal) as refused:
        calculate(TakeOffRequest.model_validate(request))
    assert refused.value.slug == "strict-cautions"
    assert [fault.code for fault in refused.value.faults] == ["survey-mismatch"]
