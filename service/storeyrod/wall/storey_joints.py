"""Level movement joints that run round the whole building on bed joints, at storeys or over joints of the structure."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class StoreyJoint:
    """A level joint through boards and slips. Ticks.

    ``course`` is the one that stands on the joint. ``level`` is that of the storey, or of the joint in the structure, that it was
    placed for; by ``lift`` it is wider than a bed.
    """

    course: int
    bottom: float
    top: float
    level: float
    lift: float = 0.0
    existing: bool = False

    @property
    def moved(self) -> float:
        """How far its course line lies above the level, as the even gauge has that line or as the joint has moved it, whichever is
        nearer; of a joint in the structure, how far the middle of this one lies above it.
        """
        if self.existing:
            return (self.bottom + self.top) / 2.0 - self.level
        return max(self.top - self.lift - self.level, 0.0) + min(self.top - self.level, 0.0)

    @property
    def width(self) -> float:
        """Height of the strip that the joint takes out of boards and slips."""
        return self.top - self.bottom
