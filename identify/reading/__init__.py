"""What a person types -> readings: numbers, units, choices, `name=value`, what they agree on."""
