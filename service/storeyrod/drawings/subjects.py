"""What the sheets of a request are drawn from: the wall once, and of its layouts those that some sheet shows."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from storeyrod.answer import Assumption, unique
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.elevation import ElevationSubject
from storeyrod.drawings.setting_out_sheet import SettingOutSubject
from storeyrod.drawings.slips_sheet import SlipsSubject
from storeyrod.fasteners.schedule import set_fasteners
from storeyrod.findings import Finding
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.setting_out.base_steps import elevation_base
from storeyrod.setting_out.course_grid import module_lengths
from storeyrod.setting_out.runs import bay_set_outs
from storeyrod.setting_out.set_out import set_out
from storeyrod.setting_out.ways import meeting_ends
from storeyrod.slips.calculation import bond_assumptions
from storeyrod.slips.layout import lay_slips
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.wall.wall import Wall, wall_of

Kind = Literal["elevation", "setting_out", "slips"]
Subject = ElevationSubject | SettingOutSubject | SlipsSubject

KINDS: Final[tuple[Kind, ...]] = ("elevation", "setting_out", "slips")


@dataclass(frozen=True, slots=True)
class Shown:
    """What one kind of sheet shows: its subjects by elevation, what was found, and what was assumed on the way."""

    subjects: Mapping[str, Subject]
    findings: Sequence[Finding]
    assumptions: Sequence[Assumption] = ()


def shown_by(take_off: TakeOffRequest, kinds: Collection[Kind]) -> Mapping[Kind, Shown]:
    """Subjects of the kinds asked for; raises the refusals of the wall and of what each of them lays."""
    wall = wall_of(take_off.elevations, take_off.system)
    plans = joint_plans(wall)
    found = [*wall.findings, *(item for plan in plans for item in plan.findings)]
    return {
        kind: Shown(one.subjects, unique([*found, *one.findings]), one.assumptions)
        for kind in KINDS
        if kind in kinds
        for one in [_MAKERS[kind](take_off, wall, plans)]
    }


def _elevations(take_off: TakeOffRequest, wall: Wall, plans: Sequence[JointPlan]) -> Shown:
    layout = chosen_layout(wall, plans, take_off.options.effort)
    schedule = set_fasteners(wall, layout)
    rod = Rod(wall.gauge, wall.storey_joints)
    subjects = {
        face.id: ElevationSubject(face, plan, boards, fastened, rod)
        for face, plan, boards, fastened in zip(wall.faces, plans, layout.faces, schedule.faces, strict=True)
    }
    return Shown(subjects, [*layout.findings, *schedule.findings])


def _set_outs(take_off: TakeOffRequest, wall: Wall, plans: Sequence[JointPlan]) -> Shown:
    outs = set_out(wall, plans, take_off.options)
    module, meets = module_lengths(wall.system), meeting_ends(wall)
    rows = [(bay_set_outs(out, wall), elevation_base(out.face, wall, out)) for out in outs]
    subjects = {
        out.face.id: SettingOutSubject(
            out, plan, bays, wall.gauge, module, wall.system.bond, meets, base, wall.storey_joints
        )
        for out, plan, ((bays, _), (base, _)) in zip(outs, plans, rows, strict=True)
    }
    found = [
        item
        for out, ((_, of_bays), (_, of_base)) in zip(outs, rows, strict=True)
        for item in (*out.findings, *of_bays, *of_base)
    ]
    return Shown(subjects, found)


def _slips(take_off: TakeOffRequest, wall: Wall, plans: Sequence[JointPlan]) -> Shown:
    layout = lay_slips(wall, plans, take_off.options)
    subjects = {face.face.id: SlipsSubject(face, layout, plan) for face, plan in zip(layout.faces, plans, strict=True)}
    return Shown(subjects, layout.findings, bond_assumptions(layout))


_MAKERS: Final[Mapping[Kind, Callable[[TakeOffRequest, Wall, Sequence[JointPlan]], Shown]]] = {
    "elevation": _elevations,
    "setting_out": _set_outs,
    "slips": _slips,
}
