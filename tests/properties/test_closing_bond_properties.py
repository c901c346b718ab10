"""Properties of set-out runs, numbers as in the list of invariants; pieces are laid here from the answer's runs and cuts."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from slip_oracle import MODULES, laid, lengths, points, system

STRETCHERS = st.sampled_from(["stretcher", "third_lap", "quarter_lap"])
BONDS = st.sampled_from(["stretcher", "third_lap", "quarter_lap", "stack", "header", "english", "flemish"])
UNITS = st.sampled_from(MODULES)
QUICK = settings(max_examples=40, deadline=None)
LEAST_CUT = 50.0


def answer_of(length, module, bond="stretcher", limits=None, **more):
    """A wall of two courses with equalised perps."""
    pitch = module["height_mm"] + module["bed_mm"]
    wall = {"id": "wall", "outline": points((0, 0), (length, 0), (length, 2 * pitch), (0, 2 * pitch)), **more}
    made = system(module, bond)
    if limits is not None:
        made["joint"] |= {"perp_min_mm": limits[0], "perp_max_mm": limits[1]}
    return laid(wall, made, perps="equalised")


def bay_of(answer):
    return answer.result["elevations"][0]["bays"][0]


def courses_of(answer):
    """Left and right ends of the pieces of each course."""
    made = []
    for course in answer.result["elevations"][0]["courses"]:
        spans = [(cut["x_mm"], cut["x_mm"] + cut["width_mm"]) for cut in course["cuts"]]
        for run in course["runs"]:
            starts = [run["x_mm"] + index * run["pitch_mm"] for index in range(run["count"])]
            spans += [(start, start + run["width_mm"]) for start in starts]
        made.append(sorted(spans))
    return made


def codes(answer):
    return {item["code"] for item in answer.findings}


@given(lengths(700, 12_000), UNITS, BONDS)
@QUICK
def test_p13_pieces_and_equal_perps_fill_every_course_however_it_is_closed(length, module, bond) -> None:
    answer = answer_of(length, module, bond)
    if "perp-out-of-range" in codes(answer):
        return
    for spans, perp in zip(courses_of(answer), bay_of(answer)["perps_mm"] * 2, strict=False):
        widths = [right - left for left, right in spans]
        assert math.fsum(widths) + (len(spans) - 1) * perp == pytest.approx(length, abs=1e-3)
        for index, (left, _) in enumerate(spans):
            assert left == pytest.approx(math.fsum(widths[:index]) + index * perp, abs=1e-3)


@given(lengths(700, 12_000), UNITS, BONDS)
@QUICK
def test_p14_perps_lie_inside_their_limits_or_a_finding_says_so(length, module, bond) -> None:
    answer = answer_of(length, module, bond)
    for spans in courses_of(answer):
        perps = [right[0] - left[1] for left, right in pairwise(spans)]
        assert max(perps, default=0) - min(perps, default=0) <= 1e-3
        inside = all(module["perp_mm"] - 2 - 1e-3 <= perp <= module["perp_mm"] + 2 + 1e-3 for perp in perps)
        assert inside or "perp-out-of-range" in codes(answer)


@given(lengths(500, 12_000), UNITS, STRETCHERS)
@QUICK
def test_p15_perps_keep_a_lap_of_a_quarter_module_also_at_a_broken_bond(length, module, bond) -> None:
    """Less what unequal perps of the two courses may move them in third and quarter lap."""
    answer = answer_of(length, module, bond)
    perps = bay_of(answer)["perps_mm"]
    first, second = ([right + perps[0] / 2 for _, right in spans[:-1]] for spans in courses_of(answer))
    least = min(abs(one - other) for one in first for other in second)
    moved = abs(perps[0] - perps[1]) * len(first) + abs(perps[0] - perps[1])
    assert least >= (module["length_mm"] + module["perp_mm"]) / 4 - moved - 1e-3


@given(lengths(700, 12_000), UNITS)
@QUICK
def test_p17_half_lap_from_two_and_a_half_modules_always_comes_out_without_slivers(length, module) -> None:
    """The shortest run is 700 mm; the widest module here is 250 mm."""
    answer = answer_of(length, module)
    assert codes(answer) & {"sliver", "perp-out-of-range"} == set()
    half = (module["length_mm"] - module["perp_mm"]) / 2
    cuts = [right - left for spans in courses_of(answer) for left, right in spans]
    assert min(cuts) >= LEAST_CUT - 2e-4
    if bay_of(answer)["arrangement"] != "closers_at_ends":
        inner = [right - left for spans in courses_of(answer) for left, right in spans[1:-1]]
        assert min(inner, default=half) >= half - 1e-3


@given(lengths(300, 4000), UNITS, BONDS)
@QUICK
def test_p17_a_sliver_is_reported_wherever_one_is_left(length, module, bond) -> None:
    """In bonds with headers a queen closer, a quarter module less a perp, is the trade's own piece."""
    answer = answer_of(length, module, bond)
    shortest = min(right - left for spans in courses_of(answer) for left, right in spans)
    quarter = (module["length_mm"] + module["perp_mm"]) / 4 - (module["perp_mm"] + 2)
    least = LEAST_CUT if bond in ("stretcher", "third_lap", "quarter_lap", "stack") else min(LEAST_CUT, quarter)
    assert (shortest < least - 2e-4) == ("sliver" in codes(answer))


@given(lengths(500, 12_000), UNITS, BONDS)
@QUICK
def test_p22b_the_perps_found_given_back_as_limits_give_the_same_layout(length, module, bond) -> None:
    first = answer_of(length, module, bond)
    if "perp-out-of-range" in codes(first):
        return
    perps = bay_of(first)["perps_mm"]
    limits = math.floor(min(perps) * 1e4) / 1e4, math.ceil(max(perps) * 1e4) / 1e4
    second = answer_of(length, module, bond, limits=limits, bond_start="full", bond_origin_x_mm=0.0)
    assert bay_of(second) == bay_of(first)
    assert courses_of(second) == courses_of(first)


@given(lengths(500, 12_000), UNITS, BONDS)
@QUICK
def test_a_run_set_out_from_the_right_is_the_mirror_of_one_from_the_left(length, module, bond) -> None:
    left, right = (courses_of(answer_of(length, module, bond, bond_from=side)) for side in ("left", "right"))
    for one, other in zip(left, right, strict=True):
        turned = sorted((length - b, length - a) for a, b in one)
        assert [x for span in turned for x in span] == pytest.approx([x for span in other for x in span], abs=1e-3)
