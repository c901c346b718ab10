"""Moisture in a build-up through the year: surface humidity and condensation between layers, after ISO 13788."""
