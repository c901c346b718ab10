"""Rows of the load path in words: links from outside to inside, how far each is used, and what is missing."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from storeyrod.weights.load_path_models import Link, LinkName, LoadPath

OR_MORE: Final = " or more"
"""Behind the use of a link that was not assessed all over: what was left out may be used more."""

_NAMES: Final[Mapping[LinkName, str]] = {
    "slip_bond": "bond of slips",
    "adhesive": "adhesive",
    "board_face": "face of boards",
    "board_core": "core of boards",
    "board_bond": "bond of boards",
    "head_pull_through": "pull-through of heads",
    "fastener_shank": "shanks of fasteners",
    "pull_out": "pull-out of fasteners",
    "substrate": "substrate",
    "structure": "structure",
}


@dataclass(frozen=True, slots=True)
class LinkRow:
    """A link under one action, and whether it governs."""

    link: Link
    governs: bool

    @property
    def use(self) -> float | None:
        """Action over resistance; none where it was not assessed."""
        return self.link.get("utilisation_fraction") if self.link["status"] == "assessed" else None

    @property
    def left_out(self) -> str:
        """What its use leaves out; empty where it was assessed all over, or not at all."""
        return self.link.get("missing", "") if self.use is not None else ""

    @property
    def use_words(self) -> str:
        """Its use as it is printed."""
        return f"{self.use or 0.0:.2f}{OR_MORE if self.left_out else ''}"

    @property
    def told(self) -> str:
        """What is missing, or what the use leaves out; empty where nothing is."""
        if self.use is None:
            return f"not assessed, missing: {self.link.get('missing', 'data')}"
        return f"left out: {self.left_out}" if self.left_out else ""

    @property
    def name(self) -> str:
        """The link in words."""
        return _NAMES[self.link["link"]]


def link_rows(path: LoadPath) -> list[LinkRow]:
    """Rows from outside to inside; the first of equal ones governs."""
    governing = path.get("governing_link"), path.get("governing_action")
    return [LinkRow(link, (link["link"], link["action"]) == governing) for link in path["links"]]


def numbers_of(link: Link) -> tuple[str, ...]:
    """Action and resistance as far as they are known, on a piece or on a square metre."""
    if "piece" in link:
        resistance = f" of {link['resistance_kn']:.3f} kN" if "resistance_kn" in link else " kN"
        return f"{link.get('action_kn', 0.0):.3f}{resistance}", f"piece {link['piece']}"
    if "action_kn_per_m2" not in link:
        return ()
    if "resistance_kn_per_m2" not in link:
        return (f"action {link['action_kn_per_m2']:.3f} kN/m²",)
    return (f"{link['action_kn_per_m2']:.3f} of {link['resistance_kn_per_m2']:.3f} kN/m²",)
