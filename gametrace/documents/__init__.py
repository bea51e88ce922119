"""Turns a frozen sheet into PDF bytes. Asks the register nothing and reads no files but the fonts."""
