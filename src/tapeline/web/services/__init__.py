"""Services write: each opens the transaction, calls the core and saves. Keyword-only."""
