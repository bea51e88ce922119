"""The register without a window: commands for scripts and tests, and the tour of the whole job."""
