"""Where the combined method does not hold, and what cannot be asked together."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from storeyrod.findings import Finding, Refusal, refuse
from storeyrod.thermal.correction_models import CalculatedFasteners
from storeyrod.thermal.models import UValueRequest

_REFUSED: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "metal-bridge": (
            "metal-bridges-insulation",
            "one part conducts {value:.4g} times as well as another, and the combined method takes no metal (limit {limit:g}); "
            "leave the metal out and correct for fasteners, or calculate the section numerically",
        ),
        "combined-method-limit": (
            "limits-too-far-apart",
            "the upper limit of resistance is {value:.6g} times the lower, and the combined method holds up to {limit:g}; "
            "calculate the section numerically",
        ),
    }
)
"""Findings that elsewhere are cautions: a U-value asked for by itself is refused instead."""

_METAL_BY_CONDUCTIVITY: Final = (
    "one part conducts as metal does, {value:.4g} W/(m.K) beside another under 1, and the combined method takes no metal "
    "(limit {limit:g} W/(m.K), a rule of this service); leave the metal out and correct for fasteners, or calculate the section "
    "numerically"
)


def refuse_beyond_method(findings: Iterable[Finding]) -> None:
    """Refuse a build-up of which a finding says that the combined method does not hold."""
    for found in findings:
        if found["code"] in _REFUSED:
            raise method_refusal(found, found["where"].get("pointer", ""))


def method_refusal(found: Finding, pointer: str, where: str = "") -> Refusal:
    """The refusal that a finding on the method becomes; ``where`` begins its sentence."""
    slug, text = _REFUSED[found["code"]]
    if found["code"] == "metal-bridge" and found["unit"] == "w_per_m_k":
        text = _METAL_BY_CONDUCTIVITY
    return refuse(slug, pointer, where + text.format(value=found["value"], limit=found["limit"]))


def refuse_contradictions(request: UValueRequest) -> None:
    """Refuse what a tapered layer rules out."""
    if request.tapered is None:
        return
    corrections = request.corrections
    if corrections.air_gap_level > 0 or isinstance(corrections.fasteners, CalculatedFasteners):
        raise refuse(
            "tapered-contradictory",
            "/corrections",
            "corrections by the resistance of the insulation have no one value over a tapered layer; give fasteners by "
            "chi_w_per_k, or the parts of the area as build-ups of their own",
        )
    if request.temperatures is not None:
        raise refuse(
            "tapered-contradictory",
            "/temperatures",
            "temperatures change along a tapered layer; ask for them at one thickness, without tapered",
        )
