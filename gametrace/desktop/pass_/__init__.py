"""The Pass station."""
