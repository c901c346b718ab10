"""Junctions over HTTP: problems lead to the member sent, and equal requests give equal bytes."""

import pytest

from junction_requests import WALL, adiabatic, boundary, detail, drawn, rectangle, square

PATH = "/v1/thermal-junctions"


@pytest.mark.parametrize(
    ("request_body", "slug", "pointer"),
    [
        (detail("jamb", None), "build-up-missing", "/junction/detail"),
        (square(boundaries=square()["junction"]["boundaries"][:3]), "boundary-missing", "/junction"),
        (
            square(rectangles=[rectangle(0, 0, 100, 100), rectangle(50, 0, 50, 100)]),
            "rectangles-overlap",
            "/junction/rectangles/1",
        ),
        (
            drawn([rectangle(0, 0, 9, 9)], [adiabatic(0, 0, 9, 0)]),
            "boundary-missing",
            "/junction",
        ),
        (
            square(boundaries=[boundary(0, 50, 100, 50, temperature=1), *square()["junction"]["boundaries"]]),
            "boundary-off-outline",
            "/junction/boundaries/0",
        ),
    ],
)
def test_a_problem_leads_to_the_member_that_was_sent(client, request_body, slug, pointer):
    answer = client.post(PATH, json=request_body)

    assert answer.status_code == 422
    assert answer.json()["type"] == f"urn:storeyrod:problem:{slug}"
    assert answer.json()["errors"][0]["pointer"] == pointer


def test_a_conductivity_out_of_range_names_its_field(client):
    answer = client.post(PATH, json=square(rectangles=[rectangle(0, 0, 100, 100, 501)]))

    assert answer.status_code == 422
    assert answer.json()["errors"][0]["pointer"] == "/junction/rectangles/0/conductivity_w_per_m_k"


def test_a_parameter_that_a_detail_does_not_have_names_itself(client):
    answer = client.post(PATH, json=detail("movement_joint", depth_mm=10))

    assert answer.status_code == 422
    assert answer.json()["errors"][0]["pointer"].endswith("/parameters/depth_mm")


def test_equal_requests_give_equal_bytes(client):
    asked = detail("jamb", WALL, {"trace": "steps"})

    assert client.post(PATH, json=asked).content == client.post(PATH, json=asked).content
