"""The full-screen interview: screens draw a frozen snapshot and report keys; they decide nothing.

`app` is the only place where a message becomes a new state: message, `session.apply`,
`session.conclude`, new `Snapshot`, redraw. `view` holds pure functions from a snapshot to lines of
text; `widgets` put lines on the terminal; `screens` say which lines and which keys; `run` runs
it all on a terminal.
"""
