"""Where level joints lie: each in the bed joint nearest to its storey, or over the joint of the structure that it repeats.

A joint runs round the building, so levels of all elevations are taken together; those less than a course apart are one joint.
Joints are placed from the datum upwards and downwards, each on the courses as the ones before have moved them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.face import Face
from storeyrod.wall.gauge import Gauge, gauge_of
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.system import System

MOST_JOINTS: Final = 200
"""Level joints of one building."""

OFF_JOINT_MM: Final = 0.5
"""House limit: so far outside a bed joint a joint of the structure still lies behind it."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """A level that asks for a joint, in ticks, and who asks: a storey, or a joint in the structure."""

    level: float
    existing: bool
    face: Face
    pointer: str


@dataclass(frozen=True, slots=True)
class _Group:
    """Levels that one joint serves; a joint of the structure decides where it lies."""

    asked: tuple[_Asked, ...]

    @property
    def first(self) -> _Asked:
        """The level that the joint is placed for."""
        return next((one for one in self.asked if one.existing), self.asked[0])


def storey_joints_of(
    faces: Sequence[Face], system: System, *, settled: bool = True
) -> tuple[tuple[StoreyJoint, ...], list[Finding]]:
    """Level joints of a building from the lowest, and what was found; courses that are not ``settled`` may yet move to a joint of
    the structure.

    Raises ``storey-joint-narrow``, ``joint-outside-outline``, ``existing-joint-bridged``, and ``size-limit`` for too many joints.
    """
    asked = sorted([*_existing(faces), *_storeys(faces, system)], key=lambda one: one.level)
    if not asked:
        return (), _without_storeys(faces, system)
    width = _width(system)
    lift = width - ticks(system.joint.bed_mm)
    groups = list(_groups(asked, gauge_of(system).pitch + lift))
    if len(groups) > MOST_JOINTS:
        detail = f"{len(groups)} level joints; at most {MOST_JOINTS} are placed."
        raise refuse("size-limit", asked[0].pointer, detail)
    placed = _Placing(gauge_of(system), width, lift).joints(groups)
    if settled:
        _refuse_bridged(groups, placed)
    return placed, [*_differing(groups), *_shifted(placed), *_crossed(faces, placed)]


def _width(system: System) -> float:
    asked, bed = system.movement_joint.storey_width_mm, system.joint.bed_mm
    width = bed if asked is None else asked
    if width < bed or width == 0.0:
        detail = f"A level joint of {width:g} mm stands in beds of {bed:g} mm; give storey_width_mm of a bed at least, and over 0."
        raise refuse("storey-joint-narrow", "/system/movement_joint/storey_width_mm", detail)
    return ticks(width)


def _existing(faces: Sequence[Face]) -> Iterator[_Asked]:
    for face in faces:
        for index, y_mm in enumerate(face.elevation.existing_joints_y_mm):
            pointer = f"{face.members_pointer}/existing_joints_y_mm/{index}"
            if not face.foot < ticks(y_mm) < face.top:
                span = f"{millimetres(face.foot):g} to {millimetres(face.top):g} mm"
                detail = (
                    f"{y_mm:g} mm is not inside the face, {span}; give the joint in the coordinates of the elevation."
                )
                raise refuse("joint-outside-outline", pointer, detail)
            yield _Asked(ticks(y_mm), existing=True, face=face, pointer=pointer)


def _storeys(faces: Sequence[Face], system: System) -> Iterator[_Asked]:
    """Storey levels over which and under which a wall stands: under the joint a board, over it a course at least."""
    if not system.movement_joint.at_storeys:
        return
    board, course = ticks(system.board.cover_height_mm), gauge_of(system).pitch
    for face in faces:
        for index, level_mm in enumerate(face.elevation.storey_levels_mm):
            level = ticks(level_mm)
            if any(one.foot + board <= level <= one.top - course for one in faces):
                pointer = f"{face.members_pointer}/storey_levels_mm/{index}"
                yield _Asked(level, existing=False, face=face, pointer=pointer)


def _groups(asked: Sequence[_Asked], apart: float) -> Iterator[_Group]:
    gathered = [asked[0]]
    for one in asked[1:]:
        if one.level - gathered[0].level >= apart:
            yield _Group(tuple(gathered))
            gathered = []
        gathered.append(one)
    yield _Group(tuple(gathered))


@dataclass(frozen=True, slots=True)
class _Placing:
    """Placing joints of one width on an even gauge; each moves the courses beyond it by ``lift``."""

    even: Gauge
    width: float
    lift: float

    def joints(self, groups: Sequence[_Group]) -> tuple[StoreyJoint, ...]:
        """Joints from the lowest."""
        above = [group.first for group in groups if self.even.nearest(self._foot_above(group.first)) > 0]
        below = [group.first for group in groups if self.even.nearest(self._foot_above(group.first)) <= 0]
        up = [(self._above(one, count * self.lift), one) for count, one in enumerate(above)]
        down = [(self._below(one, count * self.lift), one) for count, one in enumerate(reversed(below))]
        placed = [
            StoreyJoint(course, 0.0, 0.0, one.level, self.lift, one.existing) for course, one in (*reversed(down), *up)
        ]
        gauge = self.even.with_joints(placed)
        return tuple(replace(one, bottom=gauge.top(one.course - 1), top=gauge.bottom(one.course)) for one in placed)

    def _above(self, one: _Asked, shift: float) -> int:
        return max(1, self.even.nearest(self._foot_above(one) - shift))

    def _below(self, one: _Asked, shift: float) -> int:
        foot = one.level + self.width / 2.0 if one.existing else one.level
        return min(0, self.even.nearest(foot + shift))

    def _foot_above(self, one: _Asked) -> float:
        """Foot of the course over a joint if it were a bed: at the storey, or so that the joint has its middle at the structure's."""
        return one.level - self.width / 2.0 + (self.width - self.lift) if one.existing else one.level


