"""Rows of the answer: what each piece needs and has, totals by zone, and every fastener."""

from collections.abc import Iterator

from storeyrod.fasteners.demand import PieceNeed
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.kinds import Kind
from storeyrod.fasteners.models import FastenerHeat, FastenerPosition, PieceCount, PullOutResistance, ZoneFasteners
from storeyrod.fasteners.pattern import density
from storeyrod.fasteners.resistance import Resistance
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.geometry.ticks import TICKS_PER_MM, square_metres
from storeyrod.thermal.corrections import fasteners_by_point
from storeyrod.trace import CALLER, Trace


def piece_rows(face: FaceFasteners) -> Iterator[PieceCount]:
    """A row for every piece; pieces of a kind differ by their id alone."""
    known = {id(kind): _kind_row(kind) for kind in face.different}
    for one in face.pieces:
        row = known[id(one.kind)].copy()
        row["piece"] = one.piece.id
        yield row


def _kind_row(kind: Kind) -> PieceCount:
    row: PieceCount = {"piece": kind.piece.id, "fasteners_count": kind.total}
    if kind.need is not None:
        _add_need(row, kind.need)
    return row


def _add_need(row: PieceCount, need: PieceNeed) -> None:
    row["minimum_count"] = need.minimum
    row["zone"] = need.patch.zone
    row["suction_pa"] = need.patch.suction
    row["area_m2"] = need.area
    row["action_kn"] = need.action
    if need.needed is not None:
        row["needed_count"] = need.needed
    if need.used is not None:
        row["governed_by"] = need.governed_by
    if need.pull_out is not None and need.pull_out_used is not None:
        row["pull_out_kn"] = need.pull_out
        row["pull_out_utilisation_fraction"] = need.pull_out_used
    if need.pull_through is not None and need.pull_through_used is not None:
        row["heads_near_edge_count"] = need.near_edge or 0
        row["pull_through_kn"] = need.pull_through
        row["pull_through_utilisation_fraction"] = need.pull_through_used
    if need.working != CALLER:
        row["working"] = need.working


def zone_rows(face: FaceFasteners, trace: Trace) -> Iterator[ZoneFasteners]:
    """Totals by zone in the order of their names, those of pieces that were not assessed last."""
    zones: dict[str, list[tuple[Kind, int]]] = {}
    for kind, count in face.counted:
        zones.setdefault(kind.need.patch.zone if kind.need is not None else _NOT_ASSESSED, []).append((kind, count))
    for zone in sorted(zones):
        yield _zone_row(face, zone, zones[zone], trace)


_NOT_ASSESSED = "~"
"""Sorts behind all names of zones."""


def _zone_row(face: FaceFasteners, zone: str, kinds: list[tuple[Kind, int]], trace: Trace) -> ZoneFasteners:
    pointer = face.face.pointer
    number = trace.count("n", [(f"fasteners of {zone}", sum(kind.total * count for kind, count in kinds), pointer)])
    whole = square_metres(sum(kind.piece.part.area * count for kind, count in kinds))
    area = trace.measure("A", "m2", [(f"pieces of {zone}", whole, pointer)])
    row: ZoneFasteners = {
        "elevation": face.face.id,
        "zone": zone,
        "pieces_count": sum(count for _, count in kinds),
        "fasteners_count": int(number),
        "piece_area_m2": area,
        "density_per_m2": trace.call(density, n=number, A=area),
    }
    if zone == _NOT_ASSESSED:
        del row["zone"]
    return row


def position_rows(face: FaceFasteners) -> Iterator[FastenerPosition]:
    """A row for every fastener."""
    for one in face.pieces:
        name, zones = one.piece.id, one.kind.zones
        made: list[FastenerPosition] = [
            {"id": fastener, "piece": name, "x_mm": x / TICKS_PER_MM, "y_mm": y / TICKS_PER_MM, "stage": stage}
            for fastener, (x, y), stage in zip(one.ids, one.places, one.stages, strict=True)
        ]
        for row, zone in zip(made, zones, strict=True):
            if zone:
                row["zone"] = zone
        yield from made


def resistance_row(resistance: Resistance) -> PullOutResistance | None:
    """What one fastener holds; nothing where the request says nothing of it."""
    found = resistance.characteristic
    if found is None:
        return None
    row: PullOutResistance = {
        "basis": "tests" if found.tests else "declared",
        "document": found.clause.document,
        "rule": found.clause.number,
        "status": found.clause.status,
    }
    if found.tests:
        row["tests_count"] = found.tests
    if found.mean is not None:
        row["mean_kn"] = found.mean
    if found.value is not None:
        row["characteristic_kn"] = found.value
    if resistance.design is not None:
        row["design_kn"] = resistance.design
    return row


def heat_row(schedule: FastenerSchedule, density_per_m2: float, trace: Trace) -> FastenerHeat | None:
    """What the fasteners add to the U-value; nothing where their point transmittance is not declared."""
    declared = schedule.system.fastener.chi_w_per_k
    if declared is None:
        return None
    chi = trace.given(declared, "/system/fastener/chi_w_per_k")
    return {
        "chi_w_per_k": chi,
        "density_per_m2": density_per_m2,
        "addition_w_per_m2_k": trace.call(fasteners_by_point, chi=chi, n_f=density_per_m2),
    }
