"""The Larder station."""
