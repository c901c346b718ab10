"""Slips of a request: lay them, close the areas, and list what is bought and cut."""

from collections.abc import Iterator

from storeyrod.answer import Answer, Assumed, Assumption, assumptions_of, refuse_cautions, stated, unique
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE
from storeyrod.setting_out.coordination import coordinating_sizes, unit_rates
from storeyrod.slips.cut_list import cut_list
from storeyrod.slips.elevation_rows import elevation_row
from storeyrod.slips.layout import SlipLayout, lay_slips
from storeyrod.slips.models import PieceBalance, SlipLayoutRequest, SlipLayoutResult
from storeyrod.slips.unit_rows import corner_row, return_row, soldier_row, voussoir_row
from storeyrod.slips.voussoirs import voussoirs_of
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.grid import CO_ORDINATING, corner_return_of, corner_stretcher_of, course_pitch_of
from storeyrod.wall.wall import wall_of

NOT_CHECKED = (
    "Bond goes round corners only between faces of this request, and only where it is carried (see bond_start); whether it closes "
    "round the building is worked out by /v1/setting-out.",
    "Slips were taken at their work sizes; size tolerances of the units were not checked.",
    "What carries an arch was not checked; courses beside an arch, or beside the voussoirs over it, are cut to the curve.",
    "How slips are held to the boards and over openings was not checked; follow the supplier's and the designer's details.",
)


