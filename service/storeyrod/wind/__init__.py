"""Wind on the faces of a building: peak pressure, zones and their envelope."""
