"""Rows of the answer for the ways in which a run comes out."""

from dataclasses import dataclass, field
from fractions import Fraction

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.setting_out.arrangements import Arranged, measured
from storeyrod.setting_out.bay_frame import BayFrame
from storeyrod.setting_out.bond_models import ArrangementOption
from storeyrod.setting_out.closing import adjusted, ways_to_close


def bay_options(frame: BayFrame) -> list[ArrangementOption]:
    """Every way for a whole bay, best first; with equalised perps the one that was taken."""
    ways = ways_to_close(frame.bond, frame.drawn)
    if frame.bay.arrangement != "nominal":
        taken = measured(frame.bond, frame.bay.arrangement, frame.bay.patterns)
        ways = [taken, *(one for one in ways if one.arrangement != taken.arrangement)]
    return [option_row(one, mirrored=frame.mirrored) for one in ways]


@dataclass(slots=True)
class PierOptions:
    """Ways for the piers of a bay; piers alike are worked out once."""

    frame: BayFrame
    known: dict[tuple[float, tuple[Fraction, ...]], list[Arranged]] = field(default_factory=dict)

    def carried(self, pier: Interval) -> Arranged:
        """What the perps of the bay leave in a pier, in the direction of the bond."""
        run = self.frame.turned(pier)
        return measured(self.frame.bond_of(run), "nominal", self.frame.carried(run))

    def rows(self, pier: Interval) -> list[ArrangementOption]:
        """First what the perps of the bay leave in the pier, then how it would come out by itself, best first."""
        bond = self.frame.bond_of(self.frame.turned(pier))
        key = round(bond.length, 3), tuple(bond.starts())
        if key not in self.known:
            self.known[key] = adjusted(bond)
        left = option_row(self.carried(pier), mirrored=self.frame.mirrored)
        left["arrangement"] = "carried_through"
        return [left, *(option_row(one, mirrored=self.frame.mirrored) for one in self.known[key])]


def option_row(one: Arranged, *, mirrored: bool) -> ArrangementOption:
    """One way to make a run come out; its ends are turned back where the run was set out from the right."""
    return {
        "arrangement": one.arrangement,
        "perps_mm": [millimetres(perp) for perp in one.perps],
        "worst_deviation_mm": millimetres(one.deviation),
        "cut_count": one.cuts,
        "shortest_piece_mm": millimetres(one.shortest),
        "perps_within": one.within,
        "sliver_free": one.sliver_free,
        "ends_mm": [[length / TICKS_PER_MM for length in (ends[::-1] if mirrored else ends)] for ends in one.ends],
    }
