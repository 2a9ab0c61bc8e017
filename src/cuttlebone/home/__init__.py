"""The household and the views that checks look at."""
