"""Cautions for whoever does the work."""

from typing import Final

from storeyrod.reference.documents import Clause
from storeyrod.reference.tables import rows_of

CAUTIONS: Final = tuple(
    f"{row['text']} ({Clause(row['document'], row['number'], row['status'])})"
    for row in rows_of("occupational_cautions")
)
"""One sentence or two for each hazard, with its source; local rules for health and safety decide."""
