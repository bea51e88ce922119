"""The register without a window: every command a script or a test needs, and the tour that shows the whole job."""
