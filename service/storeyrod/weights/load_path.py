"""The load path from slip to structure, link by link: design actions beside design resistances."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.fasteners.face_fasteners import PieceFasteners
from storeyrod.fasteners.need import PASCALS_PER_KILOPASCAL, design_suction
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import Finding, finding
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.wall.substrate_models import PartialFactors
from storeyrod.weights.layers import NEWTONS_PER_KILONEWTON, Layers
from storeyrod.weights.load_path_models import ActionName, Link, LinkName, LoadPath, ResistanceOfLink

_DESIGN: Final = Clause("EN 1990", "6.3.1, design value of an action", "memory")
_FACTORED: Final = Clause("EN 1990", "6.3.5(3), design resistance", "memory")
_ACTION: Final = Clause("EN 1990", "6.4.2, action against resistance", "memory")

PATH: Final[tuple[tuple[LinkName, ActionName], ...]] = (
    ("slip_bond", "suction"),
    ("slip_bond", "weight"),
    ("adhesive", "suction"),
    ("adhesive", "weight"),
    ("board_face", "suction"),
    ("board_face", "weight"),
    ("board_core", "suction"),
    ("board_core", "weight"),
    ("head_pull_through", "suction"),
    ("fastener_shank", "suction"),
    ("fastener_shank", "weight"),
    ("pull_out", "suction"),
    ("substrate", "suction"),
    ("substrate", "weight"),
    ("structure", "suction"),
    ("structure", "weight"),
)
"""Links from outside to inside, each under what acts on it."""

_BONDED: Final = ("slip_bond", "adhesive")
_FACE: Final = ("slip_bond", "adhesive")
"""Links outside the boards: they carry the face alone."""


@formula(
    symbol="g_d",
    expression="gamma*m*g/kilo",
    unit="kn_per_m2",
    inputs={"gamma": "count", "m": "kg_per_m2", "g": "m_per_s2", "kilo": "count"},
    clause=_DESIGN,
)
def design_weight(*, gamma: float, m: float, g: float, kilo: float) -> float:
    """Design weight on a square metre of wall."""
    return gamma * m * g / kilo


@formula(
    symbol="R_d",
    expression="a*R_k/gamma_M",
    unit="kn_per_m2",
    inputs={"a": "fraction", "R_k": "kn_per_m2", "gamma_M": "count"},
    clause=_FACTORED,
)
def design_resistance_of_area(*, a: float, R_k: float, gamma_M: float) -> float:  # noqa: N803  symbols
    """Design resistance of a square metre of wall of which a share is bonded."""
    return a * R_k / gamma_M


@formula(
    symbol="u",
    expression="E_d/R_d",
    unit="fraction",
    inputs={"E_d": "kn_per_m2", "R_d": "kn_per_m2"},
    clause=_ACTION,
)
def use_of_area(*, E_d: float, R_d: float) -> float:  # noqa: N803  symbols of the standard
    """Share of a resistance that an action takes."""
    return E_d / R_d


@formula(
    symbol="a",
    expression="c*a_slip",
    unit="fraction",
    inputs={"c": "fraction", "a_slip": "fraction"},
    clause=GEOMETRY,
)
def bonded_area_share(*, c: float, a_slip: float) -> float:
    """Bonded area on a square metre of wall: covered share of the slips' backs times the slips' share of the wall."""
    return c * a_slip


@dataclass(frozen=True, slots=True)
class Actions:
    """Design actions in kN/m2: the strongest suction where wind is given, weight of the face and, if known, of the cladding."""

    suction: float | None
    face: float
    cladding: float | None


def actions_of(
    schedule: FastenerSchedule, layers: Layers, factors: PartialFactors, gravity: float, trace: Trace
) -> Actions:
    """Actions on a square metre."""
    kilo = trace.lookup("kilo", NEWTONS_PER_KILONEWTON, "count", GEOMETRY)
    gamma = trace.given(factors.weight, "/partial_factors/weight")
    weights = [
        None if mass is None else trace.call(design_weight, gamma=gamma, m=mass, g=gravity, kilo=kilo)
        for mass in (layers.face, layers.cladding)
    ]
    return Actions(_suction(schedule, factors, trace), weights[0] or 0.0, weights[1])


def _suction(schedule: FastenerSchedule, factors: PartialFactors, trace: Trace) -> float | None:
    if schedule.wind is None:
        return None
    patches = [patch for face in schedule.wind.plan.faces for patch in face.patches]
    if not patches:
        return None
    strongest = max((patch.suction for patch in patches), key=float)
    suction = trace.given(strongest / PASCALS_PER_KILOPASCAL, origin_of(strongest))
    return trace.call(design_suction, gamma=trace.given(factors.wind, "/partial_factors/wind"), w_s=suction)


def load_path_of(
    schedule: FastenerSchedule, layers: Layers, actions: Actions, declared: Sequence[ResistanceOfLink], trace: Trace
) -> tuple[LoadPath, list[Finding]]:
    """Every link with its use, the governing one of those assessed, and what was found."""
    links = [_link(link, action, schedule, layers, actions, declared, trace) for link, action in PATH]
    assessed = [link for link in links if link["status"] == "assessed"]
    path: LoadPath = {
        "links": links,
        "assessed_count": len(assessed),
        "not_assessed_count": len(links) - len(assessed),
    }
    if assessed:
        worst = max(assessed, key=_use)
        path["governing_link"], path["governing_action"] = worst["link"], worst["action"]
        path["utilisation_fraction"] = worst["utilisation_fraction"]
    return path, list(_findings(path))


def _use(link: Link) -> float:
    return link.get("utilisation_fraction", 0.0)


def _findings(path: LoadPath) -> Iterator[Finding]:
    for link in path["links"]:
        if _use(link) > 1.0:
            advice = (
                f"{link['link'].replace('_', ' ')} under {link['action']}: have it looked at by a structural engineer."
            )
            yield finding(
                "link-overloaded",
                {"pointer": "/links"},
                value=float(_use(link)),
                limit=1.0,
                unit="fraction",
                advice=advice,
            )
    if path["not_assessed_count"]:
        count = path["not_assessed_count"]
        yield finding("load-path-incomplete", {"pointer": "/links"}, value=count, limit=0, unit="count")


def _link(
    link: LinkName,
    action: ActionName,
    schedule: FastenerSchedule,
    layers: Layers,
    actions: Actions,
    declared: Sequence[ResistanceOfLink],
    trace: Trace,
) -> Link:
    if link in ("head_pull_through", "pull_out"):
        return _fastened(link, schedule)
    acting = actions.suction if action == "suction" else actions.face if link in _FACE else actions.cladding
    given = [(at, one) for at, one in enumerate(declared) if (one.link, one.action) == (link, action)]
    missing = _missing(link, action, acting, bool(given))
    made: Link = {"link": link, "action": action, "status": "not_assessed"}
    if acting is not None:
        made["action_kn_per_m2"] = acting
    if missing or acting is None:
        made["missing"] = missing
        return made
    resistance = min((_resistance(link, at, one, layers, trace) for at, one in given), key=float)
    made["status"], made["resistance_kn_per_m2"] = "assessed", resistance
    made["utilisation_fraction"] = trace.call(use_of_area, E_d=acting, R_d=resistance)
    return made


def _missing(link: LinkName, action: ActionName, acting: float | None, given: bool) -> str:
    """What is missing for a link; nothing where it can be assessed."""
    wanted = []
    if acting is None:
        wanted.append("wind" if action == "suction" else "the mass of the board")
    if not given:
        wanted.append(f"a declared resistance of {link.replace('_', ' ')} to {action}")
    return " and ".join(wanted)


def _resistance(link: LinkName, at: int, one: ResistanceOfLink, layers: Layers, trace: Trace) -> float:
    whole = trace.lookup("a", 1.0, "fraction", GEOMETRY)
    bonded = layers.bead.bed is None and link in _BONDED
    share = trace.call(bonded_area_share, c=layers.bead.share, a_slip=layers.slip_share) if bonded else whole
    return trace.call(
        design_resistance_of_area,
        a=share,
        R_k=trace.given(one.resistance_kn_per_m2, f"/links/{at}/resistance_kn_per_m2"),
        gamma_M=trace.given(one.gamma_m, f"/links/{at}/gamma_m"),
    )


def _fastened(link: LinkName, schedule: FastenerSchedule) -> Link:
    """Pull-out or pull-through of the piece whose fasteners are used most."""
    used = list(_used(link, schedule))
    made: Link = {"link": link, "action": "suction", "status": "not_assessed"}
    if not used:
        made["missing"] = _fasteners_missing(link, schedule)
        return made
    one, use = max(used, key=lambda row: (float(row[1]), row[0].piece.id))
    need = one.need
    if need is None:
        return made
    resistance = need.pull_out if link == "pull_out" else need.pull_through
    made["status"], made["piece"], made["action_kn"] = "assessed", one.piece.id, need.action
    if resistance is not None:
        made["resistance_kn"] = resistance
    made["utilisation_fraction"] = use
    return made


def _used(link: LinkName, schedule: FastenerSchedule) -> Iterator[tuple[PieceFasteners, float]]:
    for face in schedule.faces:
        for one in face.pieces:
            need = one.need
            use = None if need is None else need.pull_out_used if link == "pull_out" else need.pull_through_used
            if use is not None:
                yield one, use


def _fasteners_missing(link: LinkName, schedule: FastenerSchedule) -> str:
    if schedule.wind is None:
        return "wind"
    if link == "pull_out":
        return "a resistance to pull-out for this substrate"
    return "the resistance of the board at heads (fastener.pull_through), near edges too where heads stand there"
