"""`whichend jobs VERB`: one module a verb, each a command as any other."""

VERBS = {
    "list": "the jobs begun last",
    "find": "jobs by reference, customer, end, thread, date or any word that was said",
    "show": "one job with all that is kept of it",
    "reopen": "go on with an interview, finished or not",
    "correct": "change what was read or said of a job",
    "discard": "list a job no more; its file stays",
    "delete-customer": "take the name of a customer out of every job",
    "recheck": "reckon again with today's tables and rules, and say what changed",
    "slip": "the slip that goes to the workshop with a hose",
    "label": "a label for each end that was measured",
    "report": "all that is kept of a job, with drawings, to print or send",
    "export": "write jobs as JSON Lines or as a table",
    "import": "take in jobs that were exported",
}
