"""The Today station."""
