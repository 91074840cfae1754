"""Many setups at once: sweeps and comparisons on the batch of falls."""
