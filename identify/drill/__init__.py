"""Simulated parts and people: practice, and proof of how often the answers are right."""
