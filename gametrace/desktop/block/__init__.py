"""The Block station."""
