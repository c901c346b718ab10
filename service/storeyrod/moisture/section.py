"""The section through a build-up: planes between layers and sub-layers, with the heat and vapour resistance inside each."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from storeyrod.findings import refuse
from storeyrod.moisture.passed import PassedLayer
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.vapour import THINNEST_SD_M
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula

_SUBLAYERS = Clause("ISO 13788", "6.4.3, sub-layers of insulation", "memory")
_DISTRIBUTION = Clause("ISO 13788", "6.4.3, distribution of temperature", "memory")
_THICKNESS = Clause("ISO 13788", "6.4.3, cumulative equivalent air layers", "memory")

_SUBLAYER_RESISTANCE: Final = MOISTURE_RULES["sublayer_resistance"]

MOST_SUBLAYERS: Final = 200

_VANISHING: Final = 1e-11
"""A millionth of a metre beside a hundred kilometres: from there on sums of thicknesses lose the thinner one."""


class Place(NamedTuple):
    """Planes that count as one: those within a layer, or that on its outer side; no layer at the internal surface."""

    layer: int | None
    within: bool


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane of the section; ``share`` of the heat resistance lies inside it, ``depth`` m of still air in its compartment.

    ``inside`` and ``outside`` are the layers it touches, the same one within a layer, at ``within`` of its thickness;
    ``film`` marks the air beyond a surface film, which is no plane of the build-up.
    """

    share: float
    depth: float
    inside: int | None
    outside: int | None
    within: float | None = None
    film: bool = False

    @property
    def place(self) -> Place:
        """Where moisture at the plane counts: the planes of sub-layers together, however many they are."""
        return Place(self.inside, self.within is not None)


class Compartment(NamedTuple):
    """Planes from ``first`` to ``last`` between which vapour moves; a vapour-tight layer ends it on a side that is not open."""

    first: int
    last: int
    open_inside: bool
    open_outside: bool


@dataclass(frozen=True, slots=True)
class Section:
    """All planes from inside to outside, what of them is joined by vapour, and the layers passed."""

    planes: tuple[Plane, ...]
    compartments: tuple[Compartment, ...]
    layers: tuple[PassedLayer, ...]
    internal: float
    external: float
    total: float
    sd_total: float | None
    shares: list[float]
    depths: list[float]


@formula(
    symbol="R_sub",
    expression="R / n",
    unit="m2_k_per_w",
    inputs={"R": "m2_k_per_w", "n": "count"},
    clause=_SUBLAYERS,
)
def sublayer_resistance(*, R: float, n: float) -> float:  # noqa: N803
    """Resistance of one of n equal sub-layers."""
    return R / n


@formula(symbol="s_sub", expression="s_d / n", unit="m", inputs={"s_d": "m", "n": "count"}, clause=_SUBLAYERS)
def sublayer_sd(*, s_d: float, n: float) -> float:
    """Equivalent air layer of one of n equal sub-layers."""
    return s_d / n


@formula(
    symbol="x",
    expression="R_in / R_T",
    unit="fraction",
    inputs={"R_in": "m2_k_per_w", "R_T": "m2_k_per_w"},
    clause=_DISTRIBUTION,
)
def share_inside(*, R_in: float, R_T: float) -> float:  # noqa: N803
    """Share of the resistance, and so of the fall of temperature, that lies inside a plane."""
    return R_in / R_T


