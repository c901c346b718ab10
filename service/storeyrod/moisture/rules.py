"""Constants of moist air and rules of the monthly method, each with its source."""

from typing import Final

from storeyrod.thermal.tabulated import table

MOISTURE_RULES: Final = table("moisture_rules")
HUMIDITY_CLASSES: Final = table("humidity_classes")
