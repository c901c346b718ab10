"""The nominal grid of a wall: course pitch, module, header and build-up, as formulas."""

import math
from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.system import System

CO_ORDINATING: Final = Clause("brick dimension tables", "co-ordinating size = work size + joint", "published")


@formula(symbol="p", expression="h + b", unit="mm", inputs={"h": "mm", "b": "mm"}, clause=CO_ORDINATING)
def course_pitch(*, h: float, b: float) -> float:
    """Height of one course: slip height and bed joint."""
    return h + b


@formula(symbol="m", expression="l + j", unit="mm", inputs={"l": "mm", "j": "mm"}, clause=CO_ORDINATING)
def module_length(*, l: float, j: float) -> float:  # noqa: E741  symbol of the formula
    """Length of one module: slip length and perp."""
    return l + j


@formula(symbol="l_h", expression="(l - j)/2", unit="mm", inputs={"l": "mm", "j": "mm"}, clause=CO_ORDINATING)
def header_length(*, l: float, j: float) -> float:  # noqa: E741  symbol of the formula
    """Face length of a header or half bat: two of them and a perp make a stretcher."""
    return (l - j) / 2


@formula(
    symbol="t", expression="t_b + t_a + t_s", unit="mm", inputs={"t_b": "mm", "t_a": "mm", "t_s": "mm"}, clause=GEOMETRY
)
def build_up_thickness(*, t_b: float, t_a: float, t_s: float) -> float:
    """Thickness over the substrate: board, compressed adhesive and slip."""
    return t_b + t_a + t_s


@formula(
    symbol="L_finished",
    expression="L_substrate + n_external*t - n_internal*t",
    unit="mm",
    inputs={"L_substrate": "mm", "n_external": "count", "n_internal": "count", "t": "mm"},
    clause=GEOMETRY,
)
def finished_length(*, L_substrate: float, n_external: float, n_internal: float, t: float) -> float:  # noqa: N803
    """Length of the finished face: the build-up is added at external corners and taken off at internal ones."""
    return L_substrate + n_external * t - n_internal * t


@formula(
    symbol="s",
    expression="k*t/tan(pi*angle/(360*one))",
    unit="mm",
    inputs={"k": "count", "t": "mm", "angle": "deg", "one": "deg"},
    clause=GEOMETRY,
)
def corner_projection(*, k: float, t: float, angle: float, one: float) -> float:
    """How far a plane t outside another one ends beyond it where two faces meet at an angle.

    k is 1 at an external corner, -1 at an internal one, where it ends inside, and 0 where nothing turns.
    """
    return k * t / math.tan(math.pi * angle / (360 * one))


@formula(
    symbol="L_finished",
    expression="L_substrate + s_left + s_right",
    unit="mm",
    inputs={"L_substrate": "mm", "s_left": "mm", "s_right": "mm"},
    clause=GEOMETRY,
)
def length_between(*, L_substrate: float, s_left: float, s_right: float) -> float:  # noqa: N803  symbol of the formula
    """Length of the finished face between corners that are not square."""
    return L_substrate + s_left + s_right


@formula(
    symbol="CO_plus",
    expression="n*m + j",
    unit="mm",
    inputs={"n": "count", "m": "mm", "j": "mm"},
    clause=CO_ORDINATING,
)
def opening_size(*, n: float, m: float, j: float) -> float:
    """Clear opening between units: n modules and a joint."""
    return n * m + j


@formula(
    symbol="CO_minus",
    expression="n*m - j",
    unit="mm",
    inputs={"n": "count", "m": "mm", "j": "mm"},
    clause=CO_ORDINATING,
)
def pier_size(*, n: float, m: float, j: float) -> float:
    """Pier from unit to unit: n modules less a joint."""
    return n * m - j


def course_pitch_of(system: System, trace: Trace = SILENT) -> float:
    """Course pitch of a system in mm."""
    return trace.call(
        course_pitch,
        h=trace.given(system.slip.height_mm, "/system/slip/height_mm"),
        b=trace.given(system.joint.bed_mm, "/system/joint/bed_mm"),
    )


def module_of(system: System, trace: Trace = SILENT) -> float:
    """Module length of a system in mm."""
    return trace.call(
        module_length,
        l=trace.given(system.slip.length_mm, "/system/slip/length_mm"),
        j=trace.given(system.joint.perp_mm, "/system/joint/perp_mm"),
    )


def header_of(system: System, trace: Trace = SILENT) -> float:
    """Face length of a header of a system in mm."""
    return trace.call(
        header_length,
        l=trace.given(system.slip.length_mm, "/system/slip/length_mm"),
        j=trace.given(system.joint.perp_mm, "/system/joint/perp_mm"),
    )


def build_up_of(system: System, trace: Trace = SILENT) -> float:
    """Thickness over the substrate of a system in mm."""
    return trace.call(
        build_up_thickness,
        t_b=trace.given(system.board.thickness_mm, "/system/board/thickness_mm"),
        t_a=trace.given(system.adhesive.compressed_thickness_mm, "/system/adhesive/compressed_thickness_mm"),
        t_s=trace.given(system.slip.thickness_mm, "/system/slip/thickness_mm"),
    )


def corner_stretcher_of(system: System) -> float:
    """Longer leg of a corner slip in mm."""
    given = system.corner_slip.stretcher_mm
    return given if given is not None else system.slip.length_mm


def corner_return_of(system: System) -> float:
    """Shorter leg of a corner slip in mm."""
    given = system.corner_slip.return_mm
    return given if given is not None else header_of(system)
