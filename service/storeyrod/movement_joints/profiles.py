"""Named spacings of movement joints, each with the document that it is from."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace


@dataclass(frozen=True, slots=True)
class Rule:
    """One limit of a profile, as its document prints it."""

    kind: str
    symbol: str
    value: float
    unit: str
    clause: Clause
    note: str

    def read(self, trace: Trace) -> float:
        """The limit, linked to its source."""
        return trace.lookup(self.symbol, self.value, self.unit, self.clause)


@dataclass(frozen=True, slots=True)
class Profile:
    """A named spacing: what it limits, and what it asks beside that.

    ``applies`` is false where the document speaks of masonry of full thickness. ``step`` is the clause by which a change of
    height needs a joint, where there is one.
    """

    key: str
    title: str
    clause: Clause
    applies: bool
    step: Clause | None
    also_asks: str
    rules: Mapping[str, Rule]


def _rule(row: Mapping[str, Any]) -> Rule:
    clause = Clause(row["document"], row["number"], row["status"])
    return Rule(row["kind"], row["symbol"], float(row["value"]), row["unit"], clause, row["note"])


def _rules_of(profile: str) -> Mapping[str, Rule]:
    return MappingProxyType({row["kind"]: _rule(row) for row in rows_of("joint_spacing") if row["profile"] == profile})


def _profile(row: Mapping[str, Any]) -> Profile:
    step = Clause(row["document"], row["step"], row["status"]) if row["step"] else None
    clause = Clause(row["document"], row["number"], row["status"])
    return Profile(row["key"], row["title"], clause, row["applies"], step, row["also_asks"], _rules_of(row["key"]))


PROFILES: Final[Mapping[str, Profile]] = MappingProxyType(
    {row["key"]: _profile(row) for row in rows_of("joint_profiles")}
)
"""By key, in the order in which they are shown."""

PARAPET: Final = _rules_of("parapet")
"""What parapets ask, beside every profile."""
