"""Large runs with a clock: medians and ratios of one run beside a named baseline."""
