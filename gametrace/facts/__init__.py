"""What nature, the trade and the law say: dated data with a source on every line.

Each subject is a TOML file beside a small loader. This room holds no opinion about a carcass;
`gametrace.domain` decides.
"""

from gametrace.facts.loading import UnknownFact

__all__ = ["UnknownFact"]
