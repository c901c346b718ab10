"""Heat through a build-up: thermal resistance, transmittance and its corrections, after ISO 6946."""
