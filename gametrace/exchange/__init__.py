"""Turns records into files for others, and files from others into acts. Never imports the documents."""
