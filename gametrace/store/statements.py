"""Statements, read once: to take one apart and find its named values costs more than to run it."""

from __future__ import annotations

from functools import lru_cache

import sqlalchemy
from sqlalchemy import TextClause


@lru_cache(maxsize=1_024)
def text(statement: str) -> TextClause:
    """SQLAlchemy's `text`, the same object for the same words. Nobody binds values to it."""
    return sqlalchemy.text(statement)
