"""The cold stores: temperatures by round and by logger, what was too warm, a store that failed, the bins."""
