"""From readings to a verdict: likelihood, posterior, next question, mating, lookalikes, rules.

The way of the data: `traits` says what of an end a feature shows, `likelihood` weighs one reading
against one trait, `hypotheses` lays out every row (and "none of these") as arrays, `posterior`
multiplies, `question` looks for the reading that would tell most, `explain` puts the same numbers
into words, `engine` joins them into a `Verdict`. Nothing here knows a screen, a file or a clock.
"""
