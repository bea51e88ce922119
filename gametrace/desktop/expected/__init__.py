"""The expected deliveries: who comes when, and whether there are hooks for it."""
