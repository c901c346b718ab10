"""The only room that knows HTTP."""
