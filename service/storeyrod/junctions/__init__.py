"""Heat through junctions: steady conduction in two dimensions, solved numerically, after ISO 10211."""
