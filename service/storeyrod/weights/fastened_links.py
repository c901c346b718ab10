"""Links that fasteners make, from their schedule: pull-through of heads and pull-out, of the piece whose fasteners are used most."""

from collections.abc import Iterator
from typing import Literal

from storeyrod.fasteners.face_fasteners import PieceFasteners
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.weights.load_path_models import Link

FastenedLink = Literal["head_pull_through", "pull_out"]


def fastened_link(link: FastenedLink, schedule: FastenerSchedule) -> Link:
    """The link under suction; what no piece, or not every piece, was assessed for stands in ``missing``."""
    rows = list(_rows(link, schedule))
    known = [(one, used) for one, used in rows if used is not None]
    made: Link = {"link": link, "action": "suction", "status": "not_assessed"}
    if known:
        one, used = max(known, key=lambda row: (float(row[1]), row[0].piece.id))
        made["status"], made["piece"], made["utilisation_fraction"] = "assessed", one.piece.id, used
        _add_forces(made, link, one)
    if len(known) < len(rows) or not rows:
        made["missing"] = _missing(link, schedule, len(rows) - len(known), len(rows))
    return made


def _rows(link: FastenedLink, schedule: FastenerSchedule) -> Iterator[tuple[PieceFasteners, float | None]]:
    for face in schedule.faces:
        for one in face.pieces:
            need = one.need
            if need is None:
                yield one, None
            else:
                yield one, need.pull_out_used if link == "pull_out" else need.pull_through_used


def _add_forces(made: Link, link: FastenedLink, one: PieceFasteners) -> None:
    need = one.need
    if need is None:
        return
    made["action_kn"] = need.action
    resistance = need.pull_out if link == "pull_out" else need.pull_through
    if resistance is not None:
        made["resistance_kn"] = resistance


def _missing(link: FastenedLink, schedule: FastenerSchedule, unknown: int, of: int) -> str:
    if schedule.wind is None:
        return "wind"
    wanted = (
        "a resistance to pull-out for this substrate"
        if link == "pull_out"
        else "the resistance of the board at heads (fastener.pull_through), near edges too where heads stand there"
    )
    if unknown == of:
        return wanted
    return f"for {unknown} of {of} pieces wind (parapets are left out) or {wanted}"
