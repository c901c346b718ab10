"""Version of the client; it follows the service whose models it holds."""

__version__ = "0.1.0"
