"""One line of the order: need, cut waste, allowance, order and packs, with the working in a sentence."""

import math
from dataclasses import dataclass

from storeyrod.quantities.allowance import cut_waste, ordered
from storeyrod.quantities.decimals import written
from storeyrod.quantities.models import OrderLine, Role
from storeyrod.quantities.packs import whole_packs
from storeyrod.quantities.roles import ROLES, SINGLE, Pack, pack_of, share_of
from storeyrod.trace import CALLER, Trace, origin_of
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class Need:
    """What a layout takes of a role: net by area, length or volume, and what is used up with cut waste.

    A rod has its diameter in mm.
    """

    role: Role
    net: float
    used: float
    diameter: float | None = None


def uncut(role: Role, amount: float) -> Need:
    """A need without cut waste."""
    return Need(role, amount, amount)


def order_line(need: Need, system: System, trace: Trace) -> OrderLine:
    """The line of a need."""
    unit = ROLES[need.role].unit
    share = share_of(need.role, system, trace)
    order = ordered(unit, need.used, share, trace)
    cut = 0.0 if need.net is need.used else trace.call(cut_waste, q=need.used, q_net=need.net)
    line: OrderLine = {
        "role": need.role,
        "net": need.net,
        "cut_waste": cut,
        "allowance_fraction": share,
        "allowance": float(written(order) - written(need.used)),
        "order": order,
        "unit": unit,
        "explanation": "",
    }
    if need.diameter is not None:
        line["diameter_mm"] = need.diameter
    pack, last = pack_of(need.role, system, trace), order
    if pack is not None:
        last = whole_packs(unit, order, pack.size, trace)
        line["pack_size"] = pack.size
        line["pack_unit"] = pack.name
        line["packs_count"] = int(last)
        line["spare"] = max(0.0, float(line["packs_count"] * written(pack.size) - written(order)))
    line["explanation"] = _sentence(line, pack)
    if origin_of(last) != CALLER:
        line["step"] = origin_of(last)
    return line


def _sentence(line: OrderLine, pack: Pack | None) -> str:
    noun = ROLES[line["role"]].noun
    unit = "" if line["unit"] == "count" else f" {line['unit']}"
    cut = f" + {_shown(line['cut_waste'])} cut waste" if line["cut_waste"] > 0.0 else ""
    need = f"{_shown(line['net'])} {noun} of need{cut}"
    order = f"{need}, x {_factor(line['allowance_fraction'])} = {_shown_upwards(line['order'])}{unit}"
    if pack is None:
        return f"{order}; pack size not known"
    packs = line["packs_count"]
    if pack.name == SINGLE:
        return f"{order} -> {packs}; pack size not known"
    return f"{order} -> {packs} {_plural(pack.name, packs)} of {_shown(pack.size)}{unit}"


def _shown(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _factor(share: float) -> str:
    return f"{1.0 + share:.4f}".rstrip("0").rstrip(".")


def _shown_upwards(order: float) -> str:
    """An order is never shown smaller than it is."""
    return _shown(math.ceil(order * 100.0 - 1e-6) / 100.0)


def _plural(name: str, number: int) -> str:
    if number == 1:
        return name
    return f"{name}es" if name.endswith("x") else f"{name}s"
