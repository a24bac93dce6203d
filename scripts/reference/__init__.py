"""Reference cases of others beside what tapeline finds: reading, finding, comparing."""
