"""Fasteners that stand closer to an edge of the substrate than their distance from it: at openings and at free ends.

At external corners the distance is kept by the placing; elsewhere the edge of the board, which a fastener also keeps, is nearer than
what many fasteners ask of masonry, and moving heads there would leave the board loose.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import Finding, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.face import Face

_Places = NDArray[np.float64]

GUARD: Final = 1.0
"""A tick, by which places may be out from rounding."""


def edge_findings(schedule: FastenerSchedule) -> list[Finding]:
    """One remark for each face with such fasteners: how close the closest stands, and on which pieces they are."""
    if schedule.wind is None and schedule.resistance is None:
        return []
    limit = ticks(schedule.system.fastener.substrate_edge_distance_mm)
    return [item for face in schedule.faces for item in _face_findings(face, limit)]


def _face_findings(fasteners: FaceFasteners, limit: float) -> Iterator[Finding]:
    columns = fasteners.columns
    if not columns.xs:
        return
    xs, ys = np.array(columns.xs), np.array(columns.ys)
    apart = _apart(fasteners.face, xs, ys, limit)
    close = np.flatnonzero(apart < limit - GUARD)
    if not close.size:
        return
    numbers = np.repeat(np.arange(len(fasteners.kinds)), [kind.total for kind in fasteners.kinds])
    worst = int(close[np.argmin(apart[close])])
    face, pieces = fasteners.face, fasteners.boards.pieces
    yield finding(
        "substrate-edge-close",
        {
            "pointer": face.pointer,
            "elevation": face.id,
            "x_mm": millimetres(float(xs[worst])),
            "y_mm": millimetres(float(ys[worst])),
            "pieces": [pieces[number].id for number in np.unique(numbers[close])],
        },
        value=millimetres(float(apart[worst])),
        limit=millimetres(limit),
        unit="mm",
    )


def _apart(face: Face, xs: _Places, ys: _Places, limit: float) -> _Places:
    """Distance of every place from the nearest opening, or free end, as far as it is under the limit."""
    apart = np.full(xs.shape, limit)
    for side, end in (("left", face.left), ("right", face.right)):
        if (face.edge("left") if side == "left" else face.edge("right")).kind == "free_end":
            np.minimum(apart, np.abs(xs - end), out=apart)
    order = np.argsort(xs, kind="stable")
    sorted_xs = xs[order]
    for opening in face.board_openings():
        low, high = np.searchsorted(sorted_xs, (opening.left - limit, opening.right + limit))
        near = order[low:high]
        across = np.maximum(np.maximum(opening.left - xs[near], xs[near] - opening.right), 0.0)
        along = np.maximum(np.maximum(opening.sill - ys[near], ys[near] - opening.head), 0.0)
        apart[near] = np.minimum(apart[near], np.hypot(across, along))
    return apart