def calculate(request: SlipLayoutRequest, trace: Trace = SILENT) -> Answer[SlipLayoutResult]:
    """Every slip of every elevation between its movement joints, what is bought and cut, and areas that close. With
    ``detail`` at pieces, ``courses`` are coded: a row stands for ``count`` equal courses whose numbers are ``every`` apart and whose
    feet are ``every`` times ``course_pitch_mm`` apart; a run in it stands for ``count`` whole units, ``pitch_mm`` from one left end to
    the next; a cut is one piece of each of those courses, its foot ``above_foot_mm`` over theirs.

    Rules are in ``layout`` and the files beside it.
    """
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    layout = lay_slips(wall, plans, request.options, trace)
    result = slip_result(layout, request.options, trace)
    findings = unique([*wall.findings, *(item for plan in plans for item in plan.findings), *layout.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [
        *assumptions_of(request),
        *joint_assumptions(wall, plans),
        *bond_assumptions(layout),
    ]
    return Answer(result, findings, assumptions, list(NOT_CHECKED))


def bond_assumptions(layout: SlipLayout) -> list[Assumption]:
    """What a bond leaves open and the layout decided, and the legs of corner slips where there are any."""
    bond, made = layout.wall.system.bond, []
    if bond in ("third_lap", "quarter_lap"):
        rule = Assumed("", COMMON_PRACTICE, "the lap alternates from course to course")
        made.append(stated("/system/bond", bond, rule))
    return [*made, *_legs(layout), *_arches(layout)]


def _legs(layout: SlipLayout) -> Iterator[Assumption]:
    system = layout.wall.system
    if not layout.corners and not layout.returns:
        return
    if system.corner_slip.stretcher_mm is None:
        rule = Assumed("mm", COMMON_PRACTICE, "as long as a slip")
        yield stated("/system/corner_slip/stretcher_mm", corner_stretcher_of(system), rule)
    if system.corner_slip.return_mm is None:
        rule = Assumed("mm", CO_ORDINATING, "half a slip less half a perp")
        yield stated("/system/corner_slip/return_mm", corner_return_of(system), rule)


def _arches(layout: SlipLayout) -> Iterator[Assumption]:
    """Cut and number of voussoirs that the request leaves open; a mirrored elevation shares its source's members."""
    innermost = (ring for face in layout.faces for ring in face.voussoirs if ring.setting.number == 1)
    for opening, setting in {ring.opening.pointer: (ring.opening, ring.setting) for ring in innermost}.values():
        wanted, pointer = voussoirs_of(opening), f"{opening.pointer}/voussoirs"
        if wanted is not None and wanted.cut is None:
            rule = Assumed("", HOUSE, "square where the joints keep their limits, else taper")
            yield stated(f"{pointer}/cut", setting.cut, rule)
        if wanted is not None and wanted.units_count is None:
            rule = Assumed("count", COMMON_PRACTICE, "an odd number, for a key in the middle; each ring has its own")
            yield stated(f"{pointer}/units_count", setting.count, rule)


def slip_result(layout: SlipLayout, options: Options, trace: Trace = SILENT) -> SlipLayoutResult:
    """The layout as it is answered."""
    elevations = [elevation_row(face, options, trace) for face in layout.faces]
    returns = [return_row(jamb, trace) for jamb in layout.returns]
    return {
        "gross_area_m2": trace.sum("A_gross", "m2", [row["gross_area_m2"] for row in elevations]),
        "net_area_m2": trace.sum("A_net", "m2", [row["net_area_m2"] for row in elevations]),
        "feature_area_m2": trace.sum("A_feature", "m2", [row["feature_area_m2"] for row in elevations]),
        "slip_face_area_m2": trace.sum("A_slip", "m2", [row["slip_face_area_m2"] for row in elevations]),
        "joint_area_m2": trace.sum("A_joint", "m2", [row["joint_area_m2"] for row in elevations]),
        "movement_joint_area_m2": trace.sum("A_movement", "m2", [row["movement_joint_area_m2"] for row in elevations]),
        "end_joint_area_m2": trace.sum("A_end", "m2", [row["end_joint_area_m2"] for row in elevations]),
        "reveal_area_m2": trace.sum("A_reveal", "m2", [row["area_m2"] for row in returns]),
        "reveal_slip_face_area_m2": trace.sum("A_reveal_slip", "m2", [row["slip_face_area_m2"] for row in returns]),
        "reveal_joint_area_m2": trace.sum("A_reveal_joint", "m2", [row["joint_area_m2"] for row in returns]),
        "slips_consumed_count": _consumed(layout, trace),
        "slips_lower_bound_count": layout.slips_lower_bound_count,
        "header_slips_consumed_count": layout.headers.consumed,
        "corner_slips_count": _corner_count(layout, trace),
        "return_slips_count": int(trace.count("n_return", _return_terms(layout))),
        "soldiers_count": layout.soldiers_count,
        "voussoirs_count": layout.voussoirs_count,
        "pieces": _balance(layout),
        "units_per_m2": unit_rates(layout.wall.system, trace),
        "course_pitch_mm": course_pitch_of(layout.wall.system),
        "coordinating_sizes": coordinating_sizes(layout.wall.system, trace),
        "elevations": elevations,
        "soldiers": [soldier_row(face.face, course) for face in layout.faces for course in face.soldiers],
        "voussoirs": [voussoir_row(face.face, ring, options) for face in layout.faces for ring in face.voussoirs],
        "corners": [corner_row(corner) for corner in layout.corners],
        "returns": returns,
        "cut_list": cut_list(layout),
    }


def _consumed(layout: SlipLayout, trace: Trace) -> int:
    whole = ("whole straight slips", float(layout.straight.full), "/elevations")
    cut = ("slips that cuts are made from", float(layout.straight.cutting.slips), "/elevations")
    soldiers = ("soldiers", float(layout.soldiers_count), "/elevations")
    return int(trace.count("n_slips", [whole, cut, soldiers]))


def _corner_count(layout: SlipLayout, trace: Trace) -> int:
    terms = [
        (f"corner at {first.name}", float(corner.count), first.face.edge_pointer(first.side))
        for corner in layout.corners
        for first in [corner.corner.first]
    ]
    return int(trace.count("n_corner", terms))


def _return_terms(layout: SlipLayout) -> list[tuple[str, float, str]]:
    return [(f"{jamb.side} jamb", float(jamb.count), jamb.opening.pointer) for jamb in layout.returns]


def _balance(layout: SlipLayout) -> PieceBalance:
    corners = sum(corner.replaced_count for corner in layout.corners)
    return {
        "face_pieces_count": sum(face.full_count + face.cut_count for face in layout.faces),
        "straight_pieces_count": layout.straight_pieces_count,
        "corner_ends_count": corners,
        "return_ends_count": layout.return_slips_count,
        "twice_replaced_count": layout.twice_replaced_count,
    }