def _refuse_bridged(groups: Sequence[_Group], joints: Sequence[StoreyJoint]) -> None:
    slack = ticks(OFF_JOINT_MM)
    for group, joint in zip(groups, joints, strict=True):
        for one in group.asked:
            if one.existing and not joint.bottom - slack <= one.level <= joint.top + slack:
                place, bed = millimetres(one.level), f"{millimetres(joint.bottom):g} to {millimetres(joint.top):g} mm"
                detail = f"The joint at {place:g} mm lies behind slips; the nearest bed joint is at {bed}: move the datum of the courses."
                raise refuse("existing-joint-bridged", one.pointer, detail)


def _without_storeys(faces: Sequence[Face], system: System) -> list[Finding]:
    """Level joints were asked for, and no storey has a wall below and above."""
    if not system.movement_joint.at_storeys:
        return []
    where: Where = {"pointer": "/system/movement_joint/at_storeys"}
    levels = float(sum(len(face.elevation.storey_levels_mm) for face in faces))
    return [finding("storey-levels-missing", where, value=levels, limit=1.0, unit="count")]


def _differing(groups: Sequence[_Group]) -> Iterator[Finding]:
    """Levels less than a course apart that are not the same."""
    for group in groups:
        first = group.first
        off = max(group.asked, key=lambda one: abs(one.level - first.level))
        value = millimetres(abs(off.level - first.level))
        if value:
            where: Where = {"pointer": off.pointer, "elevation": off.face.id, "y_mm": millimetres(off.level)}
            yield finding("storey-levels-differ", where, value=value, limit=0.0, unit="mm")


def _shifted(joints: Sequence[StoreyJoint]) -> Iterator[Finding]:
    for joint in joints:
        if joint.lift:
            where: Where = {"pointer": "/system/movement_joint/storey_width_mm", "y_mm": millimetres(joint.bottom)}
            yield finding("storey-joint-shifts-courses", where, value=millimetres(joint.lift), limit=0.0, unit="mm")


def _crossed(faces: Sequence[Face], joints: Sequence[StoreyJoint]) -> Iterator[Finding]:
    """Openings that reach from below a joint to above it."""
    for face in faces:
        for opening in face.openings:
            for joint in joints:
                if opening.sill < joint.bottom and opening.head > joint.top:
                    where: Where = {"pointer": opening.pointer, "elevation": face.id, "opening": opening.id}
                    where |= {"x_mm": millimetres(opening.left), "y_mm": millimetres(joint.bottom)}
                    yield finding("opening-crosses-storey-joint", where)
