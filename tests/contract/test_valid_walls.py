"""Generated valid requests, 200 for each operation, of junctions 60: all answered with 200, each answer as the published schema says.

Random bodies are mostly refused, so they say little about answers. These walls are valid by construction: outlines of four
shapes, openings side by side below the eaves, corners that name each other, metric and US formats, every bond.
Loads on them come from ``valid_loads``, questions about heat and moisture from ``valid_heat``.
"""

import json
from pathlib import Path

import jsonschema_rs
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from contract.valid_heat import build_ups, condensations, heat_sheets, junctions, u_values
from contract.valid_loads import loaded, on_sides, proof_tests, sites, weights, wind_sites
from storeyrod.api.app import create_app
from storeyrod.api.operations import OPERATIONS
from storeyrod.api.settings import Settings
from storeyrod.setting_out.bond import BONDS

DOCUMENT = json.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_text(encoding="utf-8"))
CLIENT = TestClient(create_app(Settings(workers=0, log_requests=False)))
DATUMS = [
    {"kind": "as_given"},
    {"kind": "fixed", "level_mm": 12.5},
    {"kind": "match_bed", "match_bed_at_mm": -31},
    {"kind": "best"},
]
CORNERS = st.sampled_from(["external_corner", "internal_corner"])
SPACINGS = st.sampled_from(
    ["common_practice", "adhered_thin_brick", "adhered_tiling", "full_thickness_uk", "en_1996_2", "clay_brick_us"]
)
OPEN_ENDS = st.sampled_from(["external_corner", "internal_corner", "abutment", "free_end", "movement_joint"])


@st.composite
def systems(draw: st.DrawFn) -> dict:
    """Whole courses in a board, ribbed or plain, in millimetres or in inches turned to millimetres."""
    length, height, joint = draw(
        st.sampled_from([(215, 65, 10), (240, 71, 12.3), (290, 90, 10), (193.675, 57.15, 9.525), (210, 50, 12)])
    )
    pitch = height + joint
    board = {
        "cover_length_mm": draw(st.sampled_from([600, 1200, 1350, 2400])),
        "cover_height_mm": pitch * draw(st.integers(2, 10)),
        "thickness_mm": draw(st.sampled_from([40, 100, 160.5])),
        "side_edges": draw(st.sampled_from(["square", "lap"])),
    }
    if draw(st.booleans()):
        board["rib_pitch_mm"] = pitch
    bond = draw(st.sampled_from(sorted(BONDS)))
    made = {
        "board": board,
        "slip": {"length_mm": length, "height_mm": height, "thickness_mm": draw(st.sampled_from([15, 20, 102.5]))},
        "joint": {"bed_mm": joint, "perp_mm": joint, "perp_min_mm": joint - 2, "perp_max_mm": joint + 2},
        "bond": bond,
        "course_datum_mm": draw(st.sampled_from([0, -37.5, 12, 1000])),
        "movement_joint": {
            "profile": draw(SPACINGS),
            "at_storeys": draw(st.booleans()),
            "storey_width_mm": draw(st.sampled_from([None, joint, joint + 5])),
        },
    }
    if draw(st.booleans()):
        made["joint"]["profile"] = {"kind": "concave", "sagitta_mm": draw(st.floats(0.5, 4))}
        made["packs"] = {
            "board_count": draw(st.integers(1, 12)),
            "slip_count": draw(st.integers(1, 500)),
            "mortar_kg": 25,
        }
    return made


