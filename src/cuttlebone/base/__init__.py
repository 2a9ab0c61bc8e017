"""What every room shares: quantities, sources, findings, errors. Imports nothing of ours."""
