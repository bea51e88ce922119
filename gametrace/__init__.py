"""gametrace: a register for game carcasses, from delivery to plate and back."""

__version__ = "0.1.0"