@st.composite
def openings(draw: st.DrawFn, width: float, height: float) -> list[dict]:
    """Up to four openings side by side, 400 mm from the ends (an internal corner covers some of it), below the eaves."""
    made, x = [], 400.0
    for index in range(draw(st.integers(0, 4))):
        x += draw(st.floats(0, width / 3))
        clear = draw(st.floats(60, 2500))
        if x + clear > width - 400:
            break
        sill = draw(st.one_of(st.just(0.0), st.floats(0, height / 2)))
        rise_to = draw(st.floats(60, height - sill - 20)) if height - sill > 100 else None
        if rise_to is None:
            break
        reveal = {
            side: {"depth_mm": draw(st.sampled_from([0, 65, 102.5, 240])), "lining_mm": draw(st.sampled_from([0, 12]))}
            for side in ("left", "right")
        }
        one = {
            "id": f"o{index}",
            "x_mm": x,
            "width_mm": clear,
            "reveal": reveal,
            "use": draw(st.sampled_from(["window", "door", "vent"])),
        }
        if draw(st.booleans()):
            one |= {
                "kind": "rectangle",
                "y_mm": sill,
                "height_mm": rise_to,
                "head": draw(st.sampled_from(["plain", "soldier"])),
            }
        else:
            rise = min(clear / 2.2, rise_to / 2)
            one |= {"kind": "arch", "sill_mm": sill, "springing_mm": sill + rise_to - rise, "rise_mm": rise}
            one["reveal"] = {side: {**lining, "lining_mm": 0} for side, lining in reveal.items()}
        made.append(one)
        x += clear + 200
    return made


@st.composite
def elevations(draw: st.DrawFn, name: str) -> dict:
    width, height = draw(st.floats(1500, 14000)), draw(st.floats(600, 7000))
    rise = draw(st.floats(200, 3000))
    shape = draw(st.sampled_from(["sized", "rectangle", "gable", "mono-pitch", "stepped"]))
    made: dict = {
        "id": name,
        "plane": draw(st.sampled_from(["finished", "substrate"])),
        "openings": draw(openings(width, height)),
        "bond_from": draw(st.sampled_from(["left", "right"])),
        "storey_levels_mm": draw(st.sampled_from([[], [0, 2700, 5400], [2400, 0]])),
        "joints_at_jambs": draw(st.booleans()),
        "parapet_from_mm": draw(st.sampled_from([None, 500])),
    }
    start = draw(st.sampled_from([None, "full", "half", "carried"]))
    if start is not None:
        made["bond_start"] = start
    if draw(st.booleans()):
        ground = [draw(st.floats(-400, 200)) for _ in range(3)]
        made["base"] = {"ground": [{"x_mm": x, "y_mm": y} for x, y in zip((0, width / 3, width), ground, strict=True)]}
    if draw(st.booleans()):
        # Between the last opening and what an internal corner may cover.
        made["features"] = [
            {
                "id": "plinth stone",
                "kind": "rectangle",
                "x_mm": width - 390,
                "y_mm": 0,
                "width_mm": 100,
                "height_mm": 300,
            }
        ]
    if shape == "sized":
        return made | {"width_mm": width, "height_mm": height}
    top = {
        "rectangle": [(width, height), (0, height)],
        "gable": [(width, height), (width * draw(st.floats(0.2, 0.8)), height + rise), (0, height)],
        "mono-pitch": [(width, height + rise), (0, height)],
        "stepped": [(width, height), (width / 2, height), (width / 2, height + rise), (0, height + rise)],
    }[shape]
    corners = [(0, 0), (width, 0), *top]
    if draw(st.booleans()):
        corners.reverse()
    return made | {"outline": [{"x_mm": x, "y_mm": y} for x, y in corners]}


@st.composite
def walls(draw: st.DrawFn) -> dict:
    """One elevation with any ends, or two that meet at a corner."""
    first = draw(elevations("front"))
    if draw(st.booleans()):
        ends = {f"{side}_edge": {"kind": draw(OPEN_ENDS)} for side in ("left", "right")}
        faces = [first | ends, *([{"id": "image", "mirror_of": "front"}] if draw(st.booleans()) else [])]
    else:
        kind = draw(CORNERS)
        second = draw(elevations("side"))
        first = first | {"right_edge": {"kind": kind, "to": "side:left"}, "left_edge": {"kind": "free_end"}}
        faces = [first, second | {"left_edge": {"kind": kind, "to": "front:right"}, "right_edge": {"kind": "abutment"}}]
    options = {
        "perps": draw(st.sampled_from(["nominal", "equalised"])),
        "detail": draw(st.sampled_from(["summary", "pieces"])),
        "trace": draw(st.sampled_from(["none", "steps"])),
        "effort": draw(st.sampled_from(["quick"] * 24 + ["standard"])),
    }
    return {"elevations": faces, "system": draw(systems()), "options": options}


