"""What is said after an answer: whether it is saved, where things stand, what is new. Once each."""

from identify.model.feature import Feature
from identify.model.verdict import Verdict, VerdictKind
from identify.pages.interview import MAY_STOP, beware, more_warnings, new_warnings, standing
from identify.pages.words import suspect_words
from identify.plain.console import Console


class Telling:
    """Tells a person what follows, and remembers what it told."""

    def __init__(self, console: Console) -> None:
        self.console = console
        self.complained = False
        self.warned: set[str] = set()
        self.suspected: set[Feature] = set()

    def noted(self, sentence: str, trouble: str) -> None:
        """Say what was taken, and whether it is on the disk; why not, only once."""
        self.console.say(sentence, "Not saved. " if trouble else "Saved. ")
        if trouble and not self.complained:
            self.console.say(f"{trouble} The interview goes on without.")
            self.complained = True

    def report(self, verdict: Verdict) -> None:
        """Say where things stand, and what is new: suspects, warnings, an identity."""
        self.console.say(standing(verdict))
        for suspect in verdict.suspects:
            if suspect.reading.feature not in self.suspected:
                self.console.say(f"{suspect_words(suspect)} Type r to do so.", "Suspect: ")
        self.suspected = {each.reading.feature for each in verdict.suspects}
        told, waiting = new_warnings(verdict, self.warned)
        for warning in told:
            self.console.say(beware(warning))
        self.warned |= {each.rule for each in told}
        if waiting:
            self.console.say(more_warnings(waiting))
        if verdict.kind is VerdictKind.IDENTIFIED and verdict.question:
            self.console.say(f"{verdict.sentence} {MAY_STOP}")
