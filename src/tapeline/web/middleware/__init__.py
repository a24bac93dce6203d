"""What happens around every page: headers, which caseload is open, calm faults."""
