"""Views: they introduce a request to a service or a selector, and pick a template."""
