"""Properties of movement joints on random walls: limits kept, clearances kept, sealed length conserved."""

from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest

BOARD = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100}
SLIP = {"length_mm": 215, "height_mm": 65, "thickness_mm": 20}


@st.composite
def walls(draw: st.DrawFn) -> dict:
    width = draw(st.integers(2000, 40000))
    openings, x = [], 200
    for index in range(draw(st.integers(0, 6))):
        x += draw(st.integers(100, 3000))
        size = draw(st.integers(300, 3000))
        if x + size > width - 100:
            break
        openings.append(
            {
                "id": f"o{index}",
                "kind": "rectangle",
                "x_mm": x,
                "y_mm": 0,
                "width_mm": size,
                "height_mm": draw(st.integers(500, 2900)),
            }
        )
        x += size
    return {"id": "wall", "width_mm": width, "height_mm": 3000, "openings": openings}


def rows(wall: dict) -> dict:
    request = {"elevations": [wall], "system": {"board": BOARD, "slip": SLIP, "movement_joint": {"width_mm": 12}}}
    return calculate(MovementJointsRequest.model_validate(request)).result["elevations"][0]


@given(walls())
@settings(max_examples=150, deadline=None)
def test_every_bay_is_within_the_limit_unless_withheld(wall: dict) -> None:
    row = rows(wall)
    assert row.get("withheld") or all(bay["length_mm"] <= 6000 + 1e-3 for bay in row["bays"])


@given(walls())
@settings(max_examples=100, deadline=None)
def test_bays_and_joints_fill_the_length(wall: dict) -> None:
    row = rows(wall)
    filled = sum(bay["length_mm"] for bay in row["bays"]) + sum(joint["width_mm"] for joint in row["joints"])
    assert abs(filled - wall["width_mm"]) < 1e-3


@given(walls())
@settings(max_examples=100, deadline=None)
def test_every_joint_keeps_clear_of_every_opening(wall: dict) -> None:
    for joint in rows(wall)["joints"]:
        for opening in wall["openings"]:
            left, right = joint["x_mm"] - 6, joint["x_mm"] + 6
            assert right <= opening["x_mm"] - 225 + 1e-3 or left >= opening["x_mm"] + opening["width_mm"] + 225 - 1e-3


@given(walls(), st.integers(200, 38000))
@settings(max_examples=100, deadline=None)
def test_an_opening_on_the_line_takes_exactly_its_height_from_the_sealed_length(wall: dict, x: int) -> None:
    if not 20 < x < wall["width_mm"] - 20:
        return
    line = {**wall, "existing_joints_x_mm": [x]}
    (joint,) = [one for one in rows(line)["joints"] if one["existing"]]
    crossed = sum(o["height_mm"] for o in wall["openings"] if o["x_mm"] < x < o["x_mm"] + o["width_mm"])
    on_jamb = any(x in (o["x_mm"], o["x_mm"] + o["width_mm"]) for o in wall["openings"])
    assert on_jamb or abs(joint["sealed_length_m"] * 1000 - (3000 - crossed)) < 1e-6


@given(walls())
@settings(max_examples=60, deadline=None)
def test_order_of_openings_changes_nothing(wall: dict) -> None:
    assert rows(wall) == rows({**wall, "openings": wall["openings"][::-1]})


@given(walls(), st.one_of(st.none(), st.integers(500, 1500)), st.sampled_from(["left", "right"]))
@settings(max_examples=100, deadline=None)
def test_a_mirrored_wall_has_mirrored_joints(wall: dict, existing: int | None, side: str) -> None:
    """Ties of equally even bays included: equal bays on a symmetrical wall fall to the same end of the bond."""
    drawn = {**wall, "bond_from": side, "existing_joints_x_mm": [] if existing is None else [existing]}
    system = {"board": BOARD, "slip": SLIP, "movement_joint": {"width_mm": 12}}
    request = {"elevations": [drawn, {"id": "handed", "mirror_of": "wall"}], "system": system}
    answer = calculate(MovementJointsRequest.model_validate(request))
    one, two = answer.result["elevations"]
    seen = [(wall["width_mm"] - joint["x_mm"], joint["existing"], joint["segments"]) for joint in one["joints"]]
    assert seen[::-1] == [(joint["x_mm"], joint["existing"], joint["segments"]) for joint in two["joints"]]
    assert one.get("withheld") == two.get("withheld")
    bays = [
        [round(item["value"], 6) for item in answer.findings
         if item["code"] == "no-legal-joint-position" and item["where"]["elevation"] == name]
        for name in ("wall", "handed")
    ]  # fmt: skip
    assert bays[0] == bays[1]
