"""The office: calls the rooms in their order, and decides nothing else."""
