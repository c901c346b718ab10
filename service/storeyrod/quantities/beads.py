"""Beads of adhesive: their section, their length behind the slips, and what they hold."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.geometry.ticks import square_metres
from storeyrod.quantities.models import AdhesiveBead
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.trace import Trace, formula
from storeyrod.units import LITRES_PER_CUBIC_METRE, METRES_PER_MILLIMETRE, MILLILITRES_PER_LITRE
from storeyrod.wall.adhesive_models import Adhesive
from storeyrod.wall.system import System


@formula(symbol="S", expression="pi*d**2/4", unit="m2", inputs={"d": "m"}, clause=GEOMETRY)
def round_section(*, d: float) -> float:
    """Section of a round bead of diameter d."""
    return math.pi * d**2 / 4


@formula(symbol="S", expression="b*h/2", unit="m2", inputs={"b": "m", "h": "m"}, clause=GEOMETRY)
def triangular_section(*, b: float, h: float) -> float:
    """Section of a bead from a V-notched nozzle, b wide at the board and h high."""
    return b * h / 2


@formula(
    symbol="L_bead",
    expression="A/h*n",
    unit="m",
    inputs={"A": "m2", "h": "m", "n": "count"},
    clause=COMMON_PRACTICE,
)
def bead_length(*, A: float, h: float, n: float) -> float:  # noqa: N803  symbol of the formula
    """Length of n beads along every slip, where slips of height h have the face area A."""
    return A / h * n


@formula(
    symbol="V",
    expression="S*L*litres",
    unit="l",
    inputs={"S": "m2", "L": "m", "litres": "l_per_m3"},
    clause=GEOMETRY,
)
def bead_volume(*, S: float, L: float, litres: float) -> float:  # noqa: N803  symbols of the formula
    """Adhesive in a bead of section S and length L."""
    return S * L * litres


@formula(
    symbol="V",
    expression="A*t*litres",
    unit="l",
    inputs={"A": "m2", "t": "m", "litres": "l_per_m3"},
    clause=GEOMETRY,
)
def bed_volume(*, A: float, t: float, litres: float) -> float:  # noqa: N803  symbol of the formula
    """Adhesive in a bed of thickness t over an area A."""
    return A * t * litres


@formula(
    symbol="c",
    expression="Min(one, n*S/(t*h))",
    unit="fraction",
    inputs={"one": "fraction", "n": "count", "S": "m2", "t": "m", "h": "m"},
    clause=GEOMETRY,
)
def bonded_share(*, one: float, n: float, S: float, t: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Share of a slip of height h that n beads cover once pressed to the thickness t; no more than all of it."""
    return min(one, n * S / (t * h))


@dataclass(frozen=True, slots=True)
class Bead:
    """A bead and what it meets: section in m2, beads in a course, slip height in m, bonded share, and a pack in litres.

    ``bed`` is the thickness in m of a bed over all, where adhesive is not laid in beads.
    """

    section: float
    beads: float
    slip_height: float
    share: float
    pack: float
    bed: float | None = None


def bead_of(system: System, trace: Trace) -> Bead:
    """The bead of a system, or its bed over all."""
    adhesive = system.adhesive
    if adhesive.laid == "bed":
        thickness = adhesive.compressed_thickness_mm * METRES_PER_MILLIMETRE
        bed = trace.given(thickness, "/system/adhesive/compressed_thickness_mm")
        height = system.slip.height_mm * METRES_PER_MILLIMETRE
        return Bead(0.0, 0.0, height, 1.0, adhesive.pack_ml / MILLILITRES_PER_LITRE, bed)
    section = _section(adhesive, trace)
    beads = trace.given(float(adhesive.beads_per_course_count), "/system/adhesive/beads_per_course_count")
    height = trace.given(system.slip.height_mm * METRES_PER_MILLIMETRE, "/system/slip/height_mm")
    pressed = adhesive.compressed_thickness_mm * METRES_PER_MILLIMETRE
    share = trace.call(
        bonded_share,
        one=trace.lookup("one", 1.0, "fraction", GEOMETRY),
        n=beads,
        S=section,
        t=trace.given(pressed, "/system/adhesive/compressed_thickness_mm"),
        h=height,
    )
    return Bead(section, beads, height, share, adhesive.pack_ml / MILLILITRES_PER_LITRE)


