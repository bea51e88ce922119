"""The Delivery station."""
