"""The Trace station."""
