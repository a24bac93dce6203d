"""The packet of one session: everything that is printed for it, gathered as finished words.

`whole` is the front door; one file beside it per page or kind of page.
"""
