"""How a run comes out: as drawn, by equal perps, or by a closing bond; every way that applies, best first."""

from storeyrod.setting_out.arrangements import Arranged, Patterns, RunBond, measured, plain, preference
from storeyrod.setting_out.broken_bond import broken_bond_at_centre
from storeyrod.setting_out.closers import closers_at_ends
from storeyrod.setting_out.perps import equal_perps


def ways_to_close(run: RunBond, drawn: Patterns) -> list[Arranged]:
    """Every arrangement that applies to a run, best first; ``drawn`` is what the perps of its surroundings leave in it."""
    ways = [measured(run, "nominal", drawn), *adjusted(run)]
    return sorted(ways, key=lambda one: preference(run, one))


def adjusted(run: RunBond) -> list[Arranged]:
    """The run by itself, without regard to its surroundings: by its perps, or closed by cuts; best first."""
    spread = equal_perps(run)
    ways = [
        plain(run, "equalised", spread.grids) if spread is not None else None,
        broken_bond_at_centre(run),
        closers_at_ends(run),
    ]
    return sorted((one for one in ways if one is not None), key=lambda one: preference(run, one))
