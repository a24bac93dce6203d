"""Other people's series of counts and ratings: read, forecast before each session, scored."""
