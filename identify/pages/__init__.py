"""Verdicts and tables as text, JSON and printable pages; nothing here decides anything."""
