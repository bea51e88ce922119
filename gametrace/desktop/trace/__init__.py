"""Trace: where anything came from and where the rest of it is, as a picture and as a list on one page."""
