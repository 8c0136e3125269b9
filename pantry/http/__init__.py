"""The server: routes, sign-in, problem details, news, the client's files. No rule and no SQL here.

A handler translates: what came in for the one door or a report, what they answered for the wire.
"""