@st.composite
def whole_jobs(draw: st.DrawFn) -> dict:
    """A wall under its loads, with a build-up, a site, and members about weights in every other job."""
    job = {"build_up": draw(build_ups()), "project": {"name": "a job", "site": draw(sites())}}
    tested = {"proof_tests": draw(proof_tests())} if draw(st.booleans()) else {}
    return draw(loaded(walls())) | job | tested | (draw(weights()) if draw(st.booleans()) else {})


def schedules() -> st.SearchStrategy[dict]:
    """Fasteners of a wall under its loads."""
    tests = st.none() | proof_tests()
    return st.builds(
        lambda wall, site, tested: wall | {"site": site, "proof_tests": tested},
        loaded(walls()), st.none() | sites(), tests,
    )  # fmt: skip


def winds() -> st.SearchStrategy[dict]:
    """Wind on a building alone, on faces as drawn, or on finished faces."""

    def asked(wall: dict, wind: dict, members: list[str]) -> dict:
        return {name: wall[name] for name in members} | {"wind": wind}

    members = st.sampled_from([[], ["elevations"], ["elevations", "system", "options"]])
    return st.builds(asked, walls().flatmap(on_sides), wind_sites(), members)


@st.composite
def drawings(draw: st.DrawFn) -> dict:
    """One sheet: of one wall, or of how all its boards are cut, or of its load path; of a junction, or of a moisture check."""
    kinds = ["elevation", "setting_out", "slips", "boards", "joints", "fasteners", "wind", "cut_sheets", "load_path"]
    kind = draw(st.sampled_from([*kinds, "isotherms", "vapour_pressure"]))
    if kind in ("isotherms", "vapour_pressure"):
        return draw(heat_sheets(kind))
    sheet = {"kind": kind} if kind in ("cut_sheets", "load_path") else {"kind": kind, "elevation": "front"}
    made = draw(loaded(walls()) if kind in ("fasteners", "wind", "load_path") else walls())
    if kind == "wind":
        made["wind"] = draw(wind_sites())
        sheet |= draw(st.sampled_from([{}, {"direction": "front"}, {"direction": "left"}]))
    if kind == "load_path":
        made |= {"links": []} | draw(weights())
    return {"take_off": made, "sheets": [sheet]}


REQUESTS = {
    "computeUValue": u_values(),
    "checkCondensation": condensations(),
    "computeThermalJunction": junctions(),
    "computeTakeOff": whole_jobs(),
    "drawSheets": drawings(),
    "computeWindLoad": winds(),
    "computeQuantities": loaded(walls()),
    "computeDeadLoad": st.builds(dict.__or__, loaded(walls()), weights()),
    "computeFastenerSchedule": schedules(),
    "computeSettingOut": st.builds(
        lambda wall, asked: wall | asked, walls(), st.sampled_from([{}, *({"datum": one} for one in DATUMS)])
    ),
}
"""By operation; the others take a wall as it is."""

EXAMPLES = {"computeThermalJunction": 60}
"""Each solves a series of meshes twice."""


@pytest.mark.parametrize("operation", OPERATIONS, ids=[operation.operation_id for operation in OPERATIONS])
def test_valid_requests_are_answered_as_published(operation) -> None:
    published = DOCUMENT["paths"][operation.path]["post"]["responses"]["200"]["content"]

    @settings(
        max_examples=EXAMPLES.get(operation.operation_id, 200),
        deadline=None,
        derandomize=True,
        suppress_health_check=list(HealthCheck),
    )
    @given(REQUESTS.get(operation.operation_id, walls()))
    def answered(request: dict) -> None:
        answer = CLIENT.post(operation.path, json=request)
        assert answer.status_code == 200, answer.text
        media_type = answer.headers["content-type"]
        if media_type == "application/json":
            validator.validate(answer.json())

    content = published.get("application/json")
    if content is not None:
        validator = jsonschema_rs.validator_for({**content["schema"], "components": DOCUMENT["components"]})
    answered()
