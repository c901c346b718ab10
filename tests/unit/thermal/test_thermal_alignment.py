"""Bridged layers in line: one heat path through the same part of each; expected values by exact fractions of hand."""

from fractions import Fraction

import pytest

from storeyrod.findings import Refusal
from thermal_requests import answer_of, body, bridged, resistance, result_of

INNER = bridged((0.1, 0.5), (0.9, 2.0))
OUTER = bridged((0.1, 1.0), (0.9, 3.0))


def in_line(layer: dict, index: int) -> dict:
    return {**layer, "in_line_with": index}


def exact(*shares: tuple[str, str]) -> float:
    """Resistance of paths side by side: (share, resistance) as decimal text."""
    return float(1 / sum(Fraction(share) / Fraction(value) for share, value in shares))


def test_parts_in_line_make_one_path_each():
    """Surfaces 0.13 + 0.04: paths 0.17 + 0.5 + 1.0 over a tenth, 0.17 + 2.0 + 3.0 over the rest."""
    result = result_of(INNER, in_line(OUTER, 0))
    assert result["r_upper_m2_k_per_w"] == pytest.approx(exact(("0.1", "1.67"), ("0.9", "5.17")), rel=1e-14)


def test_independent_parts_make_a_path_for_every_pair():
    result = result_of(INNER, OUTER)
    expected = exact(("0.01", "1.67"), ("0.09", "3.67"), ("0.09", "3.17"), ("0.81", "5.17"))
    assert result["r_upper_m2_k_per_w"] == pytest.approx(expected, rel=1e-14)


def test_the_lower_limit_knows_no_line():
    apart, lined = result_of(INNER, OUTER), result_of(INNER, in_line(OUTER, 0))
    assert apart["r_lower_m2_k_per_w"] == lined["r_lower_m2_k_per_w"]


def test_a_layer_cut_in_two_in_line_has_the_upper_limit_of_the_whole():
    whole = result_of(bridged((0.2, 1.0), (0.8, 4.0)))
    halves = bridged((0.2, 0.5), (0.8, 2.0))
    assert result_of(halves, in_line(halves, 0))["r_upper_m2_k_per_w"] == pytest.approx(
        whole["r_upper_m2_k_per_w"], rel=1e-14
    )


def test_a_layer_may_stand_in_line_with_one_that_stands_in_line_itself():
    third = bridged((0.1, 0.2), (0.9, 0.4))
    chained = result_of(INNER, in_line(OUTER, 0), in_line(third, 1))
    direct = result_of(INNER, in_line(OUTER, 0), in_line(third, 0))
    assert chained == direct
    expected = exact(("0.1", "1.87"), ("0.9", "5.57"))
    assert chained["r_upper_m2_k_per_w"] == pytest.approx(expected, rel=1e-14)


def test_a_layer_across_a_pair_in_line_stays_independent():
    across = bridged((0.5, 1.0), (0.5, 2.0))
    result = result_of(INNER, across, in_line(OUTER, 0))
    expected = exact(("0.05", "2.67"), ("0.05", "3.67"), ("0.45", "6.17"), ("0.45", "7.17"))
    assert result["r_upper_m2_k_per_w"] == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(
    ("layers", "at"),
    [
        ((INNER, in_line(OUTER, 1)), 1),
        ((INNER, in_line(OUTER, 2)), 1),
        ((resistance(1.0), in_line(OUTER, 0)), 1),
        ((in_line(INNER, 0),), 0),
        ((INNER, in_line(bridged((0.2, 1.0), (0.8, 3.0)), 0)), 1),
        ((INNER, in_line(bridged((0.1, 1.0), (0.4, 3.0), (0.5, 3.0)), 0)), 1),
    ],
    ids=["itself", "one further out", "no bridged layer", "none before", "other shares", "more parts"],
)
def test_a_line_that_cannot_be_is_refused_where_it_is_asked(layers, at):
    with pytest.raises(Refusal, match="alignment-contradictory") as caught:
        answer_of(body(*layers))
    assert caught.value.faults[0].pointer == f"/build_up/layers/{at}/in_line_with"


def test_shares_may_differ_by_rounding():
    outer = in_line(bridged((0.1000005, 1.0), (0.8999995, 3.0)), 0)
    expected = exact(("0.1", "1.67"), ("0.9", "5.17"))
    assert result_of(INNER, outer)["r_upper_m2_k_per_w"] == pytest.approx(expected, rel=1e-14)


def test_layers_in_line_make_few_paths_where_independent_ones_make_too_many():
    first = bridged(*[(0.25, 1.0 + 0.1 * at) for at in range(4)])
    independent = [first] * 7
    lined = [first, *[in_line(first, 0)] * 6]
    with pytest.raises(Refusal, match="size-limit"):
        answer_of(body(*independent))
    assert answer_of(body(*lined)).result["relative_error_fraction"] >= 0.0
