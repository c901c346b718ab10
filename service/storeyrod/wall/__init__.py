"""What a wall is: elevations, openings and corners, the system that clads it, and its faces in three planes."""
