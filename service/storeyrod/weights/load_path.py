"""The load path from slip to structure, link by link: design actions beside design resistances."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import FINDINGS, Finding, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.weights.actions import Actions
from storeyrod.weights.fastened_links import fastened_link
from storeyrod.weights.layers import Layers
from storeyrod.weights.load_path_models import ActionName, Link, LinkName, LoadPath, ResistanceOfLink

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
    ("board_bond", "suction"),
    ("board_bond", "weight"),
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

_OUTSIDE: Final = ("slip_bond", "adhesive", "board_face")
"""Links that carry the face alone, slip by slip: weight without boards, suction on the area of a slip."""

_BONDED: Final[tuple[LinkName, ActionName]] = ("board_bond", "weight")
"""What a bond of boards beside fasteners is there for; it carries wind only where a resistance to it is declared."""

_SHANKS: Final = (
    "a declared resistance of fasteners to bending under weight: guidelines for anchors of insulation leave the weight to adhesive "
    "and board (ETAG 014, from memory)"
)


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


def load_path_of(
    schedule: FastenerSchedule,
    layers: Layers,
    actions: Actions,
    declared: Sequence[ResistanceOfLink],
    trace: Trace,
    *,
    bonded: bool = False,
) -> tuple[LoadPath, list[Finding]]:
    """Every link with its use, the governing one of those assessed, and what was found; ``bonded`` as well as fastened."""
    path_here = _links_there(declared, bonded=bonded)
    links = [_link(link, action, schedule, layers, actions, declared, trace) for link, action in path_here]
    assessed = [link for link in links if link["status"] == "assessed"]
    path: LoadPath = {
        "links": links,
        "assessed_count": len(assessed),
        "partly_assessed_count": sum("missing" in link for link in assessed),
        "not_assessed_count": len(links) - len(assessed),
    }
    if assessed:
        worst = max(assessed, key=_use)
        path["governing_link"], path["governing_action"] = worst["link"], worst["action"]
        path["utilisation_fraction"] = worst["utilisation_fraction"]
    return path, list(_findings(path))


def _links_there(declared: Sequence[ResistanceOfLink], *, bonded: bool) -> Iterator[tuple[LinkName, ActionName]]:
    """Links of this wall: the bond of boards to the substrate is one where it is said to be there, or declared."""
    said = {(one.link, one.action) for one in declared} | ({_BONDED} if bonded else set())
    return (row for row in PATH if row[0] != "board_bond" or row in said)


def _use(link: Link) -> float:
    return link.get("utilisation_fraction", 0.0)


def _findings(path: LoadPath) -> Iterator[Finding]:
    for link in path["links"]:
        if _use(link) > 1.0 + ROUNDING_GUARD:
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
    without, partly = path["not_assessed_count"], path["partly_assessed_count"]
    if gaps := without + partly:
        advice = f"Not assessed: {without}; assessed in part: {partly}. {FINDINGS['load-path-incomplete'].advice}"
        yield finding("load-path-incomplete", {"pointer": "/links"}, value=gaps, limit=0, unit="count", advice=advice)


def _link(
    link: LinkName,
    action: ActionName,
    schedule: FastenerSchedule,
    layers: Layers,
    actions: Actions,
    declared: Sequence[ResistanceOfLink],
    trace: Trace,
) -> Link:
    if link == "head_pull_through" or link == "pull_out":  # noqa: PLR1714  narrows the type
        return fastened_link(link, schedule)
    acting, unknown = _acting(link, action, actions)
    given = [(at, one) for at, one in enumerate(declared) if (one.link, one.action) == (link, action)]
    made: Link = {"link": link, "action": action, "status": "not_assessed"}
    if acting is not None:
        made["action_kn_per_m2"] = acting
    missing = [*unknown, *([] if given else [_undeclared(link, action)])]
    if acting is not None and given:
        resistance = min((_resistance(link, at, one, layers, trace) for at, one in given), key=float)
        made["status"], made["resistance_kn_per_m2"] = "assessed", resistance
        made["utilisation_fraction"] = trace.call(use_of_area, E_d=acting, R_d=resistance)
    if missing:
        made["missing"] = " and ".join(missing)
    return made


def _acting(link: LinkName, action: ActionName, actions: Actions) -> tuple[float | None, list[str]]:
    """The action on a link, and what of it is not known."""
    if action == "weight":
        weight = actions.face if link in _OUTSIDE else actions.cladding
        return weight, [] if weight is not None else ["the mass of the board"]
    if actions.suction is None:
        return None, ["wind"]
    if link in _OUTSIDE and not actions.local:
        return None, ["wind on areas of 1 m2 and less (wind.loaded_area_m2)"]
    return actions.suction, [f"wind on the parapet of {', '.join(actions.parapets)}"] if actions.parapets else []


def _undeclared(link: LinkName, action: ActionName) -> str:
    if (link, action) == ("fastener_shank", "weight"):
        return _SHANKS
    if link == "board_bond":
        return f"a declared resistance of the bond between boards and substrate to {action}"
    return f"a declared resistance of {link.replace('_', ' ')} to {action}"


def _resistance(link: LinkName, at: int, one: ResistanceOfLink, layers: Layers, trace: Trace) -> float:
    return trace.call(
        design_resistance_of_area,
        a=_bonded(link, layers, trace),
        R_k=trace.given(one.resistance_kn_per_m2, f"/links/{at}/resistance_kn_per_m2"),
        gamma_M=trace.given(one.gamma_m, f"/links/{at}/gamma_m"),
    )


def _bonded(link: LinkName, layers: Layers, trace: Trace) -> float:
    """Share of the wall on which a link holds: slips and their adhesive where both meet."""
    return layers.bonded if link in {"slip_bond", "adhesive"} else trace.lookup("a", 1.0, "fraction", GEOMETRY)
