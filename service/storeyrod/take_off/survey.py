"""The survey beside the outlines: a wall is measured bare, and clad it is longer or shorter by its build-up."""

from collections.abc import Mapping, Sequence
from typing import Final

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.ticks import millimetres
from storeyrod.reference.documents import GEOMETRY, HOUSE
from storeyrod.take_off.models import SurveyCheck, SurveyedLength
from storeyrod.trace import Trace, formula
from storeyrod.wall.face import SIDES, SQUARE_DEG, TURNS, Face, Side
from storeyrod.wall.grid import build_up_of, corner_projection, finished_length, length_between
from storeyrod.wall.system import System

AGREEMENT_MM: Final = 1.0
"""House limit: survey and outline farther apart than this are reported."""


@formula(
    symbol="dL",
    expression="L_outline - L_survey",
    unit="mm",
    inputs={"L_outline": "mm", "L_survey": "mm"},
    clause=GEOMETRY,
)
def length_difference(*, L_outline: float, L_survey: float) -> float:  # noqa: N803  symbols of the formula
    """How much longer the outline is than the survey says, both in the finished plane."""
    return L_outline - L_survey


def survey_checks(
    survey: Sequence[SurveyedLength], faces: Sequence[Face], system: System, trace: Trace
) -> tuple[list[SurveyCheck], list[Finding]]:
    """Every surveyed length in both planes beside its outline; raises ``reference-unknown``."""
    by_id = {face.id: face for face in faces}
    checks, findings = [], []
    for index, row in enumerate(survey):
        check = _check(row, f"/survey/{index}", by_id, system, trace)
        checks.append(check)
        findings += _mismatch(check, f"/survey/{index}", trace)
    return checks, findings


def _check(row: SurveyedLength, pointer: str, faces: Mapping[str, Face], system: System, trace: Trace) -> SurveyCheck:
    face = faces.get(row.elevation)
    if face is None:
        raise refuse(
            "reference-unknown", f"{pointer}/elevation", "No elevation of this request has this id; use one of them."
        )
    substrate = trace.given(row.substrate_length_mm, f"{pointer}/substrate_length_mm")
    finished = _finished(substrate, face, system, trace)
    outline = trace.given(millimetres(face.length), face.pointer)
    return {
        "elevation": face.id,
        "surveyed_substrate_length_mm": row.substrate_length_mm,
        "surveyed_finished_length_mm": finished,
        "outline_finished_length_mm": outline,
        "difference_mm": trace.call(length_difference, L_outline=outline, L_survey=finished),
    }


def _finished(substrate: float, face: Face, system: System, trace: Trace) -> float:
    """Finished length between the ends of a face: whole build-ups at square corners, a share of one at others."""
    edges = [face.edge(side) for side in SIDES]
    build_up = build_up_of(system, trace)
    if all(edge.angle_deg == SQUARE_DEG or not edge.is_corner for edge in edges):
        kinds = [edge.kind for edge in edges]
        return trace.call(
            finished_length,
            L_substrate=substrate,
            n_external=trace.given(float(kinds.count("external_corner")), face.pointer),
            n_internal=trace.given(float(kinds.count("internal_corner")), face.pointer),
            t=build_up,
        )
    left, right = (_projection(face, side, build_up, trace) for side in SIDES)
    return trace.call(length_between, L_substrate=substrate, s_left=left, s_right=right)


def _projection(face: Face, side: Side, build_up: float, trace: Trace) -> float:
    edge, pointer = face.edge(side), face.edge_pointer(side)
    return trace.call(
        corner_projection,
        k=trace.given(TURNS.get(edge.kind, 0.0), f"{pointer}/kind"),
        t=build_up,
        angle=trace.given(edge.angle_deg, f"{pointer}/angle_deg"),
        one=trace.lookup("one", 1.0, "deg", GEOMETRY),
    )


def _mismatch(check: SurveyCheck, pointer: str, trace: Trace) -> list[Finding]:
    apart = check["difference_mm"]
    limit = trace.lookup("limit", AGREEMENT_MM, "mm", HOUSE)
    if trace.check("dL", apart, limit, "mm", HOUSE, holds=abs(apart) <= AGREEMENT_MM):
        return []
    where: Where = {"pointer": f"{pointer}/substrate_length_mm", "elevation": check["elevation"]}
    return [finding("survey-mismatch", where, value=float(apart), limit=AGREEMENT_MM, unit="mm")]
