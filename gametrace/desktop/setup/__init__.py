"""The Setup station."""
