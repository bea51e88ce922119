"""Keeps the journal and the tables read from it, and gives them back unchanged. Only here is SQL known."""
