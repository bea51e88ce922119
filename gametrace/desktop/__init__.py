"""The window: a folder a station. The only room that knows Qt; it speaks to the register, not the store."""
