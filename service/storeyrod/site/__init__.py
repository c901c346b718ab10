"""The site: where a building stands, how high and for what use, and what codes remind of there."""
