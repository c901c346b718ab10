"""The wall that every layout stands on: faces, corners and system, checked once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from storeyrod.findings import Finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.checks import course_findings, ground_findings, refuse_mismatched_system
from storeyrod.wall.corners import Corner, corners_of
from storeyrod.wall.face import Face, faces_of
from storeyrod.wall.gauge import Gauge, gauge_of
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.models import Elevation
from storeyrod.wall.outline_notes import outline_findings
from storeyrod.wall.projections import projection_findings
from storeyrod.wall.ribs import rib_findings
from storeyrod.wall.short_faces import short_face_findings
from storeyrod.wall.storey_joints import StoreyJoint
from storeyrod.wall.storey_levels import storey_joints_of
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class Wall:
    """Faces in request order, corners by name, the system, what was found on the way, and level joints from the lowest."""

    faces: tuple[Face, ...]
    corners: tuple[Corner, ...]
    system: System
    findings: tuple[Finding, ...]
    storey_joints: tuple[StoreyJoint, ...] = ()

    @property
    def course_pitch(self) -> float:
        """Height of a course in ticks."""
        return ticks(course_pitch_of(self.system))

    @property
    def gauge(self) -> Gauge:
        """Heights of the courses."""
        return gauge_of(self.system, self.storey_joints)

    def gauge_on(self, datum: float) -> Gauge:
        """Heights of the courses with another datum, on which level joints may lie in other beds."""
        if not self.storey_joints:
            return replace(self.gauge, datum=datum)
        system = self.system.model_copy(update={"course_datum_mm": millimetres(datum)})
        return gauge_of(system, storey_joints_of(self.faces, system, settled=False)[0])

    @property
    def foot(self) -> float:
        """Lowest point of all faces in ticks."""
        return min(face.foot for face in self.faces)


def wall_of(elevations: Sequence[Elevation], system: System, *, settled: bool = True) -> Wall:
    """The checked wall of a request; courses that are not ``settled`` may yet be moved by another datum.

    Raises the refusals of system, outlines, openings, corners and level joints.
    """
    refuse_mismatched_system(system)
    faces = faces_of(elevations, system)
    corners, findings = corners_of(faces)
    joints, found = storey_joints_of(faces, system, settled=settled)
    findings += found
    gauge = gauge_of(system, joints)
    for face in faces:
        findings += course_findings(face, gauge) + ground_findings(face)
        findings += [*projection_findings(face), *short_face_findings(face, system)]
        findings += [*rib_findings(face, system), *outline_findings(face)]
    return Wall(faces, tuple(corners), system, tuple(findings), joints)
