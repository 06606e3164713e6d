"""A user's lawns.yaml: one file of records for each part of it, put together by `site`."""