@dataclass
class _Builder:
    """Planes laid from the inside outwards, before the total resistance is known."""

    trace: Trace
    resistance: float
    depth: float
    rows: list[tuple[float, float, int | None, float | None, bool]] = field(default_factory=list)
    tight_after: list[int] = field(default_factory=list)

    def mark(self, inside: int | None, within: float | None = None, *, film: bool = False) -> None:
        self.rows.append((self.resistance, self.depth, inside, within, film))

    def pass_layer(self, layer: PassedLayer) -> None:
        """Planes of a layer, its outer face last; one that resists neither heat nor vapour adds none."""
        if layer.sd is None:
            self.tight_after.append(len(self.rows) - 1)
            self._go(layer.resistance, 0.0)
            self.mark(layer.index)
        elif layer.sublayers > 1:
            self._divide(layer, layer.sd)
        elif layer.resistance > 0.0 or layer.sd >= THINNEST_SD_M:
            self._go(layer.resistance, layer.sd)
            self.mark(layer.index)

    def _divide(self, layer: PassedLayer, sd: float) -> None:
        n = self.trace.lookup("n", float(layer.sublayers), "count", _SUBLAYERS)
        resistance = self.trace.call(sublayer_resistance, R=layer.resistance, n=n)
        thickness = self.trace.call(sublayer_sd, s_d=sd, n=n)
        for at in range(1, layer.sublayers + 1):
            self._go(resistance, thickness)
            self.mark(layer.index, at / layer.sublayers if at < layer.sublayers else None)

    def _go(self, resistance: float, sd: float) -> None:
        if resistance > 0.0:
            self.resistance = self.trace.sum("R_in", "m2_k_per_w", [self.resistance, resistance], _DISTRIBUTION)
        if sd > 0.0:
            self.depth = self.trace.sum("s", "m", [self.depth, sd], _THICKNESS)


def section_through(
    layers: Sequence[PassedLayer], internal: float, external: float, films: tuple[float, float], trace: Trace
) -> Section:
    """Planes of layers between two surface resistances in m2.K/W and two air films in m of still air."""
    _refuse_too_many(layers)
    builder = _Builder(trace, 0.0, trace.lookup("s", 0.0, "m", _THICKNESS))
    if films[0] >= THINNEST_SD_M:
        builder.mark(None, film=True)
        builder.depth = trace.sum("s", "m", [builder.depth, films[0]], _THICKNESS)
    builder.resistance = internal
    builder.mark(None)
    for layer in layers:
        builder.pass_layer(layer)
    total = trace.sum("R_T", "m2_k_per_w", [builder.resistance, external], _DISTRIBUTION)
    _refuse_vanishing(layers, builder.depth)
    planes = _planes(builder, layers, total, trace)
    if films[1] >= THINNEST_SD_M:
        depth = trace.sum("s", "m", [builder.depth, films[1]], _THICKNESS)
        planes.append(Plane(1.0, depth, layers[-1].index, None, film=True))
    return Section(
        tuple(planes),
        _compartments(len(planes), builder.tight_after),
        tuple(layers),
        internal,
        external,
        total,
        None if builder.tight_after else planes[-1].depth,
        [plane.share for plane in planes],
        [plane.depth for plane in planes],
    )


def _planes(builder: _Builder, layers: Sequence[PassedLayer], total: float, trace: Trace) -> list[Plane]:
    made: list[Plane] = []
    outermost = layers[-1].index
    for resistance, depth, inside, within, film in builder.rows:
        share = 0.0 if film else trace.call(share_inside, R_in=resistance, R_T=total)
        if within is not None or film:
            made.append(Plane(share, depth, inside, inside, within, film))
            continue
        after = layers[0].index if inside is None else inside + 1
        made.append(Plane(share, depth, inside, after if after <= outermost else None))
    return made


def _compartments(count: int, tight_after: Sequence[int]) -> tuple[Compartment, ...]:
    firsts = [0, *(at + 1 for at in tight_after)]
    lasts = [*tight_after, count - 1]
    return tuple(
        Compartment(first, last, first == 0, last == count - 1) for first, last in zip(firsts, lasts, strict=True)
    )


def _refuse_too_many(layers: Sequence[PassedLayer]) -> None:
    count = sum(layer.sublayers for layer in layers)
    if count > MOST_SUBLAYERS:
        raise refuse(
            "size-limit",
            "/build_up/layers",
            f"layers of up to {_SUBLAYER_RESISTANCE.value:g} m²·K/W each would be {count}, {MOST_SUBLAYERS} are the most; check the "
            "thicknesses and conductivities",
        )


def _refuse_vanishing(layers: Sequence[PassedLayer], depth: float) -> None:
    for layer in layers:
        if layer.sd is not None and layer.resistance > 0.0 and layer.sd / layer.sublayers < _VANISHING * depth:
            raise refuse(
                "vapour-resistance-none",
                layer.pointer,
                f"its vapour resistance of {layer.sd:g} m vanishes beside the {depth:g} m of all layers; give the others as vapour_tight",
            )
