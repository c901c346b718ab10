"""The whole job in one call: every room of the house, each asked once."""
