"""The web face: the same answer as the command, for this computer only. Read-only; nothing is stored."""
