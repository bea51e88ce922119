"""The Visit station."""
