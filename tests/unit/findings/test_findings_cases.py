"""The catalogues are closed: each code is triggered by its case and not by the one just inside; none is without a case."""

import importlib
from typing import get_type_hints

import pytest

from storeyrod.findings import FINDINGS, REFUSALS, Refusal
from storeyrod.units import UNITS
from unit.findings.cases import FINDING_CASES, REFUSAL_CASES, Case, Request


def observed(room: str, request: Request) -> set[str]:
    """Codes of the answer's findings, or the slug that refused the request."""
    calculate = importlib.import_module(f"storeyrod.{room}.calculation").calculate
    model = get_type_hints(calculate)["request"]
    try:
        return {one["code"] for one in calculate(model.model_validate(request)).findings}
    except Refusal as refusal:
        return {refusal.slug}


@pytest.mark.parametrize(("code", "case"), FINDING_CASES.items(), ids=FINDING_CASES)
def test_a_finding_is_triggered_by_its_case_and_not_just_inside(code: str, case: Case) -> None:
    assert code in observed(case.room, case.triggers)
    inside = observed(case.room, case.inside)
    assert code not in inside
    assert inside <= set(FINDINGS), f"refused: {inside}"


@pytest.mark.parametrize(("slug", "case"), REFUSAL_CASES.items(), ids=REFUSAL_CASES)
def test_a_refusal_is_triggered_by_its_case_and_not_just_inside(slug: str, case: Case) -> None:
    assert observed(case.room, case.triggers) == {slug}
    inside = observed(case.room, case.inside)
    assert inside <= set(FINDINGS), f"refused: {inside}"


def test_every_finding_has_a_case_and_every_case_a_finding() -> None:
    assert set(FINDING_CASES) == set(FINDINGS)


def test_every_refusal_has_a_case_and_every_case_a_refusal() -> None:
    assert set(REFUSAL_CASES) == set(REFUSALS)


@pytest.mark.parametrize("case", FINDING_CASES.values(), ids=FINDING_CASES)
def test_findings_point_at_a_place_and_carry_known_units(case: Case) -> None:
    calculate = importlib.import_module(f"storeyrod.{case.room}.calculation").calculate
    answer = calculate(get_type_hints(calculate)["request"].model_validate(case.triggers))
    for one in answer.findings:
        assert one["where"].get("pointer") is not None, one
        assert one["level"] == FINDINGS[one["code"]].level
        if "unit" in one:
            assert one["unit"] in UNITS
            assert "value" in one
        if "limit" in one:
            assert "value" in one
        if "value" in one:
            assert "unit" in one


@pytest.mark.parametrize("case", FINDING_CASES.values(), ids=FINDING_CASES)
def test_pointers_of_findings_lead_to_a_member_of_the_request(case: Case) -> None:
    calculate = importlib.import_module(f"storeyrod.{case.room}.calculation").calculate
    request = get_type_hints(calculate)["request"].model_validate(case.triggers)
    filled = request.model_dump()
    for one in calculate(request).findings:
        place = filled
        for name in one["where"]["pointer"].split("/")[1:]:
            place = place[int(name)] if isinstance(place, list) else place[name]