def _section(adhesive: Adhesive, trace: Trace) -> float:
    if adhesive.bead_triangle is None:
        diameter = adhesive.bead_diameter_mm * METRES_PER_MILLIMETRE
        return trace.call(round_section, d=trace.given(diameter, "/system/adhesive/bead_diameter_mm"))
    pointer = "/system/adhesive/bead_triangle"
    return trace.call(
        triangular_section,
        b=trace.given(adhesive.bead_triangle.width_mm * METRES_PER_MILLIMETRE, f"{pointer}/width_mm"),
        h=trace.given(adhesive.bead_triangle.height_mm * METRES_PER_MILLIMETRE, f"{pointer}/height_mm"),
    )


def beads_on(face: FaceSlips, bead: Bead, trace: Trace) -> AdhesiveBead:
    """Beads behind the slips of one face, its lined jambs among them."""
    terms = [
        ("courses", square_metres(face.course_area), face.face.pointer),
        ("soldiers", square_metres(face.soldier_area), face.face.pointer),
        ("voussoirs", square_metres(face.voussoir_area), face.face.pointer),
    ]
    terms += [
        (f"{jamb.side} reveal of {jamb.opening.id}", square_metres(jamb.slip_area), jamb.opening.pointer)
        for jamb in face.returns
    ]
    area = trace.measure("A_slips", "m2", terms)
    if bead.bed is not None:
        return _bed_on(face, area, bead, bead.bed, trace)
    length = trace.call(bead_length, A=area, h=bead.slip_height, n=bead.beads)
    litres = trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY)
    return _row(area, length, trace.call(bead_volume, S=bead.section, L=length, litres=litres), bead)


def _bed_on(face: FaceSlips, slips: float, bead: Bead, thickness: float, trace: Trace) -> AdhesiveBead:
    """Adhesive spread under slips and joints alike, lined jambs among them."""
    terms = [("slips and joints", square_metres(face.slip_area + face.joint_area), face.face.pointer)]
    terms += [
        (
            f"{jamb.side} reveal of {jamb.opening.id}",
            square_metres(jamb.area),
            jamb.opening.pointer,
        )
        for jamb in face.returns
    ]
    litres = trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY)
    area = trace.measure("A_bed", "m2", terms)
    none = trace.measure("L_bead", "m", [("no beads in a bed over all", 0.0, face.face.pointer)])
    return _row(slips, none, trace.call(bed_volume, A=area, t=thickness, litres=litres), bead)


def beads_together(rows: Sequence[AdhesiveBead], bead: Bead, trace: Trace) -> AdhesiveBead:
    """Beads of all faces."""
    return _row(
        trace.sum("A_slips", "m2", [row["slip_face_area_m2"] for row in rows]),
        trace.sum("L_bead", "m", [row["bead_length_m"] for row in rows]),
        trace.sum("V", "l", [row["volume_l"] for row in rows]),
        bead,
    )


def _row(area: float, length: float, volume: float, bead: Bead) -> AdhesiveBead:
    metre = bead.section * LITRES_PER_CUBIC_METRE
    made: AdhesiveBead = {
        "slip_face_area_m2": area,
        "bead_length_m": length,
        "bead_section_mm2": bead.section / METRES_PER_MILLIMETRE**2,
        "bead_volume_ml_per_m": metre * MILLILITRES_PER_LITRE,
        "volume_l": volume,
        "packs_used": volume / bead.pack,
        "coverage_fraction": bead.share,
    }
    if metre:
        made["pack_bead_length_m"] = bead.pack / metre
    return made
