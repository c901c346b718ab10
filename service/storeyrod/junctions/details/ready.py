"""A ready detail of a request, as it goes to the solver."""

from collections.abc import Callable, Mapping
from typing import Any, Final

from storeyrod.findings import refuse
from storeyrod.junctions.detail_models import Detail
from storeyrod.junctions.details.base_rail import base_rail
from storeyrod.junctions.details.corner import corner
from storeyrod.junctions.details.detail import DrawnDetail
from storeyrod.junctions.details.drawing import DETAIL, section_of
from storeyrod.junctions.details.movement_joint import movement_joint
from storeyrod.junctions.details.point_fastener import point_fastener
from storeyrod.junctions.details.reveal import head, jamb, sill
from storeyrod.junctions.details.slab_edge import slab_edge
from storeyrod.junctions.details.wall_slices import Wall, wall_of
from storeyrod.junctions.posed import INSIDE, OUTSIDE, PosedJunction
from storeyrod.thermal.models import BuildUp
from storeyrod.trace import Trace


def posed_detail(detail: Detail, build_up: BuildUp | None, trace: Trace) -> PosedJunction:
    """Section, flanks and points of a detail; raises the refusals of its build-up and of its parameters."""
    if build_up is None:
        raise refuse("build-up-missing", DETAIL, "a ready detail is drawn from a wall: give build_up beside junction")
    if detail.temperatures.internal_deg_c == detail.temperatures.external_deg_c:
        where = f"{DETAIL}/temperatures"
        raise refuse("no-temperature-difference", where, "inside and outside have one temperature; let them differ")
    wall = wall_of(build_up, trace)
    drawn = _DRAWN[detail.kind](detail, wall, trace)
    section, names = section_of(drawn.boxes, drawn.surfaces, drawn.way, drawn.geometry)
    return PosedJunction(
        section,
        names,
        (
            trace.given(detail.temperatures.internal_deg_c, f"{DETAIL}/temperatures/internal_deg_c"),
            trace.given(detail.temperatures.external_deg_c, f"{DETAIL}/temperatures/external_deg_c"),
        ),
        section.environments.index(INSIDE),
        section.environments.index(OUTSIDE),
        drawn.flanks,
        drawn.places,
        count_per_m2=drawn.count_per_m2,
        ready=True,
        findings=wall.findings + drawn.findings,
        assumptions=wall.assumptions + drawn.assumptions,
    )


_DRAWN: Final[Mapping[str, Callable[[Any, Wall, Trace], DrawnDetail]]] = {
    "external_corner": corner,
    "internal_corner": corner,
    "jamb": jamb,
    "head": head,
    "sill": sill,
    "base_rail": base_rail,
    "slab_edge": slab_edge,
    "movement_joint": movement_joint,
    "point_fastener": point_fastener,
}
"""What draws each kind."""
